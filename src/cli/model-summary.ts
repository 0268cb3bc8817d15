/** The models that were compared and the checks on the one used, for the terminal. */

import { shortTerm, term } from '../../shared/glossary.ts';
import type { Checking } from '../present/checking.ts';
import type { Verdict } from '../present/checks.ts';
import {
  linesShown,
  type ModelComparison,
  type ModelLine,
  type ModelRead,
} from '../present/models.ts';
import { columns, wrap } from './text.ts';

/** More models are counted; all of them stand in models.csv. */
const MOST_MODELS = 6;

/** A row a model, the lowest AICc first, then what ended on a boundary or was not fitted; null when there is no model. */
export function modelLines({ compared }: ModelRead): string | null {
  if (compared === null) return null;
  const { averaged, kept, forced, single } = compared;
  const notes = compared.notes.map((note) => wrap(`- ${note}`, '  ', '    '));
  if (single !== null) return [wrap(single, '  '), ...notes].join('\n');
  const fitted = { ...compared, lines: compared.lines.filter((m) => m.fitted) };
  const { shown, more } = linesShown(fitted, MOST_MODELS);
  return [
    tableOf(shown, compared),
    more === null ? null : `  ${more}`,
    averaged === null ? null : wrap(averaged, '  '),
    kept === null ? null : wrap(kept, '  '),
    forced === null ? null : wrap(forced, '  '),
    ...notes,
  ]
    .filter((line) => line !== null)
    .join('\n');
}

function tableOf(
  shown: ModelLine[],
  { withShapes, withDepths, withShores }: ModelComparison,
): string {
  const depth = (text: string) => (withDepths ? [text] : []);
  const shape = (text: string) => (withShapes ? [text] : []);
  const shore = (text: string) => (withShores ? [text] : []);
  const rows = [
    [
      withShapes && withDepths ? shortTerm('countDistribution') : term('countDistribution'),
      shortTerm('transectEffect'),
      ...shape(withShores ? shortTerm('detectionFunction') : term('detectionFunction')),
      ...depth(term('depth')),
      ...shore(shortTerm('alongShore')),
      term('deltaAicc'),
      shortTerm('akaikeWeight'),
      '',
    ],
    ...shown.map((m) => [
      m.family,
      m.transectEffect,
      ...shape(m.detectionFunction),
      ...depth(m.depth),
      ...shore(m.shore),
      m.delta,
      m.weight,
      m.mark,
    ]),
  ];
  const texts = 2 + Number(withShapes) + Number(withDepths) + Number(withShores);
  const sides = Array.from({ length: texts }, () => 'left' as const);
  return columns(rows, [...sides, 'right', 'right', 'left'], '  ');
}

const MARKS: Record<Verdict, string> = {
  holds: 'holds',
  saturated: 'saturated',
  doubtful: 'doubtful',
  fails: 'FAILS',
};
const VERDICT_WIDTH = 10;

/** The verdict and the sentence of each check, the gravest first; the design-based one stands with the answer. */
export function checkLines(checking: Checking | null): string | null {
  if (checking === null) return null;
  const hanging = ' '.repeat(2 + VERDICT_WIDTH);
  return checking.checks
    .filter((c) => c.name !== 'design-based')
    .map(({ title, verdict, sentence }) => {
      const text = wrap(`${title}: ${sentence}`, hanging);
      return `  ${MARKS[verdict].padEnd(VERDICT_WIDTH)}${text.slice(hanging.length)}`;
    })
    .join('\n');
}
