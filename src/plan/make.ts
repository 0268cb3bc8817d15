/** The plan of the next dives: what was wished for, met from a frame of places; or why there is none. */

import { type Allocation, cvOf, LEAST_A_ZONE } from '../../models/further.ts';
import { errorAt, type Finding } from '../../shared/findings.ts';
import type { PlanFile, PlanRequest, PlanTarget, PlanWishes } from '../../shared/planning.ts';
import type { LngLatPolygon } from '../../shared/survey.ts';
import { allocationFor, curveOf, minutesOfPlan } from './curve.ts';
import { type Drawn, drawPlan, type PlannedPlace } from './draw.ts';
import type { PlanFrame, PlanGround } from './frame.ts';
import { usualDive, usualSections } from './usual.ts';

/** The wishes with what they leave out filled in. */
export function planRequest(
  { survey, analysis }: Pick<PlanGround, 'survey' | 'analysis'>,
  wishes: PlanWishes,
): PlanRequest {
  const { target, added, allocation, seed } = wishes;
  const usual = usualDive(survey, wishes.dive.design);
  const startDepthsM = [...(wishes.startDepthsM ?? usual.startDepthsM)];
  return {
    target,
    dive: { ...usual.dive, ...wishes.dive },
    added,
    sections: wishes.sections ?? usualSections(startDepthsM.length),
    startDepthsM,
    allocation,
    seed: seed ?? analysis.seed,
  };
}

/** @returns without alternatives and without a check */
export function makePlan(
  ground: PlanGround,
  frame: PlanFrame,
  request: PlanRequest,
  noDive: LngLatPolygon[],
): { ok: true; plan: PlanFile; places: PlannedPlace[] } | { ok: false; finding: Finding } {
  const why = whyNone(frame, request);
  if (why !== null) return { ok: false, finding: why };
  const already = met(frame, request);
  if (already !== null) return { ok: false, finding: already };
  const found = allocationFor(frame, request.target);
  if (found === null) return { ok: false, finding: notMet(frame, request.target) };
  const { allocation, reached, drawn } = drawnFrom(ground, frame, request.target, found);
  const even =
    request.allocation === 'even' ? null : sharedByLength(frame, allocation, drawn.expectedCv);
  return {
    ok: true,
    places: drawn.places,
    plan: {
      schema: 'shoalwise/plan/1',
      lake: ground.analysis.lake,
      request,
      current_cv: frame.currentCv,
      expected_cv: drawn.expectedCv,
      minutes: minutesOfPlan(frame, allocation.transects),
      reached,
      zones: drawn.zones,
      transects: drawn.transects,
      ...(even === null ? {} : { by_length: even }),
      curve: curveOf(frame),
      alternatives: [],
      check: null,
      habitat_m2: frame.habitatM2,
      no_dive_m2: frame.noDiveM2,
      no_dive: noDive,
    },
  };
}

/**
 * The places drawn. An allocation meets a CV by the means of its zones, what is drawn from it may miss it: then the first one above it
 * whose own places meet it.
 */
function drawnFrom(
  ground: PlanGround,
  frame: PlanFrame,
  target: PlanTarget,
  found: { allocation: Allocation; reached: boolean },
): { allocation: Allocation; reached: boolean; drawn: Drawn } {
  const draw = (allocation: Allocation) => drawPlan(ground, frame, allocation.transects);
  let last = { ...found, drawn: draw(found.allocation) };
  if (target.kind !== 'cv' || !found.reached) return last;
  const meets = ({ expectedCv }: Drawn) => expectedCv !== null && expectedCv <= target.cv;
  const { allocations } = frame;
  for (let i = allocations.indexOf(found.allocation); i < allocations.length; i++) {
    last = { ...found, allocation: allocations[i], drawn: draw(allocations[i]) };
    if (meets(last.drawn)) return last;
  }
  return { ...last, reached: false };
}

/** What sharing by length would give: as many times the plan's own CV as the means of the zones say, whatever places chance draws. */
function sharedByLength(
  frame: PlanFrame,
  { transects, variance }: Allocation,
  expectedCv: number | null,
): NonNullable<PlanFile['by_length']> | null {
  const even = frame.evenly(transects.reduce((sum, n) => sum + n, 0));
  if (even === null) return null;
  const [own, other] = [cvOf(frame.model, variance), cvOf(frame.model, even.variance)];
  const cv =
    own === null || other === null || expectedCv === null ? null : (expectedCv * other) / own;
  return { transects: even.transects, cv };
}

function whyNone(
  { roles, zones, isTelling }: PlanFrame,
  { dive, startDepthsM }: PlanRequest,
): Finding | null {
  const { design, observers, lengthM } = dive;
  if (roles.length === 0)
    return errorAt(
      { table: 'transects.csv', column: 'design' },
      'nothing-known-of-design',
      `no ${design} transect was dived by ${observers === 1 ? 'one observer' : 'two observers'}, so nothing is known of their detection (one such transect and more expected)`,
    );
  if (!isTelling)
    return errorAt(
      { table: 'transects.csv', column: 'secondary' },
      'one-observer-alone',
      'one observer alone cannot tell how much is missed (two observers, or dives that are added to this survey, expected)',
    );
  if (zones.length === 0)
    return errorAt(
      { table: 'depth.geojson' },
      'no-room-for-transects',
      `along the contours of ${startDepthsM.join(', ')} m no rope of ${lengthM} m has room in the surveyed habitat (other start depths, or a shorter rope, expected)`,
    );
  return null;
}

function met({ currentCv, asked }: PlanFrame, { target }: PlanRequest): Finding | null {
  if (target.kind !== 'cv' || !asked.added || currentCv === null || currentCv > target.cv)
    return null;
  return errorAt(
    { table: 'transects.csv' },
    'plan-met-already',
    `the survey has a CV of ${(100 * currentCv).toFixed(1)} % already: no more dives are needed for one of ${(100 * target.cv).toFixed(1)} %`,
  );
}

function notMet({ zones, allocations }: PlanFrame, target: PlanTarget): Finding {
  const least = LEAST_A_ZONE * zones.length;
  const most = least + allocations.length - 1;
  if (target.kind === 'minutes' && zones.some((z) => z.minutes === null))
    return errorAt(
      { table: 'transects.csv', column: 'search_min' },
      'no-times',
      'no transect of the design has setup_min and search_min, so that dive minutes are not known (a number of transects, or a CV, expected)',
    );
  const got = target.kind === 'transects' ? `${target.transects} transects` : 'these dive minutes';
  return errorAt(
    { table: 'transects.csv' },
    'plan-not-met',
    `${got} do not do: ${zones.length} zones take ${least} to ${most} transects (fewer sections, or another number, expected)`,
  );
}
