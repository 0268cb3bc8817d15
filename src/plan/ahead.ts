/** What more dives of the usual kind would bring to a survey: for its report, from few places and designs. Nothing is fitted again. */

import type { PrecisionAhead } from '../../shared/planning.ts';
import { curveOf } from './curve.ts';
import { type PlanGround, planFrame } from './frame.ts';
import { planRequest } from './make.ts';

/** Numbers of further transects: more is another survey. */
const NUMBERS = [5, 10, 20, 40, 60];
const MOST = 60;
/** Places looked at, and designs drawn for each number: the whole curve of a plan has 500 and 50. */
const PLACES = 60;
const DESIGNS = 20;

/**
 * @returns null where no rope has room, or nothing is known of the detection
 * @throws RangeError as planFrame
 */
export function precisionAhead(ground: PlanGround): PrecisionAhead | null {
  const request = planRequest(ground, {
    target: { kind: 'transects', transects: 0 },
    added: true,
    allocation: 'best',
    dive: {},
    sections: null,
    startDepthsM: null,
    seed: null,
  });
  const frame = planFrame(ground, { ...request, places: PLACES, most: MOST });
  if (frame.zones.length === 0) return null;
  const { dive, startDepthsM } = request;
  const curve = curveOf(frame, NUMBERS, DESIGNS);
  return { dive, startDepthsM, current_cv: frame.currentCv, curve };
}
