/** Where a search begins: rough values from totals and moments, or those of an earlier fit. */

import type { SurveyRows } from '../data.ts';
import type { Likelihood } from '../likelihood.ts';
import { fillKnown, type KnownValue } from '../parts.ts';

/** Where nothing better is known; σ as a share of half the width. The search leaves all of them. */
const START = {
  pOnBelts: 0.85,
  pOnDistance: 0.65,
  leastMissed: 0.05,
  mostMissed: 0.7,
  tau: 0.4,
  sigmaShare: 0.6,
  b: 3,
  leastM: 0.01,
  logK: 2,
};
/** Further starts of the hazard-rate, σ as a share of half the width and b: from a narrow spike to a step near the edge. */
const HAZARD_STARTS = [
  [0.1, 0.8],
  [0.3, 2],
  [0.8, 6],
  [0.95, 20],
];

/** Further starts with cluster size in the detection, logit p and its slope by log count: small clusters that are hardly detected. */
const SIZED_STARTS = [
  [-4, 2],
  [-6, 3],
];

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
  const detected = parts.shape === null ? START.pOnBelts : START.pOnDistance;
  const base = new Float64Array(layout.parameters.length);
  const set = (index: number, value: number): void => {
    if (index >= 0) base[index] = value;
  };
  set(layout.density, Math.log(n / area / detected));
  for (const [i, g] of parts.divers.entries()) set(layout.divers[i], startLogit(rows, g.design));
  if (parts.sizeFamily !== 'single') {
    for (let i = 0; i < parts.size.length; i++) set(layout.size + i, 0);
    const intercept = parts.size.findIndex((t) => t.kind === 'intercept');
    if (intercept >= 0) set(layout.size + intercept, Math.log(Math.max(extra, START.leastM)));
  }
  // variance m + m²/k; a sample without excess starts at a moderate k
  set(
    layout.logK,
    spread > extra * 1.05 ? Math.log((extra * extra) / (spread - extra)) : START.logK,
  );
  set(layout.dispersion, 0);
  set(layout.logTau, Math.log(START.tau));
  set(layout.logSigma, Math.log(widest * START.sigmaShare));
  set(layout.logB, Math.log(START.b));
  fillKnown(layout, known, base);
  const starts = [base];
  if (
    layout.logB >= 0 &&
    !known.some((k) => k.part === 'shape' && k.term === layout.parameters[layout.logB].term)
  ) {
    for (const [sigma, b] of HAZARD_STARTS) {
      const other = Float64Array.from(base);
      other[layout.logSigma] = Math.log(widest * sigma);
      other[layout.logB] = Math.log(b);
      starts.push(other);
    }
  }
  if (layout.logCount >= 0) {
    for (const [logit, perLog] of SIZED_STARTS) {
      const other = Float64Array.from(base);
      for (const index of layout.divers) if (index >= 0) other[index] = logit;
      other[layout.logCount] = perLog;
      other[layout.density] -= logit / 2;
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
  const missed = Math.min(
    START.mostMissed,
    Math.max(START.leastMissed, (second + 0.5) / (first + 1)),
  );
  return Math.log((1 - missed) / missed);
}
