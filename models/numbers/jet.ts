/**
 * Jet = second-order dual number: a value with its gradient and Hessian over a handful of local variables. The one shape
 * in which counts, detection probabilities, cluster sizes and transect effects carry their derivatives. Most are written
 * once, as the textbook writes them, and their derivatives follow from the chain rule (Griewank & Walther 2008, ch. 13);
 * the likelihood carries them on to the model's parameters.
 *
 * Functions that are called for every cluster and node write into a jet of the caller's; it may hold more variables than
 * they fill, for entries of the first ones keep their places.
 */

export interface Jet {
  value: number;
  /** one a local variable */
  gradient: number[];
  /** lower triangle, row by row: entry (i, j ≤ i) at i(i+1)/2 + j */
  hessian: number[];
}

/** Place of (i, j) in a lower triangle, j ≤ i. */
export const entry = (i: number, j: number): number => ((i * (i + 1)) >> 1) + j;

/** Made in one go: for some five numbers a plain list is made several times faster than a typed one. */
const zeros = (n: number): number[] => new Array<number>(n).fill(0);

export function constant(value: number, variables: number): Jet {
  return {
    value,
    gradient: zeros(variables),
    hessian: zeros((variables * (variables + 1)) / 2),
  };
}

export function variable(value: number, index: number, variables: number): Jet {
  const jet = constant(value, variables);
  jet.gradient[index] = 1;
  return jet;
}

/** Sets value and derivatives to 0. */
export function clear(jet: Jet): void {
  const { gradient, hessian } = jet;
  jet.value = 0;
  for (let i = 0; i < gradient.length; i++) gradient[i] = 0;
  for (let k = 0; k < hessian.length; k++) hessian[k] = 0;
}

/** f(a), given f, f′ and f″ at a's value. */
export function compose(a: Jet, f: number, f1: number, f2: number): Jet {
  const n = a.gradient.length;
  const out = constant(f, n);
  for (let i = 0, k = 0; i < n; i++) {
    const gi = a.gradient[i];
    out.gradient[i] = f1 * gi;
    for (let j = 0; j <= i; j++, k++) out.hessian[k] = f1 * a.hessian[k] + f2 * gi * a.gradient[j];
  }
  return out;
}

/** f(a, b), given f as a jet of two variables at the values of a and b. */
export function composeTwo(a: Jet, b: Jet, f: Jet): Jet {
  const [fa, fb] = f.gradient;
  const [faa, fab, fbb] = f.hessian;
  const n = a.gradient.length;
  const out = constant(f.value, n);
  for (let i = 0, k = 0; i < n; i++) {
    const ai = a.gradient[i];
    const bi = b.gradient[i];
    out.gradient[i] = fa * ai + fb * bi;
    for (let j = 0; j <= i; j++, k++) {
      const aj = a.gradient[j];
      const bj = b.gradient[j];
      out.hessian[k] =
        fa * a.hessian[k] +
        fb * b.hessian[k] +
        faa * ai * aj +
        fab * (ai * bj + bi * aj) +
        fbb * bi * bj;
    }
  }
  return out;
}

/** s·a + t·b + c */
export function combine(s: number, a: Jet, t: number, b: Jet, c = 0): Jet {
  const n = a.gradient.length;
  const out = constant(s * a.value + t * b.value + c, n);
  for (let i = 0; i < n; i++) out.gradient[i] = s * a.gradient[i] + t * b.gradient[i];
  for (let k = 0; k < out.hessian.length; k++) out.hessian[k] = s * a.hessian[k] + t * b.hessian[k];
  return out;
}

export function multiply(a: Jet, b: Jet): Jet {
  const n = a.gradient.length;
  const out = constant(a.value * b.value, n);
  for (let i = 0, k = 0; i < n; i++) {
    out.gradient[i] = a.value * b.gradient[i] + b.value * a.gradient[i];
    for (let j = 0; j <= i; j++, k++) {
      out.hessian[k] =
        a.value * b.hessian[k] +
        b.value * a.hessian[k] +
        a.gradient[i] * b.gradient[j] +
        a.gradient[j] * b.gradient[i];
    }
  }
  return out;
}

/** s·a + c */
export const scale = (a: Jet, s: number, c = 0): Jet => compose(a, s * a.value + c, s, 0);

export function exp(a: Jet): Jet {
  const e = Math.exp(a.value);
  return compose(a, e, e, e);
}

export function log(a: Jet): Jet {
  const inverse = 1 / a.value;
  return compose(a, Math.log(a.value), inverse, -inverse * inverse);
}
