/** Many lakes in words and rows: the programme's total, a line a lake, and the lakes by their density. */

import type { BatchFile, LakeNumbers, Programme } from '../../shared/batch.ts';
import { label, labels, term, terms } from '../../shared/glossary.ts';
import { formatCount, formatDepthBand, formatLandArea, landArea } from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import { type LakesMap, readLakesMap } from './lakes-map.ts';
import { ciName, NONE, quantity, quantityCells, quantityInFull } from './quantity.ts';

export interface BatchRead {
  title: string;
  /** the programme's total, to be read aloud */
  opening: string;
  /** what is not in it, and what it rests on */
  notes: string[];
  /** the first row is the head; `name` is that of each lake's folder */
  rows: { name: string | null; faulty: boolean; cells: string[] }[];
  errors: { name: string; lines: string[] }[];
  /** lakes with a number, the densest first */
  bars: LakeBar[];
  map: LakesMap | null;
}

/** A lake's density with its interval, for a drawing. */
export interface LakeBar {
  name: string;
  estimate: number;
  lower: number | null;
  upper: number | null;
  words: string;
}

/** Of a lake with errors so many lines are shown. */
const MOST_LINES = 5;
/** More lakes with errors are counted in the notes; all are named below. */
const MOST_NAMED = 8;

export function readBatch({ programme, lakes, interval }: BatchFile): BatchRead {
  const named = namesOf(lakes);
  return {
    title: lakesInWords(programme.lakes),
    opening: openingOf(programme, interval),
    notes: notesOf(programme, lakes, interval),
    rows: [
      { name: null, faulty: false, cells: headOf(interval) },
      ...lakes.map((lake) => ({
        name: lake.name,
        faulty: lake.numbers === null,
        cells: [
          lake.numbers === null ? `${named(lake)} (${terms('error')})` : named(lake),
          ...cellsOf(lake.numbers),
        ],
      })),
    ],
    errors: lakes
      .filter(({ errors }) => errors.length > 0)
      .map(({ name, errors }) => ({
        name,
        lines: [
          ...errors.slice(0, MOST_LINES),
          ...(errors.length > MOST_LINES
            ? [`and ${formatCount(errors.length - MOST_LINES)} more`]
            : []),
        ],
      })),
    bars: barsOf(lakes, named),
    map: readLakesMap(lakes, named),
  };
}

type Named = (lake: BatchFile['lakes'][number]) => string;

/** The lake's own name, with that of its folder where two are called alike; the latter alone where its data could not be read. */
function namesOf(lakes: BatchFile['lakes']): Named {
  const times = new Map<string, number>();
  for (const { numbers } of lakes)
    if (numbers !== null) times.set(numbers.lake, (times.get(numbers.lake) ?? 0) + 1);
  return ({ name, numbers }) => {
    if (numbers === null || numbers.lake === name) return name;
    return times.get(numbers.lake) === 1 ? numbers.lake : `${numbers.lake} (${name})`;
  };
}

const lakesInWords = (n: number): string => `${formatCount(n)} ${n === 1 ? 'lake' : 'lakes'}`;

function openingOf(programme: Programme, interval: number): string {
  const { mussels, estimated, without_number: without, surveyed_m2: surveyedM2 } = programme;
  const ground = `${formatLandArea(surveyedM2)} of ${term('surveyedHabitat')} in ${lakesInWords(estimated - without.length)}`;
  return mussels === null
    ? `There is no total: ${ground}, and on none of them a number of ${terms('mussel')}.`
    : `On ${ground} there are about ${quantityInFull(mussels, terms('mussel'), interval)}.`;
}

