"""Integrals of detection functions over a strip: mpmath 1.2.1, 30 digits, by quadrature and by closed form, which must agree.

For tests/models/shapes, tests/models/simulate and tests/published/distance. Writes ../data/detection_means.json.
Run: /usr/bin/python3 detection_means.py
"""

import json
import pathlib

import mpmath as mp

mp.mp.dps = 30


def integral(g, s, w):
    cuts = sorted(c * s for c in (mp.mpf("0.25"), mp.mpf("0.5"), 1, 2, 4, 8) if c * s < w)
    return mp.quad(g, [0, *cuts, w])


def same(a, b):
    assert abs(a / b - 1) < mp.mpf(10) ** -18, (a, b)
    return a


def half_normal(s, w):
    closed = s * mp.sqrt(mp.pi / 2) * mp.erf(w / (s * mp.sqrt(2)))
    return same(closed, integral(lambda y: mp.exp(-(y**2) / (2 * s**2)), s, w))


def hazard_rate(s, b, w):
    t = (w / s) ** -b
    closed = w * -mp.expm1(-t) + s * mp.gammainc(1 - 1 / b, t)
    return same(closed, integral(lambda y: 1 if y == 0 else -mp.expm1(-((y / s) ** -b)), s, w))


def either(p, s):
    """Two observers alike, full independence, half-normal, w = 1."""
    closed = 2 * p * half_normal(s, mp.mpf(1)) - p**2 * half_normal(s / mp.sqrt(2), mp.mpf(1))
    g = lambda y: p * mp.exp(-(y**2) / (2 * s**2))
    return same(closed, integral(lambda y: 1 - (1 - g(y)) ** 2, s, mp.mpf(1)))


number = mp.mpf
out = {
    "made_with": {"mpmath": mp.__version__},
    "half_normal": [[float(s), float(half_normal(number(s), number(1)))] for s in ("0.1", "0.2", "0.3", "0.5", "1", "2", "5")],
    "hazard_rate": [
        [*map(float, row), float(hazard_rate(*map(number, row)))]
        for row in (("0.3", "2", "1"), ("0.3", "3", "1"), ("0.5", "4", "1"), ("0.4", "2.5", "1"), ("10", "3", "20"))
    ],
    "two_observers": [[*map(float, row), float(either(*map(number, row)))] for row in (("0.8", "0.4"), ("0.6", "0.3"), ("1", "0.5"))],
}
path = pathlib.Path(__file__).parent / "../data/detection_means.json"
path.write_text(json.dumps(out, indent=1) + "\n")
