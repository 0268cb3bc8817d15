/**
 * Areas of a lake that was estimated: what their numbers follow from, what they hold, and how they are reshaped. Loaded when areas are
 * asked for.
 */

import type { AreaCutter, AreasHeld } from '../../shared/areas.ts';
import { errorAt, type Finding } from '../../shared/findings.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { type Again, carriedEstimate } from '../estimate/index.ts';
import {
  type AreaMeasure,
  type DrawnArea,
  heldByAreas,
  type TreatBasis,
  treatBasis,
} from '../treat/index.ts';

export { patchNumbers, strataShapes } from '../treat/bed-parts.ts';
export {
  type AreaMeasure,
  buffered,
  cutFrom,
  type DrawnArea,
  joined,
  type MeasuredArea,
  measureIn,
  treatAreas,
} from '../treat/index.ts';

export const NO_LAKE = errorAt(
  { table: 'substrate.geojson' },
  'no-lake-for-areas',
  'without the mapped bed of the lake no area has a number (outline, substrate and depth expected)',
);

const ALONG_SHORE = errorAt(
  { table: 'analysis.json', column: 'density.shore' },
  'areas-along-shore',
  '"auto" chose a density that changes along the shore, for which areas have no numbers yet ("none" expected)',
);

/** What numbers of areas follow from, once for each estimate; or why areas have none. */
export function areaBasis(
  { result, again }: { result: SurveyResult; again: Again | null },
  cutter: AreaCutter | null,
): { ok: true; basis: TreatBasis } | { ok: false; finding: Finding } {
  if (result.bed === null) return { ok: false, finding: NO_LAKE };
  if (again === null || cutter === null) return { ok: false, finding: noAreas(result) };
  // areas are cut from the maps, whose habitats are not told apart by their place along the shore
  if (again.bed.habitats !== result.bed.habitats) return { ok: false, finding: ALONG_SHORE };
  const { bed } = again;
  const searched = result.segments;
  return { ok: true, basis: treatBasis({ ...carriedEstimate(again), bed, cutter, searched }) };
}

/** What areas of the lake hold, beside one another and without proposals. */
export function heldAreas(
  result: SurveyResult,
  basis: TreatBasis,
  areas: readonly DrawnArea[],
  layerM: number | null,
  measure?: AreaMeasure,
): AreasHeld {
  return {
    ...areasOf(result),
    interval: result.analysis.interval,
    ...heldByAreas(basis, result.plane, areas, layerM, measure),
  };
}

/** The same where areas may have no numbers: null. */
export function heldWhereKnown(
  done: { result: SurveyResult; again: Again | null },
  cutter: AreaCutter | null,
  areas: readonly DrawnArea[],
): AreasHeld | null {
  const based = areaBasis(done, cutter);
  try {
    return based.ok ? heldAreas(done.result, based.basis, areas, null) : null;
  } catch (error) {
    // an area may reach over more cells than can be laid out
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** What a file of areas begins with. */
export function areasOf({ estimate, domain }: SurveyResult) {
  return { lake: estimate.lake, depth_from_m: domain.depthFromM, depth_to_m: domain.depthToM };
}

function noAreas({ survey }: SurveyResult): Finding {
  const why =
    survey.detections.length === 0 ? 'nothing was detected' : 'the surveyed habitat has no number';
  return errorAt(
    { table: 'detections.csv' },
    'nothing-to-choose-by',
    `${why}: no area is known to hold more than another, so none is proposed`,
  );
}
