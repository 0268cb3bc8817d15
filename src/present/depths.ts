/** The two depth bands that stand beside every number: what was sampled, and what the estimate holds for. */

import type { Domain, Survey } from '../../shared/survey.ts';
import { formatDepthBand, type UnitSystem } from '../../shared/units.ts';

/** Least and greatest depth on the sheets; null when none was recorded. */
export function sampledBand(survey: Survey): { fromM: number; toM: number } | null {
  let fromM = Number.POSITIVE_INFINITY;
  let toM = Number.NEGATIVE_INFINITY;
  for (const { depthM } of survey.habitat) {
    fromM = Math.min(fromM, depthM);
    toM = Math.max(toM, depthM);
  }
  return fromM <= toM ? { fromM, toM } : null;
}

/** The depths that the estimate holds for: `0.5 to 6.1 m`. */
export function habitatBand(domain: Domain, units: UnitSystem): string {
  return formatDepthBand(domain.depthFromM, domain.depthToM, units);
}
