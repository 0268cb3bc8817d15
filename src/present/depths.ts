/** The two depth bands that stand beside every number: what was sampled, and what the estimate holds for. */

import type { Domain, Survey } from '../../shared/survey.ts';
import { formatDepth, formatDepthBand, type UnitSystem } from '../../shared/units.ts';

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

/** A depth band as far as it lies within the surveyed depths: `6.0 to 6.8 m`; `7.0 m` where only its edge does. */
export function bandWithin(
  fromM: number,
  toM: number,
  { depthFromM, depthToM }: Pick<Domain, 'depthFromM' | 'depthToM'>,
  units: UnitSystem,
): string {
  const from = Math.max(fromM, depthFromM);
  const to = Math.max(from, Math.min(toM, depthToM));
  const edge = formatDepth(to, units);
  return formatDepth(from, units) === edge ? edge : formatDepthBand(from, to, units);
}

/** The depths that the estimate holds for: `0.5 to 6.1 m`. */
export function habitatBand(domain: Domain, units: UnitSystem): string {
  return formatDepthBand(domain.depthFromM, domain.depthToM, units);
}
