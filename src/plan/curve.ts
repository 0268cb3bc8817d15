/** From a frame of places: the curve of precision against effort, and the number of transects that a target asks for. */

import {
  type Allocation,
  type CurvePoint,
  cvOf,
  LEAST_A_ZONE,
  precisionCurve,
} from '../../models/further.ts';
import {
  CURVE_FROM,
  CURVE_TO,
  type PlanTarget,
  type PrecisionPoint,
} from '../../shared/planning.ts';
import type { PlanFrame } from './frame.ts';

/** Points of the curve, and designs drawn for each. */
const POINTS = 20;
const DESIGNS = 50;

/** Numbers of transects from CURVE_FROM to CURVE_TO, each some 20 % above the one before. */
export function curveNumbers(most: number): number[] {
  const to = Math.min(CURVE_TO, most);
  const numbers = Array.from({ length: POINTS }, (_, i) =>
    Math.round(CURVE_FROM * (CURVE_TO / CURVE_FROM) ** (i / (POINTS - 1))),
  );
  return [...new Set(numbers.filter((k) => k <= to))];
}

/** @param numbers of transects, as far as there are places; left out: those of a plan */
export function curveOf(
  frame: PlanFrame,
  numbers?: readonly number[],
  designs = DESIGNS,
): PrecisionPoint[] {
  const places = frame.zones.map((z) => z.information);
  const most = frame.zones.reduce((sum, z) => sum + z.room, 0);
  const told = numbers?.filter((k) => k <= most) ?? curveNumbers(most);
  const counts = told.map((k) => countsFor(frame, k));
  const points = precisionCurve({
    model: frame.model,
    zones: places,
    counts,
    designs,
    seed: frame.asked.seed,
  });
  return points.map(
    (p: CurvePoint, i): PrecisionPoint => ({
      transects: p.transects,
      minutes: minutesOfPlan(frame, counts[i]),
      cv: p.cv,
      lower: p.lower,
      upper: p.upper,
      not_estimable: p.notEstimable,
    }),
  );
}

/** Transects a zone: as allocated, or evenly over the zones where there are too few for two in each. */
export function countsFor({ zones, allocations }: PlanFrame, transects: number): number[] {
  const least = LEAST_A_ZONE * zones.length;
  const found = allocations[transects - least];
  if (found !== undefined) return found.transects;
  return zones.map(
    (_, i) =>
      Math.floor(((i + 1) * transects) / zones.length) - Math.floor((i * transects) / zones.length),
  );
}

export function minutesOfPlan({ zones }: PlanFrame, transects: readonly number[]): number | null {
  let sum = 0;
  for (const [i, { minutes }] of zones.entries()) {
    if (minutes === null) return null;
    sum += minutes * transects[i];
  }
  return sum;
}

/** What a target comes to: null where it cannot be met, `reached` false where as many as there may be do not do. */
export function allocationFor(
  frame: PlanFrame,
  target: PlanTarget,
): { allocation: Allocation; reached: boolean } | null {
  const { allocations, model } = frame;
  const last = allocations.at(-1);
  if (last === undefined) return null;
  switch (target.kind) {
    case 'transects': {
      const own = allocations[target.transects - LEAST_A_ZONE * frame.zones.length];
      return own === undefined ? null : { allocation: own, reached: true };
    }
    case 'minutes': {
      const within = allocations.findLast((a) => {
        const minutes = minutesOfPlan(frame, a.transects);
        return minutes !== null && minutes <= target.minutes;
      });
      return within === undefined ? null : { allocation: within, reached: true };
    }
    case 'cv': {
      const enough = allocations.find((a) => {
        const cv = cvOf(model, a.variance);
        return cv !== null && cv <= target.cv;
      });
      return { allocation: enough ?? last, reached: enough !== undefined };
    }
  }
}
