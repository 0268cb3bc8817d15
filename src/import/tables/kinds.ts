/** What a table is about: transects, habitat, detections, planted shells, several of them at once, points on a map, or none of it. */

import { type Match, matchColumns, type References, type Studied } from './match.ts';
import { nameFit } from './names.ts';

export type TableKind =
  | 'transects'
  | 'habitat'
  | 'detections'
  | 'planted_shells'
  | 'mixed'
  | 'points'
  | 'none';

export interface Judged {
  kind: TableKind;
  /** its columns leave no second reading */
  sure: boolean;
  /** what speaks for it, one sentence */
  because: string;
}

/** Fields that tell the kind, with their weight; the label of the transect stands in all of them. */
const TELLS: Record<'transects' | 'habitat' | 'detections', Record<string, number>> = {
  transects: {
    date: 2,
    design: 1,
    primary: 2,
    observers: 2,
    secondary: 1,
    start_lat: 1,
    start_lon: 1,
    end_lat: 2,
    end_lon: 2,
    start: 2,
    end: 2,
    bearing_deg: 2,
    length_m: 1,
    width_m: 1,
    clarity_m: 1,
    stop: 1,
    setup_min: 1,
    habitat_min: 1,
    search_min: 1,
  },
  habitat: { distance_m: 2, substrate: 2, plant_cover: 2, depth_m: 1 },
  detections: {
    distance_m: 2,
    count: 3,
    count_primary: 3,
    count_secondary: 1,
    role: 2,
    offset_m: 2,
    cluster_length_cm: 1,
    cluster_width_cm: 1,
  },
};
const ENOUGH = 4;

export function kindOf(table: Studied, refs: References): Judged {
  const matches = {
    transects: matchColumns(table, 'transects', refs),
    habitat: matchColumns(table, 'habitat', refs),
    detections: matchColumns(table, 'detections', refs),
    points: matchColumns(table, 'points', refs),
    planted_shells: matchColumns(table, 'planted_shells', refs),
  };
  const has = (kind: keyof typeof matches, field: string) =>
    matches[kind].some((match) => match.field === field);
  const score = (kind: keyof typeof TELLS) =>
    matches[kind].reduce(
      (sum, { field, fit }) => sum + (fit > 1 ? 1 : 0.6) * (TELLS[kind][field] ?? 0),
      0,
    );
  const [t, h, d] = [score('transects'), score('habitat'), score('detections')];
  const along = has('habitat', 'distance_m') || has('detections', 'distance_m');
  const isHabitat = has('habitat', 'distance_m') && has('habitat', 'substrate') && h >= ENOUGH;
  const isDetections =
    has('detections', 'distance_m') &&
    (has('detections', 'count') ||
      has('detections', 'count_primary') ||
      has('detections', 'role')) &&
    d >= ENOUGH;
  const once = isOnce(table, matches.transects);
  const places = (has('points', 'lat') && has('points', 'lon')) || has('points', 'pair');
  const ropes = matches.transects.some(
    ({ field, fit }) =>
      fit > 1 && /^(end|bearing|length|width|design|primary|secondary|observers|start)/.test(field),
  );
  const isPlanted =
    has('planted_shells', 'transect') &&
    matches.planted_shells.some(({ field, fit }) => field === 'planted' && fit > 1) &&
    (has('planted_shells', 'found_first') || has('planted_shells', 'found_second_only'));
  if (isPlanted && !ropes && !along)
    return judged(
      'planted_shells',
      isSure(matches.planted_shells, ['transect', 'found_first', 'found_second_only']),
      'it has numbers of shells that were planted and found',
    );
  if (isHabitat && isDetections)
    return judged('mixed', false, 'it has columns of habitat and of detections');
  if ((isHabitat || isDetections) && ropes && t >= ENOUGH + 2 && !once)
    return judged('mixed', false, 'it repeats what belongs to a transect beside each of its rows');
  if (t >= ENOUGH && once && ropes && !(isDetections && d > t))
    return judged(
      'transects',
      isSure(matches.transects, ['transect', 'date', 'length_m']),
      'each of its rows is another transect',
    );
  if (isHabitat && h >= d)
    return judged(
      'habitat',
      isSure(matches.habitat, ['transect', 'distance_m', 'substrate', 'depth_m']),
      'it has distances with what the bed is made of',
    );
  if (isDetections)
    return judged(
      'detections',
      isSure(matches.detections, ['transect', 'distance_m', 'count']),
      'it has distances with numbers of mussels',
    );
  if (places && !(along && nameAlong(table)))
    return judged(
      'points',
      isSure(matches.points, []),
      'it has coordinates, and nothing of a transect',
    );
  if (isHeaderless(table))
    return judged('points', false, 'it has columns of numbers without a header');
  const best = Math.max(t, h, d);
  if (best < ENOUGH)
    return judged(
      'none',
      false,
      'no columns of transects, habitat, detections or coordinates were recognised in it',
    );
  const kind = t === best ? 'transects' : h === best ? 'habitat' : 'detections';
  return judged(kind, false, 'some of its columns look like it');
}

function judged(kind: TableKind, sure: boolean, because: string): Judged {
  return { kind, sure, because };
}

/** The fields are there, under names that mean nothing else. */
function isSure(matches: readonly Match[], fields: readonly string[]): boolean {
  return fields.every((field) => matches.some((match) => match.field === field && match.fit > 1));
}

/** A table of transects names each of them once. */
function isOnce({ block, stats }: Studied, matches: readonly Match[]): boolean {
  const id = matches.find(({ field }) => field === 'transect');
  if (id === undefined) return false;
  const { filled, distinct } = stats[block.columns.indexOf(id.column)];
  return filled > 0 && distinct.length >= 0.9 * filled;
}

function nameAlong({ block }: Studied): boolean {
  return block.columns.some(
    (column) =>
      nameFit(column, 'habitat', 'distance_m') > 1 ||
      nameFit(column, 'detections', 'distance_m') > 1,
  );
}

function isHeaderless({ block, stats }: Studied): boolean {
  return block.headerRow === null && stats.filter(({ numbers }) => numbers > 0.9).length >= 2;
}
