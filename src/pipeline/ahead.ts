/** What a plan of further dives follows from, and what more dives would bring to a survey that was estimated. */

import { planningModel } from '../../models/further.ts';
import { condense } from '../../models/index.ts';
import { median } from '../../shared/extent.ts';
import type { PrecisionAhead } from '../../shared/planning.ts';
import type { Prepared, SurveyResult } from '../../shared/result.ts';
import type { LngLatPolygon, Plane, XYPolygon } from '../../shared/survey.ts';
import { type Again, mappedHabitats } from '../estimate/index.ts';
import type { LaidLake } from '../lake/index.ts';
import { type PlanGround, precisionAhead } from '../plan/index.ts';

/** Null where it cannot be computed: no number, no bed, no room for a rope, or a model that has no hold on the total. */
export function aheadOf(
  estimated: { result: SurveyResult; again: Again | null },
  prepared: Pick<Prepared, 'shore' | 'placed'> | null,
  laid: LaidLake | null,
): PrecisionAhead | null {
  try {
    // places where nobody may dive are out of the survey's own bed
    const ground = planGround(estimated, prepared, laid, estimated.result.lake.noDive ?? []);
    return ground && precisionAhead(ground);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

export const inPlane = (polygons: readonly LngLatPolygon[], plane: Plane): XYPolygon[] =>
  polygons.map((rings) => rings.map((ring) => ring.map((p) => plane.forward(p))));

/** What a plan follows from; null where the estimate has no number, or its lake no bed. */
export function planGround(
  {
    result,
    again,
  }: {
    result: Pick<SurveyResult, 'survey' | 'plane' | 'placed' | 'bed'>;
    again: Again | null;
  },
  prepared: Pick<Prepared, 'shore' | 'placed'> | null,
  laid: LaidLake | null,
  noDive: readonly LngLatPolygon[],
): PlanGround | null {
  const depthAt = laid?.depthAt ?? null;
  const shore = prepared?.shore ?? null;
  if (again === null || result.bed === null || depthAt === null || shore === null) return null;
  const { rows, analysis, members, bed } = again;
  const habitats = mappedHabitats(bed.habitats, analysis);
  const declinations = result.placed.flatMap((p) => p.declinationDeg ?? []);
  return {
    survey: result.survey,
    analysis,
    rows,
    bed,
    habitats,
    modelOn: (pieces) =>
      planningModel({ rows, analysis, members, habitats, pieces: condense(pieces) }),
    plane: result.plane,
    depthAt,
    shareAt: (p) => shore.shareAt(p),
    declinationDeg: declinations.length === 0 ? null : median(declinations),
    noDive: inPlane(noDive, result.plane),
  };
}
