/**
 * How many transects each zone gets (METHOD.md: Next dives): the numbers that make the total's variance least under a
 * number of transects or of dive minutes. Each zone keeps a few, so that what is estimated by effort alone stays possible.
 */

import { sumInformation, varianceOf } from './precision.ts';

/** Transects that every zone keeps, however little they add: fewer have no variance of their own. */
export const LEAST_A_ZONE = 2;

export interface AllocationZone {
  /** expected information of one transect, laid anywhere in the zone */
  information: Float64Array;
  /** dive minutes of one transect */
  minutes: number;
  /** room for so many transects, LEAST_A_ZONE and more; left out: for any number */
  most?: number;
  /** share of all transects that it has at least, to the nearest whole one; left out: 0 */
  least?: number;
}

export interface AllocationInput {
  zones: readonly AllocationZone[];
  gradient: Float64Array;
  inHand: Float64Array | null;
}

/** Transects a zone, and the variance of the log total; null where these cannot tell it. */
export interface Allocation {
  transects: number[];
  variance: number | null;
}

/**
 * One transect after the other to where it lowers the variance most a minute, and then, at every number, one exchanged
 * for another while that lowers it further. A zone that is short of its least share comes first. As long as nothing can be told
 * at all, zones are filled evenly.
 * @param most transects in all
 * @returns one for each number of transects from LEAST_A_ZONE a zone to `most`; empty where `most` is below that
 */
export function allocations(input: AllocationInput, most: number): Allocation[] {
  const { zones } = input;
  const all: Allocation[] = [];
  if (zones.length === 0) throw new RangeError('got no zone, expected at least one');
  let current = judged(
    input,
    zones.map(() => LEAST_A_ZONE),
  );
  const room = zones.reduce((sum, z) => sum + (z.most ?? Number.POSITIVE_INFINITY), 0);
  for (let k = LEAST_A_ZONE * zones.length; k <= Math.min(most, room); k++) {
    if (k > LEAST_A_ZONE * zones.length)
      current = exchanged(input, withOneMore(input, current, k), k);
    all.push(current);
  }
  return all;
}

/**
 * Transects by the zones' share of all places, LEAST_A_ZONE at least, whatever they tell.
 * @param places of each zone
 * @returns as `allocations`
 */
export function evenAllocations(
  input: AllocationInput,
  places: readonly number[],
  most: number,
): Allocation[] {
  const all = places.reduce((sum, n) => sum + n, 0);
  const least = LEAST_A_ZONE * places.length;
  const counts = places.map(() => LEAST_A_ZONE);
  const out = [judged(input, [...counts])];
  for (let k = least + 1; k <= Math.min(most, all); k++) {
    const short = (i: number): number =>
      hasRoom(input, counts, i) ? (k * places[i]) / all - counts[i] : Number.NEGATIVE_INFINITY;
    const to = counts.reduce((best, _, i) => (short(i) > short(best) ? i : best), 0);
    counts[to]++;
    out.push(judged(input, [...counts]));
  }
  return out;
}

/** The most that dive minutes allow, as far as `most` transects. Null where they do not do for LEAST_A_ZONE a zone. */
export function withinMinutes(
  input: AllocationInput,
  minutes: number,
  most: number,
): Allocation | null {
  const fits = allocations(input, most).filter(
    ({ transects }) => minutesOf(input.zones, transects) <= minutes,
  );
  return fits.at(-1) ?? null;
}

export function minutesOf(
  zones: readonly Pick<AllocationZone, 'minutes'>[],
  transects: readonly number[],
): number {
  return zones.reduce((sum, z, i) => sum + z.minutes * transects[i], 0);
}

function judged({ zones, gradient, inHand }: AllocationInput, transects: number[]): Allocation {
  const information = sumInformation(
    gradient.length,
    inHand,
    zones.map((z, i) => [transects[i], z.information] as const),
  );
  return { transects, variance: varianceOf(gradient, information) };
}

function moved(from: readonly number[], changes: Readonly<Record<number, number>>): number[] {
  return from.map((n, i) => n + (changes[i] ?? 0));
}

const hasRoom = ({ zones }: AllocationInput, transects: readonly number[], i: number): boolean =>
  transects[i] < (zones[i].most ?? Number.POSITIVE_INFINITY);

/** Of k transects, what a zone has at least. */
const leastOf = ({ least = 0 }: AllocationZone, k: number): number =>
  Math.max(LEAST_A_ZONE, Math.round(k * least));

function withOneMore(
  input: AllocationInput,
  { transects, variance }: Allocation,
  k: number,
): Allocation {
  const open = transects.flatMap((_, i) => (hasRoom(input, transects, i) ? [i] : []));
  const short = (i: number): number => leastOf(input.zones[i], k) - transects[i];
  const [shortest] = open.filter((i) => short(i) > 0).sort((a, b) => short(b) - short(a));
  if (shortest !== undefined) return judged(input, moved(transects, { [shortest]: 1 }));
  const tried = open.map((i) => ({ i, a: judged(input, moved(transects, { [i]: 1 })) }));
  const told = tried.flatMap(({ a, i }) => (a.variance === null ? [] : [{ a, v: a.variance, i }]));
  const [first, ...others] = told;
  if (first === undefined)
    return tried.reduce((least, t) => (transects[t.i] < transects[least.i] ? t : least)).a;
  // logarithms, so that halving a variance counts the same at any size
  const gain = ({ v, i }: { v: number; i: number }): number =>
    (variance === null ? -Math.log(v) : Math.log(variance / v)) / input.zones[i].minutes;
  return others.reduce((best, t) => (gain(t) > gain(best) ? t : best), first).a;
}

/** A variance must fall by this share for an exchange: less is rounding. */
const LOWER = 1e-9;

function exchanged(input: AllocationInput, from: Allocation, k: number): Allocation {
  let best = from;
  for (let again = best.variance !== null; again; ) {
    again = false;
    const { transects } = best;
    const spentM = minutesOf(input.zones, transects);
    for (let give = 0; give < transects.length; give++) {
      if (transects[give] <= leastOf(input.zones[give], k)) continue;
      for (let take = 0; take < transects.length; take++) {
        if (take === give || !hasRoom(input, transects, take)) continue;
        const tried = judged(input, moved(transects, { [give]: -1, [take]: 1 }));
        const isLower =
          tried.variance !== null &&
          best.variance !== null &&
          tried.variance < best.variance * (1 - LOWER) &&
          minutesOf(input.zones, tried.transects) <= spentM * (1 + LOWER);
        if (isLower) [best, again] = [tried, true];
      }
    }
  }
  return best;
}
