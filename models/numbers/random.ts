/**
 * Chance that can be repeated: the same seed gives the same numbers on any number of threads.
 *
 * Generator: xoshiro128** 1.1 (Blackman & Vigna 2021, ACM Trans. Math. Softw. 47(4):36), period 2^128 − 1.
 * Seeding: SplitMix64 (Steele, Lea & Flood 2014, OOPSLA, p. 453), as the authors of xoshiro advise.
 * The bits and the uniforms are the same everywhere. The other distributions use Math.log and Math.exp, whose last
 * digit a language standard does not fix: results are byte for byte the same on one engine (Node 20 is what counts).
 */

/** A source of random numbers. Every method moves the one state on. */
export interface Random {
  /** 32 random bits as a whole number from 0 to 2^32 − 1 */
  bits(): number;
  /** uniform on [0, 1), 53 bits */
  uniform(): number;
  /** uniform whole number from 0 to n − 1; throws unless n is whole and from 1 to 2^32 */
  integer(n: number): number;
  /** standard normal */
  normal(): number;
  /** gamma with mean `shape` and scale 1; throws unless shape is positive and finite */
  gamma(shape: number): number;
  /** Poisson; throws unless the mean is from 0 to 1e9 */
  poisson(mean: number): number;
  /** negative binomial with variance mean + mean²/r, r its size; r = Infinity is the Poisson */
  negativeBinomial(mean: number, shapeR: number): number;
  /** a new array in random order */
  shuffle<T>(items: readonly T[]): T[];
}

/** The state of xoshiro128**: four 32-bit words, not all zero. */
export type State = [number, number, number, number];

/** A generator from a whole seed ≥ 0. */
export function seeded(seed: number): Random {
  return fromState(expand(wholeBits('seed', seed)));
}

/**
 * Stream number `index` of a seed: streams of one seed and of different seeds are independent for all purposes
 * (their 128-bit starts are hashes of seed and index). Give each replicate its own, whatever thread runs it.
 */
export function stream(seed: number, index: number): Random {
  const hashed = mix64(wholeBits('seed', seed) + GOLDEN_64);
  return fromState(expand(mix64(hashed ^ mix64(wholeBits('index', index) + STREAM_64))));
}

/** A generator from a given state, for tests against published output. */
export function fromState(state: State): Random {
  if (state.every((word) => word === 0)) {
    throw new RangeError('random: got a state of four zeros, expected at least one word above 0');
  }
  const bits = xoshiro128(state);
  const uniform = () => uniform53(bits);
  const normal = () => polarNormal(uniform);
  const gamma = (shape: number) => gammaVariate(shape, uniform, normal);
  const poisson = (mean: number) => poissonVariate(mean, uniform);
  const integer = (n: number) => integerBelow(n, bits);
  return {
    bits,
    uniform,
    integer,
    normal,
    gamma,
    poisson,
    negativeBinomial: (mean, shapeR) => negativeBinomialVariate(mean, shapeR, gamma, poisson),
    shuffle: (items) => shuffled(items, integer),
  };
}

// ---- bits ----

