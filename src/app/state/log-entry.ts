/** What the Field log proposes: the next label, roles exchanged, what stays as it was; and what notes say for it. */

import { DEFAULT_WIDTH_M, DETECTIONS, HABITAT, TRANSECTS } from '../../../shared/tables.ts';
import type { LogDraft, Work } from '../contract.ts';
import { LOG_REASON, type LogRow, rowsOf, tableIn } from './log-tables.ts';

const FIRST_LABEL = 'T1';
const USUAL_LENGTH_M = '30';

/** The number at the end of a label, one up, as many digits; not one of those that are taken. */
export function nextLabel(labels: readonly string[]): string {
  const taken = new Set(labels);
  let label = labels.at(-1) ?? '';
  if (label === '') return FIRST_LABEL;
  do {
    const [, stem, digits] = /^(.*?)(\d*)$/.exec(label)!;
    label =
      digits === '' ? `${stem}2` : stem + String(Number(digits) + 1).padStart(digits.length, '0');
  } while (taken.has(label));
  return label;
}

/** Searched ones have a date; the others are planned. */
export function transectsIn(files: Work['files']): { searched: LogRow[]; planned: LogRow[] } {
  const { rows } = tableIn(files, TRANSECTS);
  return {
    searched: rows.filter(({ cells }) => cells.date !== ''),
    planned: rows.filter(({ cells }) => cells.date === ''),
  };
}

/** What a new transect begins with: the day, the roles of the last one exchanged, its design, length and width. */
export function newTransect(files: Work['files'], today: string): Record<string, string> {
  const { searched, planned } = transectsIn(files);
  const labels = [...planned, ...searched].map(({ cells }) => cells.transect);
  const last = searched.at(-1)?.cells ?? {};
  const design = last.design || 'belt';
  return {
    transect: nextLabel(labels),
    date: today,
    design,
    ...exchanged(last),
    bearing_ref: last.bearing_ref ?? '',
    length_m: last.length_m || USUAL_LENGTH_M,
    width_m: last.width_m ?? '',
  };
}

/** What a planned transect lacks of that, and its day. */
export function begunFromPlan(
  files: Work['files'],
  { cells }: LogRow,
  today: string,
): Record<string, string> {
  const proposed = newTransect(files, today);
  const roles = cells.primary === '' && cells.secondary === '';
  const lacking = ['design', ...(roles ? ['primary', 'secondary'] : []), 'length_m'];
  const filled = lacking.filter((column) => cells[column] === '' && proposed[column]);
  return {
    date: today,
    ...Object.fromEntries(filled.map((column) => [column, proposed[column] ?? ''])),
  };
}

function exchanged({ primary = '', secondary = '' }: LogRow['cells']) {
  return secondary === '' ? { primary, secondary } : { primary: secondary, secondary: primary };
}

/** Everybody who has a role on another transect, the latest first. */
export function knownObservers(files: Work['files'], but: number): string[] {
  const names = tableIn(files, TRANSECTS)
    .rows.filter(({ row }) => row !== but)
    .flatMap(({ cells }) => [cells.primary ?? '', cells.secondary ?? ''])
    .filter((name) => name !== '');
  return [...new Set(names.reverse())];
}

/** Half of the width searched, m: the farthest that a cluster can lie from the rope. */
export function reachM({ width_m: width, design }: LogRow['cells']): number {
  const typed = Number(width);
  return (typed > 0 ? typed : DEFAULT_WIDTH_M[design === 'distance' ? 'distance' : 'belt']) / 2;
}

/** As it stands among the notes of a transect on which nothing was found. */
const NONE_FOUND = 'Searched to the end, none found.';

export function saysNoneFound(notes: string): boolean {
  return notes.includes(NONE_FOUND);
}

export function withNoneFound(notes: string, said: boolean): string {
  const rest = notes.replace(NONE_FOUND, '').replace(/ {2,}/g, ' ').trim();
  return said ? joined(rest, NONE_FOUND) : rest;
}

/** The accuracy of a waypoint that the device gave, in place of what was noted of the same end before. */
export function withAccuracy(notes: string, end: 'start' | 'end', words: string): string {
  const name = end === 'start' ? 'Start' : 'End';
  const rest = notes.replace(new RegExp(`${name} by device:[^.]*(?:\\.\\d[^.]*)*\\.`), '').trim();
  return joined(rest.replace(/ {2,}/g, ' '), `${name} by device: ${words}.`);
}

function joined(rest: string, words: string): string {
  return rest === '' ? words : `${rest} ${words}`;
}

/** Transects begun in the log, of which neither a detection nor "none found" was entered. */
export function unsaid({ files, edits }: Work): LogRow[] {
  const own = new Set(
    edits.flatMap(({ file, row, reason }) =>
      file === TRANSECTS.file && reason === LOG_REASON ? [row] : [],
    ),
  );
  return transectsIn(files).searched.filter(({ row, cells }) => {
    const label = cells.transect ?? '';
    return (
      own.has(row) &&
      label !== '' &&
      !saysNoneFound(cells.notes ?? '') &&
      rowsOf(files, DETECTIONS, label).length === 0
    );
  });
}

/** Where its entries were left off: the distances and the depth of the last ones. */
export function leftOffAt(files: Work['files'], label: string): Partial<LogDraft> {
  const bed = rowsOf(files, HABITAT, label).at(-1)?.cells;
  const found = rowsOf(files, DETECTIONS, label).at(-1)?.cells;
  return {
    ...(bed === undefined ? {} : { breakM: bed.distance_m ?? '', depthM: bed.depth_m ?? '' }),
    ...(found === undefined ? {} : { foundM: found.distance_m ?? '' }),
  };
}

/** Whether a label can be changed without leaving rows of other tables behind. */
export function hasRows(files: Work['files'], label: string): boolean {
  return [HABITAT, DETECTIONS].some((table) => rowsOf(files, table, label).length > 0);
}