function notesOf(
  {
    lakes,
    estimated,
    none_detected: none,
    with_errors: faulty,
    without_number: without,
    missing,
    shared_detection: shared,
  }: Programme,
  all: BatchFile['lakes'],
  interval: number,
): string[] {
  const notes = [
    `The lakes are taken as independent: the squares of their ${terms('standardError')} add up.`,
  ];
  if (shared !== undefined) notes.push(sharedNote(shared, interval));
  if (none > 0)
    notes.push(
      none === 1
        ? `In one lake nothing was detected, which does not show that there are none: it adds nothing to the total, and has an ${term('upperLimit')} of its own.`
        : `In ${formatCount(none)} lakes nothing was detected, which does not show that there are none: they add nothing to the total, and each has an ${term('upperLimit')} of its own.`,
    );
  if (without.length > 0) {
    const named = namesOf(all);
    const who = all.filter(({ name }) => without.includes(name)).map(named);
    notes.push(
      `${listed(who, 'and')} ${who.length === 1 ? 'has' : 'have'} no number for the whole lake and ${who.length === 1 ? 'is' : 'are'} not in it; ${who.length === 1 ? 'its page says' : 'their pages say'} why.`,
    );
  }
  if (faulty > 0) {
    const who = all.flatMap(({ name, numbers }) => (numbers === null ? [name] : []));
    const names = who.length > MOST_NAMED ? '' : `: ${listed(who, 'and')}`;
    notes.push(
      `${formatCount(faulty)} of ${formatCount(lakes)} ${faulty === 1 ? 'has errors and is' : 'have errors and are'} not in it${names}.`,
    );
  }
  if (missing.length > 0)
    notes.push(
      `${formatCount(missing.length)} of ${formatCount(lakes)} ${missing.length === 1 ? 'is' : 'are'} missing, not done or done with other files: ${listed(missing, 'and')}.`,
    );
  if (faulty === 0 && missing.length === 0 && without.length === 0 && estimated === lakes)
    notes.push('Every lake of the list is in it.');
  return notes;
}

function sharedNote(
  { used, observers, mussels }: NonNullable<Programme['shared_detection']>,
  interval: number,
): string {
  if (mussels === null)
    return 'Nobody whose detection could be estimated dived on two of the lakes.';
  const who = `the detection of ${listed(observers, 'and')} the same on all lakes`;
  const total = quantityInFull(mussels, terms('mussel'), interval);
  return used
    ? `With ${who}, which the ${term('aicc')} of one fit of all lakes is for, there are ${total} by each lake’s best model.`
    : `The ${term('aicc')} of one fit of all lakes is against taking ${who}; by each lake’s best model alone there are ${total}.`;
}

function headOf(interval: number): string[] {
  return [
    'Lake',
    'Dives',
    labels('transect'),
    labels('detection'),
    label('depth'),
    'ha',
    labels('mussel'),
    ciName(interval),
    'per m²',
    labels('notice'),
  ];
}

function cellsOf(n: LakeNumbers | null): string[] {
  if (n === null) return new Array<string>(9).fill(NONE);
  const dives = n.from === null ? NONE : n.from === n.to ? n.from : `${n.from} to ${n.to}`;
  const density =
    n.mussels_per_m2 === null || n.detections === 0 ? NONE : quantity(n.mussels_per_m2).estimate;
  const [mussels, limits] = n.detections === 0 ? noneCells(n) : quantityCells(n.mussels);
  return [
    dives,
    formatCount(n.transects),
    formatCount(n.detections),
    formatDepthBand(n.depth_from_m, n.depth_to_m),
    n.surveyed_m2 === null ? NONE : landArea(n.surveyed_m2),
    mussels,
    limits,
    density,
    formatCount(n.notices),
  ];
}

/** How large clusters are is not known where none was detected: the limit is one of clusters. */
function noneCells({ clusters }: LakeNumbers): [string, string] {
  const [, limit] = quantityCells(clusters);
  return ['none detected', limit === NONE ? NONE : `${limit} ${terms('cluster')}`];
}

function barsOf(lakes: BatchFile['lakes'], named: Named): LakeBar[] {
  return lakes
    .flatMap((lake) => {
      const name = named(lake);
      const density = lake.numbers?.mussels_per_m2 ?? null;
      if (density === null || !(density.estimate > 0)) return [];
      const { estimate, lower, upper } = density;
      return [
        { name, estimate, lower, upper, words: `${name} ${quantityCells(density).join(', ')}` },
      ];
    })
    .sort((a, b) => b.estimate - a.estimate || (a.name < b.name ? -1 : 1));
}

/** `12 lakes done, 3 kept …` at the end of a run. */
export function endsInWords(counts: Record<'done' | 'kept' | 'errors' | 'failed', number>): string {
  const parts = [
    `${formatCount(counts.done)} done`,
    `${formatCount(counts.kept)} kept from an earlier run`,
    `${formatCount(counts.errors)} with ${counts.errors === 1 ? term('error') : terms('error')} in their data`,
    `${formatCount(counts.failed)} failed`,
  ];
  return `${listed(parts, 'and')}.`;
}
