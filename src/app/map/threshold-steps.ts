/** A typed threshold, and the next one that a key steps to. */

/** Thresholds are looked through in steps of 1, 2, 5, 10, …: densities span powers of ten. */
const STEPS = [1, 2, 5, 10] as const;
/** Below any density that a survey can tell from none, and as high as analysis.json may go. */
const LEAST_PER_M2 = 1e-6;
const MOST_PER_M2 = 1e6;

/** Mussels per m²; null where it is no number above 0 or beyond what a threshold may be. */
export function readThreshold(typed: string): number | null {
  const text = typed.trim();
  if (!/^(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text)) return null;
  const perM2 = Number(text);
  return perM2 >= LEAST_PER_M2 && perM2 <= MOST_PER_M2 ? perM2 : null;
}

/** The next larger or smaller round threshold. */
export function steppedThreshold(perM2: number, way: 1 | -1): number {
  const power = Math.floor(Math.log10(perM2));
  const round = [power - 1, power, power + 1].flatMap((p) =>
    STEPS.map((step) => Number((step * 10 ** p).toPrecision(1))),
  );
  const next =
    way > 0 ? round.find((x) => x > perM2 * 1.001) : round.findLast((x) => x < perM2 / 1.001);
  return Math.min(MOST_PER_M2, Math.max(LEAST_PER_M2, next ?? perM2));
}
