/** Rules about planted shells: rows that do not add up, and whether the analysis asks for what the table has. */

import { LEAST_AVAILABILITY } from '../../shared/analysis.ts';
import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import { term } from '../../shared/glossary.ts';
import type { DraftRow, PlantedCells } from '../../shared/reading.ts';
import { PLANTED_SHELLS } from '../../shared/tables.ts';
import { formatPercent } from '../../shared/units.ts';
import { quoted } from '../../shared/words.ts';
import type { Context } from './context.ts';

const at = (row: number, column: string) => ({ table: PLANTED_SHELLS.file, row, column });
const CHOICE = { table: 'analysis.json', column: 'detection.availability' };

export function plantedTwice({ drafts }: Context): Finding[] {
  const first = new Map<string, number>();
  return drafts.planted.rows.flatMap(({ row, cells: { transect } }) => {
    if (transect === null) return [];
    const before = first.get(transect);
    if (before === undefined) {
      first.set(transect, row);
      return [];
    }
    const message = `transect ${quoted(transect)} has a row already, row ${before} (one row a transect expected: add the shells up)`;
    return [errorAt(at(row, 'transect'), 'planted-twice', message)];
  });
}

export function foundAbovePlanted({ drafts }: Context): Finding[] {
  return drafts.planted.rows.flatMap(({ row, cells }) => {
    const { planted, found_first: first, found_second_only: second } = cells;
    if (planted === null || first === null || second === null || first + second <= planted)
      return [];
    const message = `${first} and ${second} found are more than the ${planted} planted (found_first and found_second_only together at most planted expected)`;
    return [errorAt(at(row, 'planted'), 'found-above-planted', message)];
  });
}

export function plantedSecondOnSinglePass({ drafts, transectOf }: Context): Finding[] {
  return drafts.planted.rows.flatMap(({ row, cells: { transect, found_second_only: second } }) => {
    const on = transect === null ? undefined : transectOf.get(transect);
    if (on === undefined || on.cells.secondary !== null || on.bad.has('secondary')) return [];
    if (second === null || second === 0) return [];
    const message = `${second} found by a second observer, but nobody followed on transect ${quoted(on.cells.transect ?? '')} (0 expected)`;
    return [errorAt(at(row, 'found_second_only'), 'planted-second-on-single-pass', message)];
  });
}

/** Where the analysis asks for the planted shells, there must be some, and some of them found. */
export function nothingPlanted({ drafts: { planted }, analysis }: Context): Finding[] {
  if (analysis.detection.availability !== 'planted') return [];
  if (planted.readable && !planted.complete) return [];
  if (planted.rows.length === 0) {
    const message = `"planted" asks for ${PLANTED_SHELLS.file}, ${planted.readable ? 'which has no row' : 'which is not in the folder'} (planted shells, a number or null expected)`;
    return [errorAt(CHOICE, 'nothing-planted', message)];
  }
  const shells = countable(planted.rows);
  if (shells === null || shells.found >= LEAST_AVAILABILITY * shells.planted) return [];
  const message = `${shells.found} of ${shells.planted} planted shells were found: too few to tell the ${term('availability')} (at least ${formatPercent(LEAST_AVAILABILITY)} expected)`;
  return [errorAt(CHOICE, 'planted-not-found', message)];
}

export function plantedNotUsed({ drafts: { planted }, analysis }: Context): Finding[] {
  if (planted.rows.length === 0 || analysis.detection.availability === 'planted') return [];
  const message = `the planted shells are in no number: detection.availability of analysis.json is ${analysis.detection.availability ?? 'null'}; "planted" would use them`;
  return [noticeAt({ table: PLANTED_SHELLS.file }, 'planted-not-used', message)];
}

/** Sums over all rows; null where a row cannot be counted, which is told of itself. */
function countable(
  rows: readonly DraftRow<PlantedCells>[],
): { planted: number; found: number } | null {
  let [planted, found] = [0, 0];
  for (const { cells } of rows) {
    const { found_first: first, found_second_only: second } = cells;
    if (cells.planted === null || first === null || second === null) return null;
    planted += cells.planted;
    found += first + second;
  }
  return { planted, found };
}
