/** The bed of each candidate treatment area. */

import type { Analysis } from '../../shared/analysis.ts';
import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import type { Domain, Plane, TreatedBed, TreatmentArea, XYPolygon } from '../../shared/survey.ts';
import { formatCount } from '../../shared/units.ts';
import { common, layBed } from './bed.ts';
import type { DepthModel } from './depth.ts';
import { frameAround } from './frame.ts';
import type { LakeMaps } from './maps.ts';
import { boxOf, toPlane } from './rings.ts';

/** Cells of all areas together: areas may lie on one another, and each keeps its own pieces of the bed. */
const MOST_TREATED_CELLS = 25_000_000;
/** Each is laid out by itself, in some milliseconds however small it is. */
const MOST_AREAS = 5_000;

/** One bed an area, in their order; an area that holds no mapped bed is told. */
export function layTreatments(
  maps: LakeMaps | null,
  areas: readonly TreatmentArea[],
  analysis: Analysis,
  plane: Plane,
  depth: DepthModel,
  domain: Domain,
): { treated: TreatedBed[]; findings: Finding[] } {
  const findings: Finding[] = [];
  const treated = areas.map(({ name, feature, polygons }) => {
    const { bed } = layBed(maps, analysis, depth, domain, toPlane(polygons, plane));
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

/** An error where the areas ask for too much, counted before anything is laid out. `outline` is in the plane. */
export function judgeAreas(
  areas: readonly TreatmentArea[],
  outline: readonly XYPolygon[],
  plane: Plane,
  cellM: number,
): Finding | null {
  const spot = { table: 'treatments.geojson' };
  if (areas.length > MOST_AREAS) {
    const message = `${formatCount(areas.length)} areas (at most ${formatCount(MOST_AREAS)} expected; polygons of one area are one MultiPolygon)`;
    return errorAt(spot, 'too-many-areas', message);
  }
  const lake = boxOf(outline);
  let cells = 0;
  for (const { polygons } of areas) {
    const { nx, ny } = frameAround(common(lake, boxOf(toPlane(polygons, plane))), cellM);
    cells += nx * ny;
  }
  if (cells <= MOST_TREATED_CELLS) return null;
  const message =
    `the areas reach over ${formatCount(cells)} cells of ${cellM} m in all ` +
    `(at most ${MOST_TREATED_CELLS / 1e6} million expected; fewer areas that lie on one another, or larger cells, would do)`;
  return errorAt(spot, 'grid-too-large', message);
}
