/** Labels with their values, as they stand in the upper part of a printed sheet: beside one another, in one cell, or the value below. */

import type { RawCell, RawTable } from '../../../shared/importing.ts';
import { isWordy } from './blocks.ts';
import { type Fit, transectFit } from './names.ts';

export interface LabelledValue {
  label: string;
  value: RawCell;
  /** spreadsheet row of the value */
  row: number;
}

type Row = RawTable['rows'][number];

/** A value stands at most so many cells behind its label. */
const REACH = 3;
const BLANK: RawCell = { text: '', kind: 'blank' };

/** Rows may have blanks where other tables were. */
export function labelledValues(rows: readonly Row[]): LabelledValue[] {
  const found: LabelledValue[] = [];
  for (let i = 0; i < rows.length; i++) {
    const below = valuesBelow(rows[i], rows[i + 1]);
    const here = below ?? valuesBeside(rows[i]);
    for (const one of here) found.push(one);
    if (below !== null) i++;
  }
  return found;
}

/** A line of labels, and a line of values under it. */
function valuesBelow(row: Row, next: Row | undefined): LabelledValue[] | null {
  if (next === undefined || next.row !== row.row + 1 || !isWordy(row.cells)) return null;
  const labels = row.cells.map(({ text }, at) => ({ text, at })).filter(({ text }) => text !== '');
  if (labels.length < 3 || !labels.every(({ text }) => strength(text) > 1)) return null;
  return labels.map(({ text, at }) => ({
    label: bareLabel(text),
    value: next.cells[at] ?? BLANK,
    row: next.row,
  }));
}

function valuesBeside({ row, cells }: Row): LabelledValue[] {
  const found: LabelledValue[] = [];
  const alone = new Set(cells.map(({ text }) => text).filter((text) => text !== '')).size === 1;
  for (let at = 0; at < cells.length; at++) {
    const cell = cells[at];
    if (cell.kind !== 'text' || !/\p{L}/u.test(cell.text)) continue;
    const inside = /^([^:]*\p{L}[^:]*):\s*(\S.*)$/u.exec(cell.text);
    if (inside !== null && strength(inside[1]) > 0) {
      found.push({ label: inside[1].trim(), value: { text: inside[2], kind: 'text' }, row });
      continue;
    }
    if (!isLabel(cell.text)) continue;
    const to = valueAt(cells, at);
    // alone in its line, without a colon and a value, it is a title
    if (to === null && alone && !cell.text.endsWith(':')) continue;
    found.push({ label: bareLabel(cell.text), value: to === null ? BLANK : cells[to], row });
    if (to !== null) at = to;
  }
  return found;
}

/** The next cell that is filled, unless it is a label again. */
function valueAt(cells: readonly RawCell[], label: number): number | null {
  for (let at = label + 1; at <= label + REACH && at < cells.length; at++) {
    const { kind, text } = cells[at];
    // a merged label stands in each of its cells
    if (kind === 'blank' || text === cells[label].text) continue;
    return kind === 'text' && isLabel(text) ? null : at;
  }
  return null;
}

/** A name of ours, or anything with a colon behind it. */
function isLabel(text: string): boolean {
  return /\p{L}.*:$/u.test(text) || strength(text) > 1;
}

function strength(text: string): Fit {
  return transectFit(bareLabel(text));
}

function bareLabel(text: string): string {
  return text.replace(/\s*:\s*$/, '').trim();
}
