/** The models that were compared and the checks on the one used, for the terminal. */

import type { Estimate } from '../../shared/estimate.ts';
import type { SurveyResult, Verdict } from '../../shared/result.ts';
import { readChecks } from '../present/checks.ts';
import {
  boundaryNotes,
  type ComparedModel,
  compareModels,
  keptEffectSentence,
  modelName,
  weightWords,
} from '../publish/compared-models.ts';
import { columns, wrap } from './text.ts';

/** More models are counted; all of them stand in models.csv. */
const MOST_MODELS = 6;

/** A row a model, the lowest AICc first, then what ended on a boundary or was not fitted; null when there is no model. */
export function modelLines(estimate: Estimate): string | null {
  if (estimate.data.detections === 0 || estimate.models.length === 0) return null;
  const all = compareModels(estimate);
  const fitted = all.filter((c) => c.row.log_likelihood !== null && c.sameAs === null);
  const notes = boundaryNotes(all).map((note) => wrap(`- ${note}`, '  ', '    '));
  if (all.length === 1 && fitted.length === 1)
    return [wrap(`${modelName(all[0]!.row)}: no other was asked for.`, '  '), ...notes].join('\n');
  const shown = fitted.filter((c, i) => i < MOST_MODELS || c.used);
  const left = fitted.length - shown.length;
  const kept = keptEffectSentence(all);
  return [
    columns(tableOf(shown), ['left', 'left', 'left', 'right', 'right', 'left'], '  '),
    left === 0 ? null : `  and ${left} more with less weight: see models.csv`,
    kept === null ? null : wrap(kept, '  '),
    ...notes,
  ]
    .filter((line) => line !== null)
    .join('\n');
}

function tableOf(shown: ComparedModel[]): string[][] {
  return [
    ['counts', 'transect effect', 'sight', 'AICc above lowest', 'weight', ''],
    ...shown.map(({ row, used, delta, weight }) => [
      row.family,
      row.transect_effect ? 'yes' : 'no',
      row.shape ?? '–',
      delta === null ? '–' : delta.toFixed(1),
      weightWords(weight),
      used ? 'used' : '',
    ]),
  ];
}

const MARKS: Record<Verdict, string> = { holds: 'holds', doubtful: 'doubtful', fails: 'FAILS' };
const VERDICT_WIDTH = 10;

/** The verdict and the sentence of each check, the gravest first; the design-based one stands with the answer. */
export function checkLines(result: Pick<SurveyResult, 'checks' | 'survey'>): string | null {
  const checks = readChecks(result);
  if (checks === null) return null;
  const hanging = ' '.repeat(2 + VERDICT_WIDTH);
  return checks
    .filter((c) => c.name !== 'design-based')
    .map(({ title, verdict, sentence }) => {
      const text = wrap(`${title}: ${sentence}`, hanging);
      return `  ${MARKS[verdict].padEnd(VERDICT_WIDTH)}${text.slice(hanging.length)}`;
    })
    .join('\n');
}
