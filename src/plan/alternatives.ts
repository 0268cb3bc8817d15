/** The same dive minutes spent in other ways: belts or distance transects, one or two observers, other widths. */

import { cvOf, sumInformation, varianceOf } from '../../models/further.ts';
import type { PlanAlternative, PlanFile, PlannedDive } from '../../shared/planning.ts';
import { countsFor } from './curve.ts';
import { type PlanFrame, type PlanGround, planFrame } from './frame.ts';
import { usualDive } from './usual.ts';

/** Places looked at for each way: a mean over them has an error of a few per cent. */
const PLACES = 60;
/** Widths beside the usual one, as shares of it. */
const WIDTHS = [0.5, 1, 2];

/**
 * Designs that the survey has no transects of are left out: nothing is known of their detection. A strip of another width is
 * taken to have the detection of the usual one on belts; on distance transects the detection function says what is lost.
 * @returns none where the sheets have no times
 */
export function planAlternatives(
  ground: PlanGround,
  frame: PlanFrame,
  { minutes }: Pick<PlanFile, 'minutes'>,
  progress: (share: number) => void = () => {},
): PlanAlternative[] {
  if (minutes === null) return [];
  const ways = waysOf(ground, frame.asked.dive);
  return ways.flatMap((dive, i) => {
    progress(i / ways.length);
    const own = planFrame(ground, { ...frame.asked, dive, places: PLACES });
    const total = own.zones.reduce((sum, z) => sum + z.ropes.length, 0);
    if (total === 0 || own.zones.some((z) => z.minutes === null)) return [];
    const one = own.zones.reduce((sum, z) => sum + (z.minutes ?? 0) * z.ropes.length, 0) / total;
    const transects = Math.max(1, Math.round(minutes / one));
    const counts = countsFor(own, Math.min(transects, total));
    const { gradient, inHand } = own.model;
    const information = sumInformation(
      gradient.length,
      inHand,
      own.zones.map(
        (z, k) => [(counts[k] * transects) / Math.min(transects, total), z.mean] as const,
      ),
    );
    return {
      design: dive.design,
      observers: dive.observers,
      width_m: dive.widthM,
      minutes_a_transect: one,
      transects,
      cv: own.isTelling ? cvOf(own.model, varianceOf(gradient, information)) : null,
    };
  });
}

function waysOf({ survey }: PlanGround, asked: PlannedDive): PlannedDive[] {
  return (['belt', 'distance'] as const).flatMap((design) => {
    const own = survey.transects.filter((t) => t.design === design);
    if (own.length === 0) return [];
    const usualM = design === asked.design ? asked.widthM : usualDive(survey, design).dive.widthM;
    return ([2, 1] as const).flatMap((observers) =>
      WIDTHS.map((share) => ({ ...asked, design, observers, widthM: usualM * share })),
    );
  });
}
