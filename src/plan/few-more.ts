/** At the ramp: what a few more transects would bring, wherever they are laid; by precision alone. */

import { cvOf, sumInformation, varianceOf } from '../../models/further.ts';
import type { FewMore } from '../../shared/planning.ts';
import type { PlanFrame } from './frame.ts';

/** Numbers of further transects that are told one by one, and looked at for a goal. */
const TOLD = 10;
const MOST = 200;

/**
 * Each further transect has the mean information of all places.
 * @param frame of dives that are added to the survey
 * @param goal the CV to reach; null = none is stated
 */
export function fewMore(
  { asked, model, zones, currentCv }: PlanFrame,
  goal: number | null,
): FewMore {
  const places = zones.reduce((sum, z) => sum + z.ropes.length, 0);
  const mean = sumInformation(
    model.gradient.length,
    null,
    zones.map((z) => [z.ropes.length / places, z.mean] as const),
  );
  const cvWith = (k: number): number | null =>
    cvOf(
      model,
      varianceOf(model.gradient, sumInformation(model.gradient.length, model.inHand, [[k, mean]])),
    );
  const reaches = (k: number): boolean => {
    const cv = k === 0 ? currentCv : cvWith(k);
    return goal !== null && cv !== null && cv <= goal;
  };
  let enough: number | null = null;
  for (let k = 0; goal !== null && enough === null && k <= MOST; k++) if (reaches(k)) enough = k;
  return {
    design: asked.dive.design,
    observers: asked.dive.observers,
    current_cv: currentCv,
    goal,
    more: Array.from({ length: TOLD }, (_, i) => ({ transects: i + 1, cv: cvWith(i + 1) })),
    enough,
  };
}
