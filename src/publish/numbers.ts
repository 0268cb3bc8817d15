/** Figures in files that are read by machines. */

/** To 12 significant digits: keeps every digit that means something, drops the noise of binary sums (2.5000000000000004). */
export function tidy(x: number): number {
  return Number(x.toPrecision(12));
}

/** Degrees to 7 decimals, about 1 cm. */
export function degrees(x: number): number {
  return Number(x.toFixed(7));
}
