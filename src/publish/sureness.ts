/** How sure, in words: the bootstrap beside the model's interval, the answer without a habitat model, what the checks say. */

import type { CheckResult, SurveyResult, Verdict } from '../../shared/result.ts';
import { formatCount, formatPercent, formatToStep, roundingStep } from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';

export type Sureness = Pick<SurveyResult, 'estimate' | 'checks' | 'analysis'>;

export const VERDICTS: readonly Verdict[] = ['fails', 'doubtful', 'holds'];

/** The gravest first, otherwise in their order. */
export function byVerdict(checks: CheckResult[]): CheckResult[] {
  return VERDICTS.flatMap((verdict) => checks.filter((c) => c.verdict === verdict));
}

/** The interval from redrawn transects beside the model's; null when none was asked for. */
export function bootstrapSentence({ estimate, analysis }: Sureness): string | null {
  const { bootstrap, abundance } = estimate;
  if (bootstrap === null || abundance === null) return null;
  const [noun, limits, quantity] =
    abundance.mussels === null
      ? ['clusters', bootstrap.clusters, abundance.clusters]
      : ['mussels', bootstrap.mussels, abundance.mussels];
  const times = bootstrap.replicates === 1 ? 'once' : `${formatCount(bootstrap.replicates)} times`;
  if (limits === null)
    return 'Redrawing the transects (bootstrap) gave no interval: too few of the redrawn surveys could be fitted.';
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
      : ` ${bootstrap.redrawn === 1 ? 'One draw' : `${formatCount(bootstrap.redrawn)} draws`} had to be repeated.`;
  return `Redrawing the transects ${times} (bootstrap) gives a ${formatPercent(analysis.interval)} interval of ${range(limits.lower, limits.upper)} ${noun}${beside}.${again}`;
}

/** The density without a habitat model, and whether the model agrees with it; null when it does not exist. */
export function designSentence({ estimate, checks, analysis }: Sureness): string | null {
  const density = estimate.design_based.clusters_per_m2;
  if (density === null) return null;
  const step = roundingStep(density);
  const interval =
    density.lower === null || density.upper === null
      ? null
      : `${formatPercent(analysis.interval)} interval ${formatToStep(density.lower, step)} to ${formatToStep(density.upper, step)}`;
  const check = designCheck(checks);
  if (check === null)
    return `Plain effort, without a habitat model, gives ${formatToStep(density.estimate, step)} clusters per m² of searched bed${interval === null ? '' : ` (${interval})`}.`;
  return `There are ${check.sentence.replace(/\.$/, interval === null ? '.' : ` (plain effort: ${interval}).`)}`;
}

/** The check of the model against plain effort. */
export function designCheck(checks: SurveyResult['checks']): CheckResult | null {
  return checks?.checks.find((c) => c.name === 'design') ?? null;
}

/** `Of 9 checks on the model 7 hold, 2 are doubtful (by depth, who found what).`; null when there are none. */
export function checksSentence(checks: SurveyResult['checks']): string | null {
  if (checks === null || checks.checks.length === 0) return null;
  const of = (verdict: Verdict) => checks.checks.filter((c) => c.verdict === verdict);
  const all = checks.checks.length;
  const holds = of('holds').length;
  if (holds === all)
    return all === 1 ? 'The one check on the model holds.' : `All ${all} checks on the model hold.`;
  const named = (some: CheckResult[]) =>
    `(${some.map((c) => c.title.charAt(0).toLowerCase() + c.title.slice(1)).join('; ')})`;
  const doubtful = of('doubtful');
  const fails = of('fails');
  const parts = [
    holds === 0 ? null : `${holds} ${holds === 1 ? 'holds' : 'hold'}`,
    doubtful.length === 0
      ? null
      : `${doubtful.length} ${doubtful.length === 1 ? 'is' : 'are'} doubtful ${named(doubtful)}`,
    fails.length === 0
      ? null
      : `${fails.length} ${fails.length === 1 ? 'fails' : 'fail'} ${named(fails)}`,
  ].filter((part) => part !== null);
  return `Of ${all} ${all === 1 ? 'check' : 'checks'} on the model ${listed(parts, 'and')}.`;
}
