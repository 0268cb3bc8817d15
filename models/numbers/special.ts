/**
 * Special functions and quantiles, in double precision.
 * Accuracy is held by tests/models/special.test.ts against published tables.
 */

/** Coefficients of Stirling's series of log Γ: B₂ₖ / (2k(2k−1)) (Abramowitz & Stegun 1964, 6.1.41). */
const STIRLING = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156];
const HALF_LOG_2PI = 0.9189385332046727;
/** From here Stirling's series is exact to double precision. */
const STIRLING_FROM = 12;

/** log Γ(x), x > 0. */
export function logGamma(x: number): number {
  if (!(x > 0)) throw new RangeError(`logGamma needs x > 0, got ${x}`);
  let shift = 0;
  let y = x;
  if (y < STIRLING_FROM) {
    let product = 1;
    while (y < STIRLING_FROM) product *= y++;
    shift = -Math.log(product);
  }
  const inverse = 1 / y;
  const square = inverse * inverse;
  let series = 0;
  for (let i = STIRLING.length - 1; i >= 0; i--) series = series * square + STIRLING[i];
  return shift + (y - 0.5) * Math.log(y) - y + HALF_LOG_2PI + series * inverse;
}

/** Bernoulli numbers B₂…B₁₄, for the asymptotic series of ψ and ψ′ (A&S 6.3.18, 6.4.12). */
const BERNOULLI = [1 / 6, -1 / 30, 1 / 42, -1 / 30, 5 / 66, -691 / 2730, 7 / 6];

/** ψ(x) = d log Γ / dx, x > 0. */
export function digamma(x: number): number {
  let shift = 0;
  let y = x;
  for (; y < STIRLING_FROM; y++) shift -= 1 / y;
  const square = 1 / (y * y);
  let series = 0;
  for (let i = BERNOULLI.length - 1; i >= 0; i--)
    series = (series + BERNOULLI[i] / (2 * i + 2)) * square;
  return shift + Math.log(y) - 0.5 / y - series;
}

/** ψ′(x), x > 0. */
export function trigamma(x: number): number {
  let shift = 0;
  let y = x;
  for (; y < STIRLING_FROM; y++) shift += 1 / (y * y);
  const square = 1 / (y * y);
  let series = 0;
  for (let i = BERNOULLI.length - 1; i >= 0; i--) series = (series + BERNOULLI[i]) * square;
  return shift + 1 / y + 0.5 * square + series / y;
}

const logFactorials: number[] = [0, 0];

/** log n!, n a whole number ≥ 0. */
export function logFactorial(n: number): number {
  if (n > 1000) return logGamma(n + 1);
  for (let i = logFactorials.length; i <= n; i++)
    logFactorials[i] = logFactorials[i - 1] + Math.log(i);
  return logFactorials[n];
}

/**
 * Numerators and denominators, lowest power first, of the rational approximations of Cody (1969, Math. Comp. 23:631):
 * erf(x)/x by x², erfc(x) e^{x²} by x, and beyond 4 what is left of x erfc(x) e^{x²} below 1/√π, times x², by 1/x².
 */
const ERF_NEAR_0 = {
  upTo: 0.46875,
  above: [
    3209.3775891384694, 377.485237685302, 113.86415415105016, 3.1611237438705655,
    0.18577770618460315,
  ],
  below: [2844.236833439171, 1282.6165260773723, 244.02463793444417, 23.601290952344122, 1],
};
const ERFC = {
  upTo: 4,
  above: [
    1230.3393547979972, 2051.0783778260716, 1712.0476126340707, 881.952221241769, 298.6351381974001,
    66.11919063714163, 8.883149794388377, 0.5641884969886701, 2.1531153547440383e-8,
  ],
  below: [
    1230.3393548037495, 3439.3676741437216, 4362.619090143247, 3290.7992357334597,
    1621.3895745666903, 537.1811018620099, 117.6939508913125, 15.744926110709835, 1,
  ],
};
const ERFC_FAR = {
  above: [
    0.0006587491615298378, 0.016083785148742275, 0.12578172611122926, 0.36034489994980445,
    0.30532663496123236, 0.016315387137302097,
  ],
  below: [
    0.0023352049762686918, 0.06051834131244132, 0.5279051029514285, 1.8729528499234673,
    2.568520192289822, 1,
  ],
};
const INVERSE_SQRT_PI = 1 / Math.sqrt(Math.PI);

function ratio(x: number, { above, below }: { above: number[]; below: number[] }): number {
  let a = 0;
  let b = 0;
  for (let i = above.length - 1; i >= 0; i--) {
    a = a * x + above[i];
    b = b * x + below[i];
  }
  return a / b;
}

/** Error function. */
export function erf(x: number): number {
  if (Math.abs(x) <= ERF_NEAR_0.upTo) return x * ratio(x * x, ERF_NEAR_0);
  return x < 0 ? erfc(-x) - 1 : 1 - erfc(x);
}

