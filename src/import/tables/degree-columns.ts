/** Coordinates whose degrees, minutes and seconds stand in columns of their own → one column of each coordinate. */

import { type Block, type Column, cellAt } from './blocks.ts';
import { isBlank } from './codes.ts';

/** What stands behind the name: the signs of minutes and seconds are those of feet and inches too. */
const DEGREES = new Set([null, 'deg']);
const MINUTES = new Set(['min', 'ft']);
const SECONDS = new Set(['s', 'in']);
const IS_COORDINATE = /\b(lat|latitude|lon|long|lng|longitude)\b/;

export function withJoinedDegrees(block: Block): Block {
  const joined = new Map<Column, Column[]>();
  for (const degrees of block.columns) {
    const name = baseOf(degrees);
    if (!IS_COORDINATE.test(name) || !DEGREES.has(degrees.unit)) continue;
    const part = (units: Set<string | null>) =>
      block.columns.find((c) => c !== degrees && baseOf(c) === name && units.has(c.unit));
    const minutes = part(MINUTES);
    if (minutes === undefined) continue;
    const seconds = part(SECONDS);
    joined.set(degrees, seconds === undefined ? [minutes] : [minutes, seconds]);
  }
  if (joined.size === 0) return block;
  const gone = new Set([...joined.values()].flat());
  const columns = block.columns.filter((column) => !gone.has(column));
  const rows = block.rows.map((row) => {
    const cells = [...row.cells];
    for (const [degrees, parts] of joined) {
      const texts = [degrees, ...parts].map(({ at }) => cellAt(row, at).text);
      if (texts.some(isBlank)) continue;
      cells[degrees.at] = { text: texts.join(' '), kind: 'text' };
    }
    return { ...row, cells };
  });
  const named = columns.map((column) => {
    const parts = joined.get(column);
    if (parts === undefined) return column;
    const text = [column, ...parts].map((part) => part.text).join(', ');
    return { ...column, key: baseOf(column), text, unit: null };
  });
  return { ...block, columns: named, rows };
}

/** `lat` of `lat` and `lat 2`: columns of one name are told apart by a number. */
function baseOf({ key }: Column): string {
  return key.replace(/ \d+$/, '');
}