/** xoshiro128** with shift 9 and rotations 7 and 11 (Blackman & Vigna 2021). */
function xoshiro128(state: State): () => number {
  let [a, b, c, d] = state;
  return () => {
    const product = Math.imul(b, 5);
    const result = Math.imul((product << 7) | (product >>> 25), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    return result;
  };
}

const MASK_64 = (1n << 64n) - 1n;
/** 2^64 / golden ratio, the increment of SplitMix64 */
const GOLDEN_64 = 0x9e3779b97f4a7c15n;
/** sets the hash of an index apart from that of a seed; any odd number does (here 2^64 (√2 − 1)) */
const STREAM_64 = 0x6a09e667f3bcc909n;

/** The output function of SplitMix64 (a bijection of 64 bits). */
function mix64(value: bigint): bigint {
  let z = value & MASK_64;
  z = ((z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n) & MASK_64;
  z = ((z ^ (z >> 27n)) * 0x94d049bb133111ebn) & MASK_64;
  return z ^ (z >> 31n);
}

/** Output number `n` (from 1) of SplitMix64 from a 64-bit start. */
export function splitMix64(start: bigint, n: number): bigint {
  return mix64(start + GOLDEN_64 * BigInt(n));
}

/** Two outputs of SplitMix64 fill the 128 bits, low words first. Two zero outputs in a row cannot occur (bijection). */
function expand(start: bigint): State {
  const first = splitMix64(start, 1);
  const second = splitMix64(start, 2);
  return [first, first >> 32n, second, second >> 32n].map((word) =>
    Number(word & 0xffffffffn),
  ) as State;
}

function wholeBits(what: string, value: number): bigint {
  if (!Number.isSafeInteger(value) || value < 0) {
    throw new RangeError(
      `random: got ${what} ${value}, expected a whole number from 0 to 2^53 - 1`,
    );
  }
  return BigInt(value);
}

// ---- distributions ----

function uniform53(bits: () => number): number {
  const high = bits() >>> 5;
  const low = bits() >>> 6;
  return (high * 0x4000000 + low) / 0x20000000000000;
}

/** Draws above the last whole multiple of n are drawn again, so that no value is favoured. */
function integerBelow(n: number, bits: () => number): number {
  if (!Number.isInteger(n) || n < 1 || n > 0x100000000) {
    throw new RangeError(`random integer: got n = ${n}, expected a whole number from 1 to 2^32`);
  }
  const limit = 0x100000000 - (0x100000000 % n);
  let draw = bits();
  while (draw >= limit) draw = bits();
  return draw % n;
}

/** Polar method (Marsaglia & Bray 1964, SIAM Review 6:260); the second normal of the pair is not kept. */
function polarNormal(uniform: () => number): number {
  for (;;) {
    const x = 2 * uniform() - 1;
    const y = 2 * uniform() - 1;
    const square = x * x + y * y;
    if (square > 0 && square < 1) return x * Math.sqrt((-2 * Math.log(square)) / square);
  }
}

/** Marsaglia & Tsang 2000 (ACM Trans. Math. Softw. 26:363); shapes below 1 by their section 6. */
function gammaVariate(shape: number, uniform: () => number, normal: () => number): number {
  if (!(shape > 0 && shape < Infinity)) {
    throw new RangeError(`random gamma: got shape ${shape}, expected a positive finite number`);
  }
  if (shape < 1) {
    return gammaVariate(shape + 1, uniform, normal) * (1 - uniform()) ** (1 / shape);
  }
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normal();
    const v = (1 + c * x) ** 3;
    if (v <= 0) continue;
    if (Math.log(1 - uniform()) < (x * x) / 2 + d - d * v + d * Math.log(v)) return d * v;
  }
}

/** From this mean on rejection is used: Hörmann's constants hold for means of 10 and more. */
const POISSON_REJECTION_FROM = 10;

function poissonVariate(mean: number, uniform: () => number): number {
  if (!(mean >= 0 && mean <= 1e9)) {
    throw new RangeError(`random Poisson: got mean ${mean}, expected a number from 0 to 1e9`);
  }
  return mean < POISSON_REJECTION_FROM
    ? poissonBySearch(mean, uniform)
    : poissonByRejection(mean, uniform);
}

/** Inversion: walk up the distribution until it passes the uniform. Below mean 10 the term is 0 long before 1,000. */
function poissonBySearch(mean: number, uniform: () => number): number {
  let left = uniform();
  let term = Math.exp(-mean);
  let k = 0;
  while (left >= term && term > 0) {
    left -= term;
    k += 1;
    term *= mean / k;
  }
  return k;
}

/** Transformed rejection with squeeze, algorithm PTRS (Hörmann 1993, Insurance: Math. Econ. 12:39). */
function poissonByRejection(mean: number, uniform: () => number): number {
  const logMean = Math.log(mean);
  const b = 0.931 + 2.53 * Math.sqrt(mean);
  const a = -0.059 + 0.02483 * b;
  const inverseAlpha = 1.1239 + 1.1328 / (b - 3.4);
  const squeeze = 0.9277 - 3.6224 / (b - 2);
  for (;;) {
    const u = uniform() - 0.5;
    const v = 1 - uniform();
    const edge = 0.5 - Math.abs(u);
    const k = Math.floor(((2 * a) / edge + b) * u + mean + 0.43);
    if (edge >= 0.07 && v <= squeeze) return k;
    if (!(k >= 0) || (edge < 0.013 && v > edge)) continue;
    const logRatio = Math.log((v * inverseAlpha) / (a / (edge * edge) + b));
    if (logRatio <= k * logMean - mean - logFactorial(k)) return k;
  }
}

/** log k!: by product to 15, then Stirling's series to 1/k^7 (Abramowitz & Stegun 6.1.41; error below 1e-13). */
function logFactorial(k: number): number {
  if (k <= 15) {
    let product = 1;
    for (let i = 2; i <= k; i++) product *= i;
    return Math.log(product);
  }
  const r = 1 / (k * k);
  const series = (1 / 12 - r * (1 / 360 - r * (1 / 1260 - r / 1680))) / k;
  return (k + 0.5) * Math.log(k) - k + 0.5 * Math.log(2 * Math.PI) + series;
}

/** A Poisson whose mean is itself gamma distributed (Greenwood & Yule 1920). */
function negativeBinomialVariate(
  mean: number,
  shapeR: number,
  gamma: (shape: number) => number,
  poisson: (mean: number) => number,
): number {
  if (!(shapeR > 0)) {
    throw new RangeError(
      `random negative binomial: got size ${shapeR}, expected a positive number`,
    );
  }
  if (shapeR === Infinity || mean === 0) return poisson(mean);
  return poisson((gamma(shapeR) * mean) / shapeR);
}

/** Fisher & Yates, from the end (Durstenfeld 1964, Comm. ACM 7:420). */
function shuffled<T>(items: readonly T[], integer: (n: number) => number): T[] {
  const out = items.slice();
  for (let i = out.length - 1; i > 0; i--) {
    const j = integer(i + 1);
    [out[i], out[j]] = [out[j] as T, out[i] as T];
  }
  return out;
}
