/**
 * Two divers, the second recording what the first missed (Cook & Jacobson 1979; Nichols et al. 2000), on belts and,
 * with offsets, on distance transects under full or point independence (Laake & Borchers 2004; Borchers et al. 2006).
 * Belt and distance are implementations of one interface; a single pass is the case without a second diver.
 */

import { combine, type Jet, log, multiply } from '../numbers/jet.ts';
import { beltLogPi, fullLogPi, type LogPi, pointLogPi } from './log-pi.ts';
import { anyOf, type Moment, productOf, sumOf } from './probability.ts';

/** Means of g and g² over the strip; null on belts. */
export type StripMeans = { mean: Jet; meanSquare: () => Jet } | null;

export interface PassModel {
  /** what has to be averaged over cluster sizes */
  moments: Moment[];
  /** log p̄: detected by either observer, averaged over the strip, from the averages of the moments over sizes */
  logDetection(strip: StripMeans, averages: Jet[]): Jet;
  /** log π: detected by the primary observer, or by the secondary only, at perpendicular distance y (0 on belts) */
  logPi: LogPi;
}

export const belt: PassModel = {
  moments: [anyOf],
  logDetection: (_strip, [any]) => log(any),
  logPi: beltLogPi,
};

/** p(y) = p(0) g(y) for each observer, independent at every distance: ∫ (p + p′) g − p p′ g². */
export const distanceFull: PassModel = {
  moments: [sumOf, productOf],
  logDetection(strip, [sum, product]) {
    const { mean, meanSquare } = onStrip(strip);
    return log(combine(1, multiply(sum, mean), -1, multiply(product, meanSquare())));
  },
  logPi: fullLogPi,
};

/** p*(y) = p*(0) g(y); given detection at y, the observers' shares follow logit p(y) = logit p(0) + ηy. */
export const distancePoint: PassModel = {
  moments: [anyOf],
  logDetection: (strip, [any]) => log(multiply(any, onStrip(strip).mean)),
  logPi: pointLogPi,
};

function onStrip(strip: StripMeans): NonNullable<StripMeans> {
  if (!strip)
    throw new RangeError('a distance transect needs the means over its strip, got a belt');
  return strip;
}
