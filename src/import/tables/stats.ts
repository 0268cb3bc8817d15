/** What stands in a column: the evidence by which it is matched. */

import type { RawCell } from '../../../shared/importing.ts';
import { type Block, type Column, cellAt } from './blocks.ts';
import { classParts, isBlank, meaningOf } from './codes.ts';
import { readCoordinate, readPair } from './coordinates.ts';
import { readDate } from './dates.ts';
import { readDuration } from './durations.ts';
import { readNumber } from './numbers.ts';

export interface ColumnStats {
  /** cells that are not blank */
  filled: number;
  distinct: string[];
  /** shares of those */
  numbers: number;
  dates: number;
  times: number;
  coordinates: number;
  pairs: number;
  substrates: number;
  roles: number;
  designs: number;
  least: number | null;
  most: number | null;
  /** decimals of the numbers, the most of them */
  decimals: number;
}

/** Distinct values beyond these are counted, not kept. */
const MOST_KEPT = 2000;
/** So many rows show what a column holds. */
const MOST_LOOKED_AT = 20_000;

export function statsOf({ rows }: Block, { at }: Column, decimalComma: boolean): ColumnStats {
  const distinct = new Set<string>();
  const counts = {
    numbers: 0,
    dates: 0,
    times: 0,
    coordinates: 0,
    pairs: 0,
    substrates: 0,
    roles: 0,
    designs: 0,
  };
  let filled = 0;
  let least: number | null = null;
  let most: number | null = null;
  let decimals = 0;
  for (const row of rows.slice(0, MOST_LOOKED_AT)) {
    const cell = cellAt(row, at);
    if (cell.kind === 'blank' || isBlank(cell.text)) continue;
    filled++;
    if (distinct.size < MOST_KEPT) distinct.add(cell.text);
    const number = cell.kind === 'date' ? null : readNumber(cell.text, decimalComma);
    if (number !== null) {
      counts.numbers++;
      least = Math.min(least ?? number.value, number.value);
      most = Math.max(most ?? number.value, number.value);
      decimals = Math.max(decimals, number.text.split('.')[1]?.length ?? 0);
    }
    if (isDay(cell)) counts.dates++;
    if (readDuration(cell.text, 'min', decimalComma, true) !== null) counts.times++;
    if (readCoordinate(cell.text, decimalComma) !== null) counts.coordinates++;
    if (number === null && readPair(cell.text, decimalComma) !== null) counts.pairs++;
    if (classParts(cell.text).every((part) => meaningOf.substrate(part) !== null))
      counts.substrates++;
    if (meaningOf.role(cell.text) !== null) counts.roles++;
    if (meaningOf.design(cell.text) !== null) counts.designs++;
  }
  const shares = Object.fromEntries(
    Object.entries(counts).map(([name, count]) => [name, filled === 0 ? 0 : count / filled]),
  ) as typeof counts;
  return { filled, distinct: [...distinct], ...shares, least, most, decimals };
}

function isDay({ kind, text }: RawCell): boolean {
  if (kind === 'date') return /^\d{4}-/.test(text);
  return kind === 'text' && readDate(text) !== null;
}
