/** Effort: searched area times the mean detection probability there, what all means of detection over a survey are made of. */

import type { SurveyRows } from './data.ts';
import type { Likelihood } from './likelihood.ts';

export interface Effort {
  /** e_k = Σ a p̄ of each transect, m² */
  byTransect: Float64Array;
  /** Σ e_k, m² */
  total: number;
  /** of the total, by all parameters of the layout */
  gradient: Float64Array;
  /** Σ a, m² */
  areaM2: number;
}

/** @throws RangeError where the detection cannot be computed */
export function effortAt(
  rows: SurveyRows,
  likelihood: Pick<Likelihood, 'detectability'>,
  point: Float64Array,
): Effort {
  const { logDetection, gradient: byParameter, ofSegment } = likelihood.detectability(point);
  const byTransect = new Float64Array(rows.transectCount);
  const gradient = new Float64Array(point.length);
  let areaM2 = 0;
  rows.segments.forEach((s, i) => {
    const effort = s.areaM2 * Math.exp(logDetection[ofSegment[i]]);
    byTransect[s.transect] += effort;
    areaM2 += s.areaM2;
    const g = byParameter[ofSegment[i]];
    for (let k = 0; k < gradient.length; k++) gradient[k] += effort * g[k];
  });
  return { byTransect, total: byTransect.reduce((sum, e) => sum + e, 0), gradient, areaM2 };
}

/** Σ a p̄ / Σ a: the mean detection probability of the survey. */
export function meanDetectionAt(
  rows: SurveyRows,
  likelihood: Pick<Likelihood, 'detectability'>,
  point: Float64Array,
): number {
  const { total, areaM2 } = effortAt(rows, likelihood, point);
  return total / areaM2;
}
