/**
 * The total if the substrates that observers recorded hold on the whole lake, where the map says another along the transects
 * (METHOD.md: Substrates recorded and mapped).
 */

/** Metres of one transect that the map gives one class and the observers another, or the same. */
export interface Stretch {
  transect: number;
  mapped: number;
  recorded: number;
  lengthM: number;
}

export interface Reclassified {
  total: number;
  /** by the lengths alone, the density of every class taken as known; null with one transect */
  se: number | null;
}

/** Share of each recorded class in the length of a mapped one; null where no transect crosses it. */
export function recordedShares(stretches: readonly Stretch[]): Map<number, Map<number, number>> {
  const shares = new Map<number, Map<number, number>>();
  for (const { mapped, recorded, lengthM } of stretches) {
    const own = shares.get(mapped) ?? new Map<number, number>();
    own.set(recorded, (own.get(recorded) ?? 0) + lengthM);
    shares.set(mapped, own);
  }
  for (const own of shares.values()) {
    const all = [...own.values()].reduce((a, b) => a + b, 0);
    for (const [recorded, lengthM] of own) own.set(recorded, lengthM / all);
  }
  return shares;
}

/**
 * Σ_m Σ_r P(r | m) V_mr with P the shares. They are ratios of sums over transects, so by linearisation the total varies by
 * K/(K − 1) Σ_t e_t², e_t = Σ_m Σ_r (l_tmr − P(r | m) l_tm) V_mr / L_m (Cochran 1977, ch. 6), transects being the units.
 * @param value V_mr: the total of the bed mapped as m if all of it were r
 * @throws RangeError without a stretch
 */
export function reclassifiedTotal(
  stretches: readonly Stretch[],
  value: (mapped: number, recorded: number) => number,
): Reclassified {
  if (stretches.length === 0) throw new RangeError('got no stretch, expected at least one');
  const shares = recordedShares(stretches);
  const lengths = new Map<number, number>();
  for (const { mapped, lengthM } of stretches)
    lengths.set(mapped, (lengths.get(mapped) ?? 0) + lengthM);
  const means = new Map<number, number>();
  for (const [mapped, own] of shares) {
    let mean = 0;
    for (const [recorded, share] of own) mean += share * value(mapped, recorded);
    means.set(mapped, mean);
  }
  const total = [...means.values()].reduce((a, b) => a + b, 0);
  const errors = new Map<number, number>();
  for (const { transect, mapped, recorded, lengthM } of stretches) {
    const own = value(mapped, recorded) - (means.get(mapped) ?? 0);
    const part = (lengthM / (lengths.get(mapped) ?? lengthM)) * own;
    errors.set(transect, (errors.get(transect) ?? 0) + part);
  }
  const k = errors.size;
  if (k < 2) return { total, se: null };
  const squares = [...errors.values()].reduce((sum, e) => sum + e * e, 0);
  return { total, se: Math.sqrt((k / (k - 1)) * squares) };
}
