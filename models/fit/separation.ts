/**
 * Complete separation: directions along which the likelihood has no finite maximum although no parameter is on a
 * boundary of its own (METHOD.md: Complete separation). Such a direction leaves no information behind: the information matrix, in units of what each
 * parameter moves, has an eigenvalue that is next to nothing, and its vector moves something that is already far out.
 */

import type { SurveyRows } from '../data.ts';
import type { Likelihood } from '../likelihood.ts';
import type { Evaluation } from '../numbers/newton.ts';
import { cholesky, symmetricEigen } from '../numbers/solve.ts';
import { isFree } from '../parts.ts';

/** A steep curve of depth keeps some clusters' worth of information; e⁻¹⁵ of a density does not. */
const NO_INFORMATION = 1e-6;
/** A log density or log mean size below −15, a logit beyond ±15: 0 or 1 for all purposes. */
const FAR_OUT = 15;
/** Share of the direction (a unit vector) that must move what is far out. */
const MOVES = 0.01;

/** How far each parameter moves its part along the flattest separating direction; null when there is none. */
export function separatingDirection(
  rows: SurveyRows,
  likelihood: Likelihood,
  { hessian }: Pick<Evaluation, 'hessian'>,
  point: Float64Array,
): Float64Array | null {
  const n = point.length;
  if (n === 0) return null;
  const units = naturalUnits(rows, likelihood);
  const scaled = hessian.map((h, k) => -h / (units[Math.floor(k / n)] * units[k % n]));
  // the usual case: no eigenvalue is so small, and none needs to be known
  const less = scaled.slice();
  for (let i = 0; i < n; i++) less[i * (n + 1)] -= NO_INFORMATION;
  if (cholesky(less, n) !== null) return null;
  const { values, vectors } = symmetricEigen(scaled, n);
  const far = movables(rows, likelihood).filter((m) => m.isFarOut(m.form(point)));
  for (let k = 0; k < n && values[k] < NO_INFORMATION; k++) {
    const direction = Float64Array.from(vectors[k], (v, i) => v / units[i]);
    if (far.some((m) => Math.abs(m.form(direction)) > MOVES))
      return Float64Array.from(vectors[k], Math.abs);
  }
  return null;
}

/** By how much one unit of each parameter moves its part: the length of its column over the survey. */
function naturalUnits(
  rows: SurveyRows,
  { parts, layout, segments, greatestHalfWidthM }: Likelihood,
): Float64Array {
  const lengthOf = (values: number[]): number =>
    Math.sqrt(values.reduce((sum, x) => sum + x * x, 0) / Math.max(1, values.length)) || 1;
  const units = new Float64Array(layout.parameters.length).fill(1);
  for (const i of parts.density.terms.keys())
    units[layout.density + i] = lengthOf(segments.map((s) => s.x[i]));
  if (layout.detection >= 0)
    for (const [i, t] of parts.detection.entries())
      units[layout.detection + i] = lengthOf(rows.segments.map((s) => t.value(s)));
  if (layout.slope >= 0) units[layout.slope] = greatestHalfWidthM;
  return units;
}

interface Movable {
  /** linear in the parameters */
  form(parameters: Float64Array): number;
  isFarOut(value: number): boolean;
}

const nearNothing = (value: number): boolean => value < -FAR_OUT;
const nearSure = (value: number): boolean => Math.abs(value) > FAR_OUT;

/** What may be far out: log densities, logits of the divers, log mean sizes, effects of count and offset. */
function movables(
  rows: SurveyRows,
  { parts, layout, segments, greatestHalfWidthM }: Likelihood,
): Movable[] {
  const weighted = (values: ArrayLike<number>, from: number): Movable['form'] => {
    return (p) => {
      let sum = 0;
      for (let i = 0; i < values.length; i++) sum += values[i] * p[from + i];
      return sum;
    };
  };
  const found: Movable[] = segments.map((s) => ({
    form: weighted(s.x.subarray(0, parts.density.terms.length), layout.density),
    isFarOut: nearNothing,
  }));
  for (const s of rows.segments) {
    const shift = weighted(
      parts.detection.map((t) => t.value(s)),
      layout.detection,
    );
    for (const [i, g] of parts.divers.entries()) {
      const looks = [s.primary, s.secondary].some((o) => o !== null && g.observers.includes(o));
      if (!isFree(g) || g.design !== s.design || !looks) continue;
      found.push({ form: (p) => p[layout.divers[i]] + shift(p), isFarOut: nearSure });
    }
  }
  if (parts.sizeFamily !== 'single') {
    for (const c of rows.clusters) {
      const s = rows.segments[c.segment];
      found.push({
        form: weighted(
          parts.size.map((t) => t.value(s)),
          layout.size,
        ),
        isFarOut: nearNothing,
      });
    }
  }
  const largest = rows.clusters.reduce((top, c) => Math.max(top, c.count), 1);
  if (layout.logCount >= 0)
    found.push({ form: (p) => Math.log(largest) * p[layout.logCount], isFarOut: nearSure });
  if (layout.slope >= 0)
    found.push({ form: (p) => greatestHalfWidthM * p[layout.slope], isFarOut: nearSure });
  return found;
}
