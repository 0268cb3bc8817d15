/** Gauss rules by Newton's method on the orthogonal polynomials, held by tests against published nodes. */

export interface Rule {
  nodes: Float64Array;
  weights: Float64Array;
}

const legendreRules = new Map<number, Rule>();
const hermiteRules = new Map<number, Rule>();

/** Gauss–Legendre on [−1, 1]: exact for polynomials of degree 2n − 1. */
export function gaussLegendre(n: number): Rule {
  const known = legendreRules.get(n);
  if (known) return known;
  const nodes = new Float64Array(n);
  const weights = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5)); // Tricomi's start
    let derivative = 1;
    for (let step = 0; step < 100; step++) {
      let previous = 1;
      let value = x;
      for (let k = 2; k <= n; k++) {
        const next = ((2 * k - 1) * x * value - (k - 1) * previous) / k;
        previous = value;
        value = next;
      }
      derivative = (n * (x * value - previous)) / (x * x - 1);
      const move = value / derivative;
      x -= move;
      if (Math.abs(move) < 1e-16) break;
    }
    nodes[n - 1 - i] = x;
    weights[n - 1 - i] = 2 / ((1 - x * x) * derivative * derivative);
  }
  const rule = { nodes, weights };
  legendreRules.set(n, rule);
  return rule;
}

/** Gauss–Hermite for the weight exp(−x²) on the real line. */
export function gaussHermite(n: number): Rule {
  const known = hermiteRules.get(n);
  if (known) return known;
  const nodes = new Float64Array(n);
  const weights = new Float64Array(n);
  const found: number[] = [];
  // orthonormal recurrence; roots from the largest down, each started from its neighbours
  const evaluate = (x: number): [number, number] => {
    let previous = 0;
    let value = Math.PI ** -0.25;
    for (let k = 1; k <= n; k++) {
      const next = x * Math.sqrt(2 / k) * value - Math.sqrt((k - 1) / k) * previous;
      previous = value;
      value = next;
    }
    return [value, Math.sqrt(2 * n) * previous];
  };
  for (let i = 0; i < Math.ceil(n / 2); i++) {
    let x =
      i === 0
        ? Math.sqrt(2 * n + 1) - 1.85575 * (2 * n + 1) ** (-1 / 6)
        : i === 1
          ? found[0] - (1.14 * n ** 0.426) / found[0]
          : i === 2
            ? 1.86 * found[1] - 0.86 * found[0]
            : i === 3
              ? 1.91 * found[2] - 0.91 * found[1]
              : 2 * found[i - 1] - found[i - 2];
    if (n % 2 === 1 && i === (n - 1) / 2) x = 0;
    let slope = 1;
    for (let step = 0; step < 100; step++) {
      const [value, derivative] = evaluate(x);
      slope = derivative;
      const move = value / derivative;
      x -= move;
      if (Math.abs(move) < 1e-15) break;
    }
    found.push(x);
    nodes[n - 1 - i] = x;
    nodes[i] = -x;
    weights[i] = weights[n - 1 - i] = 2 / (slope * slope);
  }
  const rule = { nodes, weights };
  hermiteRules.set(n, rule);
  return rule;
}
