/** The models that were compared and the checks on the one used, for the terminal. */

import { shortTerm, term } from '../../shared/glossary.ts';
import type { Checking } from '../present/checking.ts';
import type { Verdict } from '../present/checks.ts';
import type { ModelLine, ModelRead } from '../present/models.ts';
import { columns, wrap } from './text.ts';

/** More models are counted; all of them stand in models.csv. */
const MOST_MODELS = 6;

/** A row a model, the lowest AICc first, then what ended on a boundary or was not fitted; null when there is no model. */
export function modelLines({ compared }: ModelRead): string | null {
  if (compared === null) return null;
  const { lines, withShapes, kept, forced, single } = compared;
  const notes = compared.notes.map((note) => wrap(`- ${note}`, '  ', '    '));
  if (single !== null) return [wrap(single, '  '), ...notes].join('\n');
  const fitted = lines.filter((m) => m.fitted);
  const shown = fitted.filter((m, i) => i < MOST_MODELS || m.used);
  const left = fitted.length - shown.length;
  return [
    tableOf(shown, withShapes),
    left === 0 ? null : `  and ${left} more with less weight: see models.csv`,
    kept === null ? null : wrap(kept, '  '),
    forced === null ? null : wrap(forced, '  '),
    ...notes,
  ]
    .filter((line) => line !== null)
    .join('\n');
}

function tableOf(shown: ModelLine[], withShapes: boolean): string {
  const shape = (text: string) => (withShapes ? [text] : []);
  const rows = [
    [
      term('countDistribution'),
      shortTerm('transectEffect'),
      ...shape(term('detectionFunction')),
      term('deltaAicc'),
      shortTerm('akaikeWeight'),
      '',
    ],
    ...shown.map((m) => [
      m.family,
      m.transectEffect,
      ...shape(m.detectionFunction),
      m.delta,
      m.weight,
      m.mark,
    ]),
  ];
  const sides = withShapes ? (['left', 'left', 'left'] as const) : (['left', 'left'] as const);
  return columns(rows, [...sides, 'right', 'right', 'left'], '  ');
}

const MARKS: Record<Verdict, string> = { holds: 'holds', doubtful: 'doubtful', fails: 'FAILS' };
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
