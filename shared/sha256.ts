/**
 * SHA-256 (FIPS 180-4), so that what a result was made from can be told by its files' digests. Written out because the web's
 * own is missing in pages that were not served securely.
 */

/** Bits of the fractional parts of square roots (start) and of cube roots (rounds) of the first primes, as the standard has them. */
const START = Uint32Array.from(firstPrimes(8), (p) => fraction(Math.sqrt(p)));
const ROUNDS = Uint32Array.from(firstPrimes(64), (p) => fraction(Math.cbrt(p)));
const BLOCK = 64;

/** 64 hexadecimal digits, as `sha256sum` prints them. */
export function sha256(bytes: Uint8Array): string {
  const state = START.slice();
  const words = new Uint32Array(BLOCK);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const whole = bytes.length - (bytes.length % BLOCK);
  for (let at = 0; at < whole; at += BLOCK) digest(state, view, at, words);
  const end = lastBlocks(bytes.subarray(whole), bytes.length);
  for (let at = 0; at < end.byteLength; at += BLOCK) digest(state, end, at, words);
  return [...state].map((word) => word.toString(16).padStart(8, '0')).join('');
}

/** What is left of the bytes, a bit, zeros, and how many bits there were. */
function lastBlocks(rest: Uint8Array, length: number): DataView {
  const padded = new Uint8Array(rest.length + 9 > BLOCK ? 2 * BLOCK : BLOCK);
  padded.set(rest);
  padded[rest.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, Math.floor(length / 2 ** 29));
  view.setUint32(padded.length - 4, (length * 8) >>> 0);
  return view;
}

/** One block into the state; `w` is room for the words that it becomes. */
function digest(state: Uint32Array, view: DataView, at: number, w: Uint32Array): void {
  for (let i = 0; i < 16; i++) w[i] = view.getUint32(at + 4 * i);
  for (let i = 16; i < BLOCK; i++) {
    const [x, y] = [w[i - 15], w[i - 2]];
    const s0 = turned(x, 7) ^ turned(x, 18) ^ (x >>> 3);
    const s1 = turned(y, 17) ^ turned(y, 19) ^ (y >>> 10);
    w[i] = w[i - 16] + s0 + w[i - 7] + s1;
  }
  let [a, b, c, d, e, f, g, h] = state;
  for (let i = 0; i < BLOCK; i++) {
    const s1 = turned(e, 6) ^ turned(e, 11) ^ turned(e, 25);
    const t1 = (h + s1 + ((e & f) ^ (~e & g)) + ROUNDS[i] + w[i]) | 0;
    const s0 = turned(a, 2) ^ turned(a, 13) ^ turned(a, 22);
    const t2 = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    h = g;
    g = f;
    f = e;
    e = (d + t1) | 0;
    d = c;
    c = b;
    b = a;
    a = (t1 + t2) | 0;
  }
  state[0] += a;
  state[1] += b;
  state[2] += c;
  state[3] += d;
  state[4] += e;
  state[5] += f;
  state[6] += g;
  state[7] += h;
}

function turned(x: number, bits: number): number {
  return (x >>> bits) | (x << (32 - bits));
}

/** The first 32 bits behind the point; a root of these primes has 45 bits or more behind it in a double. */
function fraction(root: number): number {
  return Math.floor((root % 1) * 2 ** 32);
}

function firstPrimes(count: number): number[] {
  const primes: number[] = [];
  for (let n = 2; primes.length < count; n++) if (primes.every((p) => n % p !== 0)) primes.push(n);
  return primes;
}
