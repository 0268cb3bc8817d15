/** Rules about rows of detections.csv together with the transect that they are on. */

import { errorAt, type Finding } from '../../shared/findings.ts';
import { ROPE_TOLERANCE_M } from '../../shared/rope.ts';
import { DETECTIONS } from '../../shared/tables.ts';
import { plain, quoted } from '../../shared/words.ts';
import { type Context, widthOf } from './context.ts';
import { lengthInDoubt } from './rope-length.ts';

/** An offset this large is more likely to be in centimetres. */
const OFFSET_IN_CM = 1.5;

/** Where nothing lies beyond this share of the half width searched, the strip was not searched, or the unit is another. */
const NEAR_SHARE = 0.05;
/** Three even distances all lie so near by chance in one survey of eight thousand (0.05³); two in one of 400. */
const FEWEST_NEAR = 3;
/** So many even distances, rounded to half of the half width searched, all come out as its middle in one survey of a thousand (0.5¹⁰). */
const FEWEST_ALIKE = 10;

const at = (row: number, column: string) => ({ table: DETECTIONS.file, row, column });

export function detectionPastEnd(context: Context): Finding[] {
  const inDoubt = lengthInDoubt(context);
  return context.located.flatMap(({ found: { row, cells }, on }) => {
    const ropeM = on.cells.length_m;
    if (cells.distance_m === null || ropeM === null) return [];
    if (cells.distance_m <= ropeM + ROPE_TOLERANCE_M) return [];
    const message = `${plain(cells.distance_m)} m is past the rope's end (length_m of the transect is ${plain(ropeM)})${inDoubt.get(cells.transect!) ?? ''}`;
    return [errorAt(at(row, 'distance_m'), 'past-rope-end', message)];
  });
}

export function offsetOnBelt(context: Context): Finding[] {
  return context.located.flatMap(({ found: { row, cells }, on }) => {
    if (on.cells.design !== 'belt' || cells.offset_m === null) return [];
    const message = `an offset (${plain(cells.offset_m)} m) on the belt transect ${quoted(cells.transect!)} (blank expected: offsets belong to distance transects)`;
    return [errorAt(at(row, 'offset_m'), 'offset-on-belt', message)];
  });
}

export function offsetMissing(context: Context): Finding[] {
  const lost = context.located.filter(
    ({ found: { cells, bad }, on }) =>
      on.cells.design === 'distance' && cells.offset_m === null && !bad.has('offset_m'),
  );
  if (lost.length > 0 && !context.drafts.detections.columns.has('offset_m')) {
    const message =
      'the column is missing, but detections on distance transects need an offset (metres expected)';
    return [errorAt(at(1, 'offset_m'), 'offset-missing', message)];
  }
  return lost.map(({ found: { row, cells } }) => {
    const message = `blank, but ${quoted(cells.transect!)} is a distance transect (metres from the rope expected)`;
    return errorAt(at(row, 'offset_m'), 'offset-missing', message);
  });
}

export function offsetPastWidth(context: Context): Finding[] {
  return context.located.flatMap(({ found: { row, cells }, on }) => {
    const widthM = widthOf(on);
    if (on.cells.design !== 'distance' || cells.offset_m === null || widthM === null) return [];
    if (cells.offset_m <= widthM / 2 + ROPE_TOLERANCE_M) return [];
    const cm = cells.offset_m > OFFSET_IN_CM && cells.offset_m / 100 <= widthM / 2;
    const hint = cm ? `; is it in cm? That would be ${plain(cells.offset_m / 100)} m` : '';
    const message = `${plain(cells.offset_m)} m is past half the width (the width searched is ${plain(widthM)} m, so at most ${plain(widthM / 2)} m expected${hint})`;
    return [errorAt(at(row, 'offset_m'), 'offset-past-width', message)];
  });
}

/** Classes that end short of the strip leave distances in none. */
export function classesShortOfWidth(context: Context): Finding[] {
  const lastM = context.analysis.detection.distance_classes?.at(-1);
  if (lastM === undefined) return [];
  let widestM = 0;
  for (const on of context.drafts.transects.rows)
    if (on.cells.design === 'distance') widestM = Math.max(widestM, widthOf(on) ?? 0);
  if (lastM >= widestM / 2) return [];
  const message = `the last limit is ${plain(lastM)} m, but half the width searched is ${plain(widestM / 2)} m (a last limit of at least that expected)`;
  return [
    errorAt(
      { table: 'analysis.json', column: 'detection.distance_classes' },
      'classes-short-of-width',
      message,
    ),
  ];
}

/** Detection that falls off at once makes any number out of a few detections. */
export function offsetsAllNear(context: Context): Finding[] {
  let distances = 0;
  let farthestM = 0;
  for (const { found, on } of context.located) {
    const offsetM = found.cells.offset_m;
    const widthM = widthOf(on);
    if (on.cells.design !== 'distance' || offsetM === null || widthM === null) continue;
    if (offsetM > (NEAR_SHARE * widthM) / 2) return [];
    distances++;
    farthestM = Math.max(farthestM, offsetM);
  }
  if (distances < FEWEST_NEAR) return [];
  const near =
    farthestM === 0
      ? '0'
      : `at most ${plain(farthestM)} m, within ${100 * NEAR_SHARE} % of the half width searched`;
  const message =
    `all ${distances} perpendicular distances are ${near} ` +
    '(distances over all of the width expected; is width_m right, are they in another unit, or 0 where none was measured?)';
  return [errorAt({ table: DETECTIONS.file, column: 'offset_m' }, 'offsets-all-near', message)];
}

/** How detection falls with distance is not in distances that are all the same: any number would come of them. */
export function offsetsAllAlike(context: Context): Finding[] {
  const offsets = context.located.flatMap(({ found, on }) =>
    on.cells.design === 'distance' && found.cells.offset_m !== null ? [found.cells.offset_m] : [],
  );
  const [first] = offsets;
  if (offsets.length < FEWEST_ALIKE || offsets.some((offsetM) => offsetM !== first)) return [];
  if (first === undefined || offsetsAllNear(context).length > 0) return [];
  const message =
    `all ${offsets.length} perpendicular distances are ${plain(first)} m ` +
    '(distances over all of the width expected, each as it was measured; was one value kept for every cluster?)';
  return [errorAt({ table: DETECTIONS.file, column: 'offset_m' }, 'offsets-all-alike', message)];
}

export function secondaryOnSinglePass(context: Context): Finding[] {
  return context.located.flatMap(({ found: { row, cells }, on }) => {
    if (cells.role !== 'secondary' || on.cells.secondary !== null) return [];
    if (on.bad.has('secondary')) return [];
    const message = `secondary, but ${quoted(cells.transect!)} is a single pass: transects.csv row ${on.row} names no secondary`;
    return [errorAt(at(row, 'role'), 'secondary-on-single-pass', message)];
  });
}
