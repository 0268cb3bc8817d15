/** A diver's logit p at the mean covariates (METHOD.md: What is reported of detection), as a linear form in the parameters. */

import type { SurveyRows } from '../data.ts';
import { quadraticForm } from '../numbers/solve.ts';
import type { Layout, ModelParts } from '../parts.ts';

/** Area-weighted means of the detection's covariates over all segments of the survey, one for all divers. */
export function meanCovariates(rows: SurveyRows, parts: ModelParts): number[] {
  let area = 0;
  for (const s of rows.segments) area += s.areaM2;
  return parts.detection.map(
    (t) => rows.segments.reduce((sum, s) => sum + s.areaM2 * t.value(s), 0) / area,
  );
}

/** Offset 0 and a cluster of one. */
export function logitForm(
  rows: SurveyRows,
  layout: Layout,
  parts: ModelParts,
  group: number,
): Float64Array {
  const form = new Float64Array(layout.parameters.length);
  form[layout.divers[group]] = 1;
  if (layout.detection >= 0) {
    for (const [i, z] of meanCovariates(rows, parts).entries()) form[layout.detection + i] = z;
  }
  return form;
}

/** Logit p of each group at given parameters; infinite for those on a boundary. */
export function meanLogits(
  rows: SurveyRows,
  layout: Layout,
  parts: ModelParts,
  point: Float64Array,
): number[] {
  const means = meanCovariates(rows, parts);
  return layout.divers.map((index, group) => {
    if (index < 0) return parts.divers[group].never ? -Infinity : Infinity;
    let logit = point[index];
    if (layout.detection >= 0) {
      for (let i = 0; i < means.length; i++) logit += means[i] * point[layout.detection + i];
    }
    return logit;
  });
}

/** Standard error of a group's logit p; null where the information is not positive definite. */
export function seOfLogit(
  rows: SurveyRows,
  layout: Layout,
  parts: ModelParts,
  covariance: Float64Array | null,
  group: number,
): number | null {
  if (!covariance) return null;
  const variance = quadraticForm(logitForm(rows, layout, parts, group), covariance);
  return variance >= 0 ? Math.sqrt(variance) : null;
}
