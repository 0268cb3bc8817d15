/** Where the climb begins: rough values from totals and moments, or those of an earlier fit. */

import type { SurveyRows } from '../data.ts';
import type { Likelihood } from '../likelihood.ts';
import { fillKnown, type KnownValue } from '../parts.ts';

/** Starts to try; several where the surface may have more than one top. */
export function startValues(
  rows: SurveyRows,
  likelihood: Likelihood,
  known: readonly KnownValue[],
): Float64Array[] {
  const { parts, layout } = likelihood;
  const n = rows.clusters.length;
  const area = rows.segments.reduce((sum, s) => sum + s.areaM2, 0);
  const extra = rows.clusters.reduce((sum, c) => sum + c.count - 1, 0) / Math.max(1, n);
  const spread =
    rows.clusters.reduce((sum, c) => sum + (c.count - 1 - extra) ** 2, 0) / Math.max(1, n - 1);
  const widest = likelihood.greatestHalfWidthM;
  const detected = parts.shape === null ? 0.85 : 0.65;
  const base = new Float64Array(layout.parameters.length);
  const set = (index: number, value: number): void => {
    if (index >= 0) base[index] = value;
  };
  set(layout.density, Math.log(n / area / detected));
  for (const [i, g] of parts.divers.entries()) set(layout.divers[i], startLogit(rows, g.design));
  if (parts.sizeFamily !== 'single') {
    for (let i = 0; i < parts.size.length; i++) set(layout.size + i, 0);
    const intercept = parts.size.findIndex((t) => t.kind === 'intercept');
    if (intercept >= 0) set(layout.size + intercept, Math.log(Math.max(extra, 0.01)));
  }
  // variance m + m²/k; a sample without excess starts at a moderate k
  set(layout.logK, spread > extra * 1.05 ? Math.log((extra * extra) / (spread - extra)) : 2);
  set(layout.dispersion, 0);
  set(layout.logTau, Math.log(0.4));
  set(layout.logSigma, Math.log(widest * 0.6));
  set(layout.logB, Math.log(3));
  fillKnown(layout, known, base);
  const starts = [base];
  if (
    layout.logB >= 0 &&
    !known.some((k) => k.part === 'shape' && k.term === layout.parameters[layout.logB].term)
  ) {
    for (const [sigma, b] of [
      [0.1, 0.8],
      [0.3, 2],
      [0.8, 6],
      [0.95, 20],
    ]) {
      const other = Float64Array.from(base);
      other[layout.logSigma] = Math.log(widest * sigma);
      other[layout.logB] = Math.log(b);
      starts.push(other);
    }
  }
  return starts;
}

/** From the two passes of a design: q = second / first. */
function startLogit(rows: SurveyRows, design: 'belt' | 'distance'): number {
  let first = 0;
  let second = 0;
  for (const c of rows.clusters) {
    const s = rows.segments[c.segment];
    if (s.design !== design || s.secondary === null) continue;
    if (c.role === 'primary') first++;
    else second++;
  }
  const missed = Math.min(0.7, Math.max(0.05, (second + 0.5) / (first + 1)));
  return Math.log((1 - missed) / missed);
}
