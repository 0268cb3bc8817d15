/** The bed of each candidate treatment area. */

import type { Analysis } from '../../shared/analysis.ts';
import { type Finding, noticeAt } from '../../shared/findings.ts';
import type { Domain, Lake, Plane, TreatedBed } from '../../shared/survey.ts';
import { layBed } from './bed.ts';
import type { DepthModel } from './depth.ts';
import { toPlane } from './rings.ts';

/** One bed an area, in their order; an area that holds no mapped bed is told. */
export function layTreatments(
  lake: Lake,
  analysis: Analysis,
  plane: Plane,
  depth: DepthModel,
  domain: Domain,
): { treated: TreatedBed[]; findings: Finding[] } {
  const findings: Finding[] = [];
  const treated = lake.treatments.map(({ name, polygons, feature }) => {
    const { bed } = layBed(lake, analysis, plane, depth, domain, toPlane(polygons, plane));
    if (bed === null || bed.pieces.count === 0) {
      const message = `the treatment area "${name}" holds no mapped bed of this lake; it has no numbers`;
      findings.push(
        noticeAt({ table: 'treatments.geojson', row: feature }, 'treatment-off-bed', message),
      );
    }
    return { name, bed };
  });
  return { treated, findings };
}
