/** A simulation study in words: how far estimates are off, and how many confidence intervals hold the truth. */

import type { RehearsalSummary, RehearsedQuantity } from '../../models/index.ts';
import { counted, gloss, label, shortTerm, term, terms } from '../../shared/glossary.ts';
import { formatCount, formatDigits, formatPercent } from '../../shared/units.ts';
import { NONE } from './quantity.ts';

export type { RehearsalSummary };

export interface StudyRead {
  title: string;
  /** what it comes to; null where too few surveys gave an estimate */
  sentence: string | null;
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

/** @param level of the confidence intervals, 0.95 for 95 % */
export function readStudy(
  name: string,
  study: RehearsalSummary,
  fromTruth: boolean,
  level: number,
): StudyRead {
  const { surveys, detections, mussels, clusters } = study;
  const source = fromTruth ? 'truth.json' : 'the fitted model';
  const found = formatDigits(detections, 3);
  return {
    title: `${name}: ${term('simulationStudy')} of ${counted(surveys, formatCount(surveys), 'survey')} from ${source}, ${found} ${terms('detection')} on average`,
    sentence: mussels === null ? null : meaning(mussels, level, surveys * (1 - study.notEstimable)),
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

/** Beyond so many of its standard errors a figure is off by more than chance (two-sided 5 %). */
const BEYOND_CHANCE = 2;

/** `On average …; of the 95 % confidence intervals 93 % hold the truth, …`, over `n` surveys. */
function meaning({ bias, biasSe, coverage }: RehearsedQuantity, level: number, n: number): string {
  const isOff = Math.abs(bias) > BEYOND_CHANCE * biasSe;
  const average = isOff
    ? `On average the estimate of ${terms('mussel')} is ${percent(Math.abs(bias))} too ${bias < 0 ? 'low' : 'high'}`
    : `On average the estimate of ${terms('mussel')} is right as far as so many surveys can tell`;
  const off = coverage - level;
  // the standard error that it would have if they held as often as they should; half a survey for counts being whole
  const chance = BEYOND_CHANCE * Math.sqrt((level * (1 - level)) / n) + 1 / (2 * n);
  const judged =
    Math.abs(off) <= chance
      ? 'as many as they should, as far as so many surveys can tell'
      : off < 0
        ? 'fewer than they should: they are too narrow for this design'
        : 'more than they should: they are wider than need be';
  return `${average}; of the ${formatPercent(level)} ${terms('confidenceInterval')} ${percent(coverage)} hold the truth, ${judged}.`;
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
