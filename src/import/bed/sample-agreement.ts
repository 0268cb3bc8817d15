/** How well samples of the bed tell of each other: left out one by one, and in pairs by their distance (METHOD.md: Maps brought in). */

import Flatbush from 'flatbush';
import { median } from './line-fit.ts';
import type { ClassedPoint } from './nearest-cells.ts';

/** A sample of the bed. Samples of one group (places along one transect) do not judge each other. */
export interface Sample extends ClassedPoint {
  group: string | null;
  /** 0 to 4; null or left out where it is not known */
  plantCover?: number | null;
}

/** Another sample, by its place in the list. */
export interface Other {
  index: number;
  distanceM: number;
}

export interface LeftOut {
  /** samples that have another one within the distance */
  judged: number;
  right: number;
  /** in the order of the first appearance */
  classes: { class: string; judged: number; right: number }[];
}

/** More samples than this are thinned evenly for pairs, whose number grows with the square. */
const MOST_IN_PAIRS = 1500;
/** Edges of the distance bands, m. */
const BANDS_M = [0, 10, 20, 30, 50, 75, 100, 150, 200, 300, 500, 1000];
/** Fewer pairs than this say nothing about a band. */
const LEAST_PAIRS = 20;
/** Near samples must agree by so many standard errors more than chance, or distance says nothing. */
const MORE_THAN_CHANCE_SE = 2;
/** Without more evidence no map is proposed that reaches farther, m. */
const MOST_PROPOSED_M = 200;

/** Each sample told by the nearest one that is neither itself nor of its group, if it lies within `greatestM`. */
export function leaveOneOut(
  samples: readonly Sample[],
  greatestM: number,
  nearest: readonly (Other | null)[] = nearestOthers(samples),
): LeftOut {
  const rows = new Map<string, { class: string; judged: number; right: number }>();
  for (const [i, sample] of samples.entries()) {
    const row = rows.get(sample.class) ?? { class: sample.class, judged: 0, right: 0 };
    rows.set(sample.class, row);
    const other = nearest[i];
    if (other === null || other.distanceM > greatestM) continue;
    row.judged++;
    if (samples[other.index].class === sample.class) row.right++;
  }
  const classes = [...rows.values()];
  const sum = (key: 'judged' | 'right'): number => classes.reduce((n, row) => n + row[key], 0);
  return { judged: sum('judged'), right: sum('right'), classes };
}

/** The same for plant cover: of those that know it and whose nearest other one does. */
export function plantsLeftOut(
  samples: readonly Sample[],
  greatestM: number,
  nearest: readonly (Other | null)[] = nearestOthers(samples),
): { judged: number; right: number; nearly: number } {
  const told = { judged: 0, right: 0, nearly: 0 };
  for (const [i, { plantCover = null }] of samples.entries()) {
    const other = nearest[i];
    const there = other === null ? null : (samples[other.index].plantCover ?? null);
    if (plantCover === null || there === null || other === null || other.distanceM > greatestM)
      continue;
    told.judged++;
    if (there === plantCover) told.right++;
    if (Math.abs(there - plantCover) <= 1) told.nearly++;
  }
  return told;
}

export interface DistanceBand {
  fromM: number;
  toM: number;
  pairs: number;
  alike: number;
}

export interface DistanceEvidence {
  bands: DistanceBand[];
  /** share of pairs that would be alike if samples did not know of each other */
  chance: number;
  /** median distance from a sample to the next one that may judge it; null when none may */
  spacingM: number | null;
  proposalM: number | null;
  why: string;
}

export function distanceEvidence(
  samples: readonly Sample[],
  nearest: readonly (Other | null)[] = nearestOthers(samples),
): DistanceEvidence {
  const bands = pairBands(samples);
  const counts = new Map<string, number>();
  for (const { class: name } of samples) counts.set(name, (counts.get(name) ?? 0) + 1);
  const chance = [...counts.values()].reduce((sum, n) => sum + (n / samples.length) ** 2, 0);
  const distances = nearest.flatMap((other) => (other === null ? [] : [other.distanceM]));
  const spacingM = distances.length === 0 ? null : median(distances);
  return { bands, chance, spacingM, ...proposed(bands, chance, spacingM) };
}

/** As far as all pairs up to there agree at least half as much beyond chance as the nearest ones do. */
function proposed(
  bands: readonly DistanceBand[],
  chance: number,
  spacingM: number | null,
): { proposalM: number | null; why: string } {
  const told = bands.filter((b) => b.pairs >= LEAST_PAIRS);
  if (spacingM === null)
    return { proposalM: null, why: 'no sample has another one to be judged by' };
  const bySpacing = tidyUp(spacingM);
  if (told.length === 0)
    return {
      proposalM: bySpacing,
      why: 'too few pairs: the usual distance from a sample to the next is proposed',
    };
  const share = (b: DistanceBand): number => b.alike / b.pairs;
  const first = share(told[0]);
  const chanceSe = Math.sqrt((chance * (1 - chance)) / told[0].pairs);
  if (first < chance + MORE_THAN_CHANCE_SE * chanceSe)
    return {
      proposalM: bySpacing,
      why: 'near samples are no more alike than any two: the usual distance from a sample to the next is proposed, and a map from these samples says little',
    };
  let reach = told[0].toM;
  let [pairs, alike] = [0, 0];
  for (const band of told) {
    pairs += band.pairs;
    alike += band.alike;
    if (alike / pairs < (first + chance) / 2 || band.toM > MOST_PROPOSED_M) break;
    reach = band.toM;
  }
  return {
    proposalM: reach,
    why: 'as far as all pairs up to there are at least half as much more alike than by chance as the nearest ones are',
  };
}

/** Up to the next of 1, 2, 5 times a power of ten. */
function tidyUp(m: number): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(m, 1)));
  return [1, 2, 5, 10].map((k) => k * power).find((v) => v >= m) ?? 10 * power;
}

function pairBands(samples: readonly Sample[]): DistanceBand[] {
  const step = Math.max(1, Math.ceil(samples.length / MOST_IN_PAIRS));
  const used = samples.filter((_, i) => i % step === 0);
  const bands = BANDS_M.slice(1).map(
    (toM, k): DistanceBand => ({ fromM: BANDS_M[k], toM, pairs: 0, alike: 0 }),
  );
  for (let i = 0; i < used.length; i++) {
    for (let j = i + 1; j < used.length; j++) {
      const [a, b] = [used[i], used[j]];
      if (a.group !== null && a.group === b.group) continue;
      const d = Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]);
      const band = bands.find((one) => d < one.toM);
      if (band === undefined) continue;
      band.pairs++;
      if (a.class === b.class) band.alike++;
    }
  }
  return bands.filter((band) => band.pairs > 0);
}

/** The nearest sample that may judge each one: of those no nearer than `fromM`, where it is left out with its neighbours. */
export function nearestOthers(samples: readonly Sample[], fromM = 0): (Other | null)[] {
  if (samples.length === 0) return [];
  const index = new Flatbush(samples.length);
  for (const { at } of samples) index.add(at[0], at[1]);
  index.finish();
  return samples.map(({ at, group }, i) => {
    const other = (k: number): boolean =>
      k !== i &&
      (group === null || samples[k].group !== group) &&
      (fromM === 0 || Math.hypot(samples[k].at[0] - at[0], samples[k].at[1] - at[1]) >= fromM);
    const [found] = index.neighbors(at[0], at[1], 1, Infinity, other);
    if (found === undefined) return null;
    const [x, y] = samples[found].at;
    return { index: found, distanceM: Math.hypot(x - at[0], y - at[1]) };
  });
}
