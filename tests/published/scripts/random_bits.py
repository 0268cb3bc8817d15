"""Output of the random number generators, written down from the papers in plain Python integers.

SplitMix64 (Steele, Lea & Flood 2014) and xoshiro128** (Blackman & Vigna 2021), for tests/models/random.
Writes ../data/random_bits.json, 64-bit numbers as text. Run: python3 random_bits.py
"""

import json
import pathlib

M64, M32 = 2**64 - 1, 2**32 - 1


def split_mix(start, n):
    z = (start + n * 0x9E3779B97F4A7C15) & M64
    z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & M64
    z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & M64
    return z ^ (z >> 31)


def rotate(x, k):
    return ((x << k) | (x >> (32 - k))) & M32


def xoshiro(state, count):
    s = list(state)
    out = []
    for _ in range(count):
        out.append((rotate((s[1] * 5) & M32, 7) * 9) & M32)
        t = (s[1] << 9) & M32
        s[2] ^= s[0]
        s[3] ^= s[1]
        s[1] ^= s[2]
        s[0] ^= s[3]
        s[2] ^= t
        s[3] = rotate(s[3], 11)
    return out


out = {
    "split_mix": [{"start": str(start), "outputs": [str(split_mix(start, n)) for n in range(1, 6)]} for start in (0, 1234567, 2**64 - 1)],
    "xoshiro": [{"state": state, "outputs": xoshiro(state, 10)} for state in ([1, 2, 3, 4], [2**32 - 1, 0, 0x80000000, 12345])],
}
path = pathlib.Path(__file__).parent / "../data/random_bits.json"
path.write_text(json.dumps(out, indent=1) + "\n")
