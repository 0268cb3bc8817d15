/** How sure, in words: the bootstrap beside the model's interval, and the answer without a habitat model. */

import { gloss, term } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { formatCount, formatPercent, formatToStep, roundingStep } from '../../shared/units.ts';
import { type CheckWords, checkOf } from './checks.ts';

export type Sureness = Pick<SurveyResult, 'estimate' | 'checks' | 'analysis' | 'survey'>;

/** The interval from resampled transects beside the model's; null when none was asked for. */
export function bootstrapSentence({
  estimate,
  analysis,
}: Pick<Sureness, 'estimate' | 'analysis'>): string | null {
  const { bootstrap, abundance } = estimate;
  if (bootstrap === null || abundance === null) return null;
  const [noun, limits, quantity] =
    abundance.mussels === null
      ? ['clusters', bootstrap.clusters, abundance.clusters]
      : ['mussels', bootstrap.mussels, abundance.mussels];
  const n = bootstrap.replicates;
  const replicates = `${formatCount(n)} bootstrap ${n === 1 ? 'replicate' : 'replicates'} (transects resampled with replacement)`;
  if (limits === null)
    return `${replicates} gave no confidence interval: too few of them could be fitted.`;
  const step = roundingStep(quantity);
  const range = (lower: number, upper: number) =>
    `${formatToStep(lower, step)} to ${formatToStep(upper, step)}`;
  const beside =
    quantity.lower === null || quantity.upper === null
      ? ''
      : `; the model's own is ${range(quantity.lower, quantity.upper)}`;
  const again =
    bootstrap.redrawn === 0
      ? ''
      : ` ${bootstrap.redrawn === 1 ? 'One draw' : `${formatCount(bootstrap.redrawn)} draws`} of transects had to be repeated.`;
  return `${replicates} ${n === 1 ? 'gives' : 'give'} a ${formatPercent(analysis.interval)} ${term('confidenceInterval')} of ${range(limits.lower, limits.upper)} ${noun}${beside}.${again}`;
}

/** The density without a habitat model, and whether the model agrees with it; null when it does not exist. */
export function designSentence(result: Sureness): string | null {
  const density = result.estimate.design_based.clusters_per_m2;
  if (density === null) return null;
  const step = roundingStep(density);
  const interval =
    density.lower === null || density.upper === null
      ? null
      : `${formatPercent(result.analysis.interval)} ${term('ci')} ${formatToStep(density.lower, step)} to ${formatToStep(density.upper, step)}`;
  const check = checkOf(result, 'design-based');
  const name = term('designBasedEstimate');
  if (check === null)
    return `The ${name} is ${formatToStep(density.estimate, step)} clusters per m² of searched bed${interval === null ? '' : ` (${interval})`}.`;
  return `There are ${check.figures}: ${check.meaning}${interval === null ? '' : ` (${name}: ${interval})`}.`;
}

/** The same beside an answer. */
export interface DesignBased {
  sentence: string;
  /** what a design-based estimate is */
  gloss: string;
  /** the check that sets the two apart; null while they agree, or where that was not checked */
  against: CheckWords | null;
}

/** Null where it does not exist, and where the answer itself gives this density, without a lake, and the two agree. */
export function designBased(result: Sureness): DesignBased | null {
  const sentence = designSentence(result);
  const check = checkOf(result, 'design-based');
  const against = check === null || check.verdict === 'holds' ? null : check;
  if (sentence === null || (result.estimate.abundance === null && against === null)) return null;
  const name = term('designBasedEstimate');
  return { sentence, gloss: `The ${name} is ${gloss('designBasedEstimate')}.`, against };
}
