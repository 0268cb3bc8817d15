/** A plan as a person at a terminal reads it: the sentence, the curve in words, where, other ways, what to mind. */

import { visible } from '../../shared/words.ts';
import { HEADINGS } from '../present/headings.ts';
import type { PlanRead } from '../present/plan.ts';
import { columns, wrap } from './text.ts';

/** Text of at most 80 columns. */
export function planText(read: PlanRead, bold: boolean): string {
  const heading = (text: string) => (bold ? `\u001b[1m${text}\u001b[0m` : text);
  const lines = (all: readonly string[]): string => all.map((line) => wrap(line, '  ')).join('\n');
  const [before, strong, after] = read.sentence;
  const { zones, alternatives } = read;
  const parts: [string, string | null][] = [
    [HEADINGS.answer, lines([`${before}${strong}${after}`, ...read.lead])],
    [HEADINGS.ahead, read.curve.length === 0 ? null : lines(read.curve)],
    ['Check', read.check && wrap(read.check, '  ')],
    [
      'Where',
      [
        columns([zones.head, ...zones.rows], RIGHT_AFTER(2, zones.head.length), '  '),
        lines(zones.notes),
      ]
        .filter((text) => text !== '')
        .join('\n'),
    ],
    [
      'Other ways to spend the same time',
      alternatives.rows.length === 0
        ? null
        : `${columns([alternatives.head, ...alternatives.rows], RIGHT_AFTER(2, alternatives.head.length), '  ')}\n${lines(alternatives.notes)}`,
    ],
    [HEADINGS.cautions, lines(read.cautions)],
  ];
  const told = parts.flatMap(([title, text]) =>
    text === null ? [] : [`${heading(title)}\n${text.split('\n').map(visible).join('\n')}\n`],
  );
  return `${heading(visible(read.lake))}\n\n${told.join('\n')}`;
}

const RIGHT_AFTER = (words: number, of: number): ('left' | 'right')[] =>
  Array.from({ length: of }, (_, i) => (i < words ? 'left' : 'right'));
