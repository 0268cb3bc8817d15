/** A change between surveys as a person at a terminal reads it. */

import { visible } from '../../shared/words.ts';
import type { ChangeRead, PairRead } from '../present/change.ts';
import { HEADINGS } from '../present/headings.ts';
import { TREATMENT_CAUTION } from '../present/treatment-caution.ts';
import { columns, wrap } from './text.ts';

/** Text of at most 80 columns, as far as names leave room. */
export function changeText({ title, surveys, pairs }: ChangeRead, bold: boolean): string {
  const heading = (text: string) => (bold ? `\u001b[1m${text}\u001b[0m` : text);
  const parts = [
    heading(visible(title)),
    table(surveys),
    ...pairs.flatMap((pair) => [heading(visible(pair.title)), pairText(pair)]),
    ...(pairs.some((p) => p.treated !== null)
      ? [heading(HEADINGS.cautions), wrap(TREATMENT_CAUTION, '  ')]
      : []),
  ];
  return `${parts.join('\n')}\n`;
}

function pairText({ opening, sure, treated, tables, basis }: PairRead): string {
  const lines = [
    opening,
    ...sure,
    ...(treated ?? []).filter((line) => line !== TREATMENT_CAUTION),
  ].map((line) => wrap(visible(line), '  '));
  const [bySubstrate, ...others] = tables;
  const shown = [bySubstrate, ...others.filter((_, i) => i < MOST_TABLES - 1)];
  return [
    ...lines,
    ...shown.map(({ caption, rows }) => `\n  ${caption}\n${table(rows)}`),
    '',
    ...basis.map((line) => wrap(visible(line), '  ')),
  ].join('\n');
}

/** The others stand in the files. */
const MOST_TABLES = 2;

function table(rows: string[][]): string {
  const right = rows[0].slice(1).map(() => 'right' as const);
  return columns(
    rows.map((cells) => cells.map(visible)),
    ['left', ...right],
    '  ',
  );
}
