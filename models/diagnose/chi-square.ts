import { incompleteGammaUpper } from '../numbers/special.ts';

/** Pr(χ² > x) with df > 0 degrees of freedom, whole or not. */
export function chiSquareTail(x: number, df: number): number {
  return incompleteGammaUpper(df / 2, x / 2);
}
