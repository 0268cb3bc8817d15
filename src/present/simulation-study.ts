/** A simulation study in words: how far estimates are off, and how many confidence intervals hold the truth. */

import type { RehearsalSummary, RehearsedQuantity } from '../../models/index.ts';
import { counted, gloss, label, shortTerm, term, terms } from '../../shared/glossary.ts';
import { formatCount, formatDigits } from '../../shared/units.ts';
import { NONE } from './quantity.ts';

export type { RehearsalSummary };

export interface StudyRead {
  title: string;
  /** the first row is the head */
  rows: string[][];
  /** what the figures mean, and which surveys gave no estimate */
  notes: string[];
}

/** Why a simulated survey gave no estimate, by the code of its record. */
const WHY: Record<string, string> = {
  'nothing-found': 'nothing detected',
  'no-standard-error': `no ${term('standardError')}`,
  'not-converged': 'did not converge',
  'density-not-identified': `${term('density')} not estimable`,
};

export function readStudy(name: string, study: RehearsalSummary, fromTruth: boolean): StudyRead {
  const { surveys, detections, mussels, clusters } = study;
  const source = fromTruth ? 'truth.json' : 'the fitted model';
  const found = formatDigits(detections, 3);
  return {
    title: `${name}: ${term('simulationStudy')} of ${counted(surveys, formatCount(surveys), 'survey')} from ${source}, ${found} ${terms('detection')} on average`,
    rows: [
      ['', 'truth', term('bias'), term('rmse'), shortTerm('cv'), 'reported', term('coverage')],
      row(terms('mussel'), mussels),
      row(terms('cluster'), clusters),
    ],
    notes: [
      whyNone(study),
      `${label('bias')}: ${gloss('bias')}. ${label('rmse')}: ${gloss('rmse')}. ${label('cv')}: ${term('standardError')} over estimate, from survey to survey; reported: as the surveys estimate it, on average. ${label('coverage')}: ${gloss('coverage')}. ± is the ${term('standardError')} of so many surveys.`,
    ],
  };
}

function row(noun: string, q: RehearsedQuantity | null): string[] {
  if (q === null) return [noun, ...Array.from({ length: 6 }, () => NONE)];
  return [
    noun,
    formatDigits(q.truth, 3),
    `${q.bias >= 0 ? '+' : '−'}${percent(Math.abs(q.bias))} ± ${percent(q.biasSe)}`,
    percent(q.rmse),
    percent(q.spread),
    percent(q.reported),
    `${percent(q.coverage)} ± ${percent(q.coverageSe)}`,
  ];
}

function whyNone({ notEstimable, reasons }: RehearsalSummary): string {
  if (notEstimable === 0) return 'Every survey gave a valid estimate.';
  const each = reasons.map((r) => `${WHY[r.why] ?? r.why}: ${formatCount(r.surveys)}`);
  return `${percent(notEstimable)} of the surveys gave no valid estimate (${each.join(', ')}).`;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
