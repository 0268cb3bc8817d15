/** What a list of lakes keeps of each lake's result. */

import type { LakeNumbers } from '../../shared/batch.ts';
import type { SurveyResult } from '../../shared/result.ts';

/** @param result of one lake */
export function lakeNumbers({
  estimate,
  survey,
  domain,
  findings,
  lake,
}: SurveyResult): LakeNumbers {
  const dates = survey.transects.map((t) => t.date).sort();
  const { abundance } = estimate;
  const areaM2 = abundance?.area_m2 ?? null;
  const mussels = abundance?.mussels ?? null;
  const perM2 = (x: number | null): number | null => (x === null ? null : x / (areaM2 ?? 1));
  return {
    lake: estimate.lake,
    from: dates[0] ?? null,
    to: dates.at(-1) ?? null,
    transects: estimate.data.transects,
    detections: estimate.data.detections,
    depth_from_m: toCm(domain.depthFromM),
    depth_to_m: toCm(domain.depthToM),
    surveyed_m2: areaM2,
    clusters: abundance?.clusters ?? null,
    mussels,
    mussels_per_m2:
      mussels === null
        ? null
        : {
            estimate: mussels.estimate / (areaM2 ?? 1),
            se: perM2(mussels.se),
            cv: mussels.cv,
            lower: perM2(mussels.lower),
            upper: perM2(mussels.upper),
          },
    notices: findings.length,
    middle: middleOf(lake.outline),
  };
}

/** No depth is known better. */
const toCm = (depthM: number): number => Math.round(depthM * 100) / 100;

/** Middle of the box around the outline. */
function middleOf(outline: SurveyResult['lake']['outline']): [number, number] | null {
  if (outline === null) return null;
  const [least, most] = [
    [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
    [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY],
  ];
  for (const [outer] of outline)
    for (const point of outer)
      for (const k of [0, 1]) {
        least[k] = Math.min(least[k], point[k]);
        most[k] = Math.max(most[k], point[k]);
      }
  return [(least[0] + most[0]) / 2, (least[1] + most[1]) / 2];
}
