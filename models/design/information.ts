/**
 * What one transect is expected to tell of every parameter: the observed information of counts that are simulated on its
 * segments from the model, averaged (METHOD.md: Next dives). Given the parameters transects are independent, so that a
 * design's information is the sum of its transects'.
 */

import type { SegmentRow, SurveyRows } from '../data.ts';
import type { FittedModel } from '../fit/fitted-model.ts';
import { compileLikelihood } from '../likelihood.ts';
import { stream } from '../numbers/random.ts';
import { fittedLogDensity, truthOf } from '../rehearse.ts';
import { detectionsOf, searchedSegments, simulateClusters } from '../simulate.ts';

/** Who searches: primary, and secondary or null, by index in observerNames. */
export interface Roles {
  primary: number;
  secondary: number | null;
}

/** A piece of a planned transect: who will search it is not settled yet. */
export type PlannedSegment = Omit<SegmentRow, 'transect' | 'primary' | 'secondary'>;

/** Names that segments refer to by index. */
export type Names = Pick<SurveyRows, 'classNames' | 'observerNames'>;

/** Simulations of a transect, at least, shared among its roles: a plan of 20 transects then averages over 120 and more. */
export const SIMULATED = 6;

/**
 * Expected information of one transect, all roles given having an equal share of it.
 * @returns over all parameters of the fit, row by row; zeros for a transect without a segment of positive density
 * @throws RangeError without roles, or where the likelihood cannot be computed at these values
 */
export type TransectInformation = (
  segments: readonly PlannedSegment[],
  roles: readonly Roles[],
) => Float64Array;

/**
 * The same transect always has the same information: it is simulated once, with a stream of its own.
 * @param seed whole, from 0
 */
export function transectInformation(
  names: Names,
  fit: FittedModel,
  seed: number,
): TransectInformation {
  const known = new Map<string, Float64Array>();
  const truth = truthOf(names, fit);
  const point = fit.estimates;
  return (segments, roles) => {
    if (roles.length === 0) throw new RangeError('got no observers, expected at least one');
    const key = JSON.stringify([segments, roles]);
    let found = known.get(key);
    if (found === undefined) {
      found = simulated(segments, roles, known.size);
      known.set(key, found);
    }
    return found;
  };

  function simulated(
    segments: readonly PlannedSegment[],
    roles: readonly Roles[],
    index: number,
  ): Float64Array {
    const each = Math.ceil(SIMULATED / roles.length);
    const copies = roles.flatMap((r) => Array.from({ length: each }, () => r));
    const searched: SurveyRows = {
      ...names,
      segments: copies.flatMap((r, transect) => segments.map((s) => ({ ...s, ...r, transect }))),
      clusters: [],
      transectCount: copies.length,
    };
    const densities = searchedSegments(searched, fittedLogDensity(searched, fit));
    const drawn = detectionsOf(simulateClusters(truth, densities, stream(seed, index)));
    const rows: SurveyRows = {
      ...searched,
      clusters: drawn.map((d) => ({
        segment: d.segmentIndex,
        role: d.foundBy,
        offsetM: d.offsetM,
        count: d.count,
      })),
    };
    const here = compileLikelihood(rows, fit.parts, undefined, Infinity).evaluate(point);
    if (here === null)
      throw new RangeError(
        `the likelihood of a planned transect cannot be computed at ${point.join(', ')}`,
      );
    return here.hessian.map((h) => -h / copies.length);
  }
}