/** Complementary error function; relative accuracy kept in the upper tail. */
export function erfc(x: number): number {
  if (x < ERF_NEAR_0.upTo) return 1 - erf(x);
  if (x > 27) return 0;
  const fall = Math.exp(-x * x);
  if (x <= ERFC.upTo) return fall * ratio(x, ERFC);
  const inverse = 1 / (x * x);
  return (fall / x) * (INVERSE_SQRT_PI - inverse * ratio(inverse, ERFC_FAR));
}

/** Standard normal distribution function. */
export function normalCdf(z: number): number {
  return z < 0 ? 0.5 * erfc(-z / Math.SQRT2) : 1 - 0.5 * erfc(z / Math.SQRT2);
}

/** Standard normal quantile, 0 < p < 1: a rational start (A&S 26.2.23), then Halley steps on the distribution function. */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`normalQuantile needs 0 < p < 1, got ${p}`);
  if (p > 0.5) return -normalQuantile(1 - p);
  const t = Math.sqrt(-2 * Math.log(p));
  let z = -(
    t -
    (2.515517 + t * (0.802853 + t * 0.010328)) /
      (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)))
  );
  for (let i = 0; i < 4; i++) {
    const e = (normalCdf(z) - p) * Math.sqrt(2 * Math.PI) * Math.exp((z * z) / 2);
    z -= e / (1 + (z * e) / 2);
  }
  return z;
}

/** Regularised incomplete beta I_x(a, b) by Lentz's continued fraction (A&S 26.5.8). */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = Math.exp(
    logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x),
  );
  const tiny = 1e-300;
  let c = 1;
  let d = 1 - ((a + b) * x) / (a + 1);
  d = 1 / (Math.abs(d) < tiny ? tiny : d);
  let h = d;
  for (let m = 1; m <= 500; m++) {
    for (const step of [
      (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m)),
      (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1)),
    ]) {
      d = 1 + step * d;
      c = 1 + step / c;
      d = 1 / (Math.abs(d) < tiny ? tiny : d);
      c = Math.abs(c) < tiny ? tiny : c;
      h *= d * c;
    }
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return (front * h) / a;
}

/** Regularised upper incomplete gamma Q(a, x): series below a + 1, Lentz's continued fraction beyond (A&S 6.5.29, 6.5.31). */
export function incompleteGammaUpper(a: number, x: number): number {
  if (!(a > 0) || !(x >= 0))
    throw new RangeError(`incompleteGammaUpper needs a > 0, x ≥ 0, got ${a}, ${x}`);
  if (x === 0) return 1;
  const front = Math.exp(a * Math.log(x) - x - logGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; term > sum * 1e-17; n++) {
      term *= x / (a + n);
      sum += term;
    }
    return 1 - front * sum;
  }
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let h = d;
  for (let n = 1; n <= 500; n++) {
    const an = -n * (n - a);
    b += 2;
    d = 1 / (an * d + b);
    c = b + an / c;
    h *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return front * h;
}

/** Student's t distribution function with `df` degrees of freedom. */
export function studentCdf(t: number, df: number): number {
  const tail = 0.5 * incompleteBeta(df / (df + t * t), df / 2, 0.5);
  return t > 0 ? 1 - tail : tail;
}

/** Student's t quantile, 0 < p < 1, df ≥ 1: bisection of the distribution function to double precision. */
export function studentQuantile(p: number, df: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`studentQuantile needs 0 < p < 1, got ${p}`);
  if (!(df >= 1)) throw new RangeError(`studentQuantile needs df ≥ 1, got ${df}`);
  if (p < 0.5) return -studentQuantile(1 - p, df);
  let low = 0;
  let high = 2;
  while (studentCdf(high, df) < p) high *= 2;
  for (let i = 0; i < 200 && high - low > 1e-15 * high; i++) {
    const middle = (low + high) / 2;
    if (studentCdf(middle, df) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Poisson distribution function Pr(N ≤ n). */
export function poissonCdf(n: number, mean: number): number {
  if (n < 0) return 0;
  if (mean === 0) return 1;
  let sum = 0;
  for (let i = 0; i <= n; i++) sum += Math.exp(i * Math.log(mean) - mean - logFactorial(i));
  return Math.min(1, sum);
}

/** Negative-binomial distribution function Pr(N ≤ n), size r and mean: I_{r/(r+mean)}(r, n+1). */
export function negativeBinomialCdf(n: number, mean: number, shapeR: number): number {
  if (n < 0) return 0;
  if (mean === 0) return 1;
  return incompleteBeta(shapeR / (shapeR + mean), shapeR, n + 1);
}

/** Probability of a logit. */
export function logistic(x: number): number {
  return 1 / (1 + Math.exp(-x));
}
