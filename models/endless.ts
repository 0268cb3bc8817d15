/**
 * Directions along which the likelihood rises without end although no parameter is on a boundary of its own
 * (method: separation). Such a direction leaves no information behind: the information matrix, in units of what each
 * parameter moves, has an eigenvalue that is next to nothing, and its vector moves something that is already far out.
 */

import type { SurveyRows } from './data.ts';
import { meanCovariates } from './detection/logit.ts';
import type { Likelihood } from './likelihood.ts';
import type { Evaluation } from './numbers/newton.ts';
import { symmetricEigen } from './numbers/solve.ts';

/** A steep curve of depth keeps some clusters' worth of information; e⁻¹⁵ of a density does not. */
const NO_INFORMATION = 1e-6;
/** Log density, log mean size, shift of a logit: beyond, the probability is 0 or 1 for all purposes. */
const FAR_OUT = 15;
/** Share of the direction (a unit vector) that must move what is far out. */
const MOVES = 0.01;

/** How far each parameter moves its part along the flattest direction, when that is one without end; else null. */
export function endlessDirection(
  rows: SurveyRows,
  likelihood: Likelihood,
  { hessian }: Pick<Evaluation, 'hessian'>,
  theta: Float64Array,
): Float64Array | null {
  const n = theta.length;
  if (n === 0) return null;
  const units = naturalUnits(rows, likelihood);
  const scaled = hessian.map((h, k) => -h / (units[Math.floor(k / n)] * units[k % n]));
  const { values, vectors } = symmetricEigen(scaled, n);
  if (values[0] >= NO_INFORMATION) return null;
  const direction = Float64Array.from(vectors[0], (v, i) => v / units[i]);
  const away = movables(rows, likelihood).some(
    (form) => Math.abs(form(theta)) > FAR_OUT && Math.abs(form(direction)) > MOVES,
  );
  return away ? Float64Array.from(vectors[0], Math.abs) : null;
}

/** By how much one unit of each parameter moves its part: the length of its column over the survey. */
function naturalUnits(rows: SurveyRows, { parts, layout, segments }: Likelihood): Float64Array {
  const lengthOf = (values: number[]): number =>
    Math.sqrt(values.reduce((sum, x) => sum + x * x, 0) / Math.max(1, values.length)) || 1;
  const units = new Float64Array(layout.parameters.length).fill(1);
  for (const i of parts.density.terms.keys())
    units[layout.density + i] = lengthOf(segments.map((s) => s.x[i]));
  if (layout.detection >= 0)
    for (const [i, t] of parts.detection.entries())
      units[layout.detection + i] = lengthOf(rows.segments.map((s) => t.value(s)));
  if (layout.slope >= 0) units[layout.slope] = Math.max(...rows.segments.map((s) => s.halfWidthM));
  return units;
}

type Form = (parameters: Float64Array) => number;

/** What may be far out, as linear forms in the parameters. */
function movables(rows: SurveyRows, { parts, layout, segments }: Likelihood): Form[] {
  const forms: Form[] = segments.map((s) => (p) => {
    let eta = 0;
    for (let i = 0; i < parts.density.terms.length; i++) eta += s.x[i] * p[layout.density + i];
    return eta;
  });
  const weighted = (values: number[], from: number): Form => {
    return (p) => values.reduce((sum, x, i) => sum + x * p[from + i], 0);
  };
  if (layout.detection >= 0) {
    const means = meanCovariates(rows, parts);
    for (const s of rows.segments) {
      const shift = parts.detection.map((t, i) => t.value(s) - means[i]);
      forms.push(weighted(shift, layout.detection));
    }
  }
  if (parts.sizeFamily !== 'lone') {
    for (const c of rows.clusters) {
      const s = rows.segments[c.segment];
      forms.push(
        weighted(
          parts.size.map((t) => t.value(s)),
          layout.size,
        ),
      );
    }
  }
  const largest = rows.clusters.reduce((top, c) => Math.max(top, c.count), 1);
  if (layout.logCount >= 0) forms.push((p) => Math.log(largest) * p[layout.logCount]);
  if (layout.slope >= 0) {
    const widest = Math.max(...rows.segments.map((s) => s.halfWidthM));
    forms.push((p) => widest * p[layout.slope]);
  }
  return forms;
}
