/** Precision against effort: what designs of so many transects are expected to give, and how much they differ by chance. */

import { stream } from '../numbers/random.ts';
import type { PlanningModel } from './planning-model.ts';
import { sumInformation, varianceOf } from './precision.ts';
import { quantile } from './quantile.ts';

/** Share of the designs below and above the band of a curve. */
const BAND = 0.1;

/** Expected information of every place of a zone where a transect could begin, in order along it. */
export type ZonePlaces = readonly Float64Array[];

export interface CurveInput {
  model: Pick<PlanningModel, 'gradient' | 'inHand' | 'fixedVariance' | 'inflation'>;
  zones: readonly ZonePlaces[];
  /** transects a zone, for each point of the curve */
  counts: readonly (readonly number[])[];
  /** designs drawn a point */
  designs: number;
  seed: number;
}

export interface CurvePoint {
  transects: number;
  /** expected coefficient of variation of the total: median of the designs, and the band that holds 80 % of them */
  cv: number | null;
  lower: number | null;
  upper: number | null;
  /** share of the designs that cannot tell the total at all */
  notEstimable: number;
}

/**
 * Each design is a systematic sample with a random start in every zone; it depends on (seed, its number) alone. Where a zone has
 * fewer places than are drawn, each of them stands for those about it.
 */
export function precisionCurve({ model, zones, counts, designs, seed }: CurveInput): CurvePoint[] {
  return counts.map((own) => {
    const cvs: number[] = [];
    for (let d = 0; d < designs; d++) {
      const random = stream(seed, d);
      const laid = zones.flatMap((places, z) =>
        evenly(places.length, own[z], random.uniform()).map((i) => places[i]),
      );
      const cv = expectedCv(model, laid);
      if (cv !== null) cvs.push(cv);
    }
    cvs.sort((a, b) => a - b);
    const at = (share: number): number | null => (cvs.length === 0 ? null : quantile(cvs, share));
    return {
      transects: own.reduce((sum, n) => sum + n, 0),
      cv: at(0.5),
      lower: at(BAND),
      upper: at(1 - BAND),
      notEstimable: 1 - cvs.length / designs,
    };
  });
}

/** Expected coefficient of variation of the total with these transects, over what is in hand; null: not estimable. */
export function expectedCv(
  model: CurveInput['model'],
  transects: readonly Float64Array[],
): number | null {
  const { gradient, inHand } = model;
  const information = sumInformation(
    gradient.length,
    inHand,
    transects.map((t) => [1, t] as const),
  );
  return cvOf(model, varianceOf(gradient, information));
}

/** From the variance of the best model's log total to the coefficient of variation that would be reported. */
export function cvOf(
  { inflation, fixedVariance }: Pick<PlanningModel, 'inflation' | 'fixedVariance'>,
  variance: number | null,
): number | null {
  return variance === null ? null : Math.sqrt(inflation * variance + fixedVariance);
}

/**
 * Numbers of `of` places in order, evenly spaced from a random start: every place has the same chance.
 * @param start from 0, below 1
 * @throws RangeError where more are wanted than there are
 */
export function systematic(of: number, wanted: number, start: number): number[] {
  if (wanted > of) throw new RangeError(`got ${of} places, expected ${wanted} and more`);
  return evenly(of, wanted, start);
}

/** The same where a place stands for all that lie about it: it may come twice. */
function evenly(of: number, wanted: number, start: number): number[] {
  return Array.from({ length: wanted }, (_, i) => Math.floor(((i + start) * of) / wanted));
}
