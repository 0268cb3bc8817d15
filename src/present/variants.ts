/** The analysis and its variants side by side: what each chooses otherwise, how well it fits, and what it says of the lake. */

import type { Analysis } from '../../shared/analysis.ts';
import { type ChoiceValues, isSame, VARIABLE, valueAt } from '../../shared/choice-values.ts';
import { extent } from '../../shared/extent.ts';
import { counted, term, terms } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { Variant, VariantOutcome } from '../../shared/variants.ts';
import { VERSION } from '../../shared/version.ts';
import { listed, visible } from '../../shared/words.ts';
import { checkTerm } from './checks.ts';
import { choiceName, defaultOf, valueWords } from './choices.ts';
import { changeText } from './influence.ts';
import { type ModelNames, modelNamer } from './model-names.ts';
import { ciName, type Measured, NONE, quantity } from './quantity.ts';

export interface VariantLine {
  /** safe to print */
  name: string;
  /** place in the file's list; null for the analysis where it is kept under no name */
  place: number | null;
  /** its choices are those of the analysis */
  isAnalysis: boolean;
  /** `count distribution: Poisson; …`, where they differ from the analysis; null where they do not */
  choices: string | null;
  /** `NB1, half-normal`; a dash where it was not estimated */
  model: string;
  /** AICc against the analysis; a dash where the two do not compare */
  delta: string;
  /** `184,000`, and `clusters` where no mussels were counted */
  total: string;
  /** `95 % CI` */
  ciName: string;
  interval: string;
  /** of the total against the analysis: `+3.2 %` */
  change: string;
  /** `overdispersion fails; 8 hold` */
  checks: string;
  /** why it is not compared, or its AICc is not; null where both are */
  remark: string | null;
  /** not estimated from the survey as it is by this version */
  isStale: boolean;
  /** for a drawing; null without a number */
  value: Pick<Measured, 'estimate' | 'lower' | 'upper'> | null;
}

export interface VariantsCompared {
  /** the analysis first */
  lines: VariantLine[];
  /** `The analysis gives …; its variants …` */
  sentence: string;
  /** so far reaches what is drawn; null when nothing is */
  axis: number | null;
  note: string;
}

/** What the variants are held against. */
export interface CurrentAnalysis {
  analysis: Analysis;
  /** fingerprint of the survey's files */
  data: string;
  /** null while it has no estimate */
  outcome: VariantOutcome | null;
}

type Kept = Variant & { place?: number };

export type OutcomeResult = Pick<SurveyResult, 'estimate' | 'models' | 'checks' | 'fingerprint'>;

/** The choices of an analysis, each named: what a default will be in a later version does not matter to them. */
export function choicesOf(analysis: Analysis): ChoiceValues {
  return Object.fromEntries(VARIABLE.map((path) => [path, valueAt(analysis, path)]));
}

/** What an estimate gave, to be kept with its choices. */
export function outcomeOf({
  estimate,
  models,
  checks,
  fingerprint,
}: OutcomeResult): VariantOutcome {
  const { abundance, model } = estimate;
  const best = models.find((m) => m.chosen);
  const of = abundance?.mussels ? 'mussels' : 'clusters';
  const total = abundance?.[of] ?? null;
  return {
    version: VERSION,
    data: fingerprint,
    model: {
      family: model.family,
      transect_effect: model.transect_effect,
      shape: best?.shape ?? null,
      depth: best?.depth ?? null,
      depth_df: best?.depthDf ?? null,
      averaged_over: Math.max(1, models.filter((m) => m.weight > 0).length),
    },
    aicc: model.aicc,
    total: total && {
      of,
      estimate: total.estimate,
      se: total.se,
      lower: total.lower,
      upper: total.upper,
    },
    checks: checks?.checks.map(({ name, verdict }) => ({ name, verdict })) ?? null,
  };
}

/** The analysis as a variant of this name. */
export function variantNamed(
  name: string,
  result: OutcomeResult & Pick<SurveyResult, 'analysis'>,
): Variant {
  return { name, choices: choicesOf(result.analysis), outcome: outcomeOf(result) };
}

/** Null without a variant. */
export function compareVariants(
  variants: readonly Kept[],
  current: CurrentAnalysis,
): VariantsCompared | null {
  if (variants.length === 0) return null;
  const same = variants.filter((v) => differing(v.choices, current.analysis).length === 0);
  const others = variants.filter((v) => !same.includes(v));
  const own: Kept[] = same.length > 0 ? same : [asChosen(current)];
  const shown = [...own.map((v) => ({ ...v, outcome: current.outcome })), ...others];
  const nameOf = namesOf(shown);
  const lines = shown.map((v, i) => lineOf(v, current, i < own.length, nameOf));
  const drawn = lines.flatMap(({ value }) => (value === null ? [] : [value]));
  return {
    lines,
    sentence: sentenceOf(lines, others.length),
    axis:
      drawn.length === 0
        ? null
        : extent([0, ...drawn.map((v) => v.upper ?? v.estimate)])[1] || null,
    note: NOTE,
  };
}

const NOTE = `A narrower ${term('confidenceInterval')} is no merit by itself, and whoever picks the ${term('variant')} with the most welcome number makes every interval wrong: choose by checks and AICc, and report what was considered. AICc is that of the best model.`;

function asChosen({ analysis, outcome }: CurrentAnalysis): Kept {
  return { name: 'As chosen now', choices: choicesOf(analysis), outcome };
}

/** Dotted keys of the choices that are not those of the analysis. */
function differing(choices: ChoiceValues, analysis: Analysis): string[] {
  return VARIABLE.filter((path) => !isSame(chosenAt(choices, path), valueAt(analysis, path)));
}

function chosenAt(choices: ChoiceValues, path: string): ChoiceValues[string] {
  return path in choices ? choices[path] : defaultOf(path);
}

function lineOf(
  variant: Kept,
  current: CurrentAnalysis,
  isAnalysis: boolean,
  nameOf: ReturnType<typeof namesOf>,
): VariantLine {
  const { name, choices, outcome, place = null } = variant;
  const changed = differing(choices, current.analysis);
  const stale = isAnalysis ? null : whyStale(outcome, current.data);
  const against = isAnalysis || stale !== null ? null : current.outcome;
  const cutOtherwise = changed.some((path) => /^(segments|position)\./.test(path));
  const total = outcome?.total ?? null;
  const reading = total && quantity(total);
  return {
    name: visible(name),
    place,
    isAnalysis,
    choices: changed.length === 0 ? null : changed.map((p) => choiceWords(p, choices)).join('; '),
    model: outcome === null ? NONE : nameOf(outcome.model),
    delta: against === null || cutOtherwise ? NONE : deltaText(outcome, against),
    total: reading === null ? NONE : withNoun(reading.estimate, total),
    ciName: ciName(Number(chosenAt(choices, 'interval'))),
    interval: reading?.interval ?? NONE,
    change: against === null ? NONE : totalChange(outcome, against),
    checks: checksText(outcome),
    remark: stale ?? (cutOtherwise ? CUT_OTHERWISE : null),
    isStale: stale !== null,
    value: total,
  };
}

/** AICc compares models of the same data, and each segment is one. */
const CUT_OTHERWISE = `${terms('segment')} are cut or placed otherwise, so that AICc does not compare`;

function whyStale(outcome: VariantOutcome | null, data: string): string | null {
  if (outcome === null) return 'not estimated, or no estimate could be made';
  if (outcome.data !== data) return "from before a change of the survey's files";
  return outcome.version === VERSION ? null : `computed with version ${visible(outcome.version)}`;
}

/** `NB1, half-normal; depth: parabola (the best of 7 that are averaged)`; the depth where it differs. */
function namesOf(all: readonly Kept[]): (model: VariantOutcome['model']) => string {
  const models = all.flatMap((v) => (v.outcome === null ? [] : [namesIn(v.outcome.model)]));
  const name = modelNamer(models);
  return (model) =>
    model.averaged_over > 1
      ? `${name(namesIn(model))} (the best of ${model.averaged_over} that are averaged)`
      : name(namesIn(model));
}

function namesIn({ transect_effect, depth_df, ...same }: VariantOutcome['model']): ModelNames {
  return { ...same, transectEffect: transect_effect, depthDf: depth_df };
}

function choiceWords(path: string, choices: ChoiceValues): string {
  return `${choiceName(path).toLowerCase()}: ${valueWords(path, chosenAt(choices, path))}`;
}

function withNoun(text: string, total: VariantOutcome['total']): string {
  return total?.of === 'clusters' ? `${text} ${terms('cluster')}` : text;
}

function deltaText(outcome: VariantOutcome | null, now: VariantOutcome): string {
  if (outcome === null || outcome.aicc === null || now.aicc === null) return NONE;
  const delta = outcome.aicc - now.aicc;
  const text = Math.abs(delta).toFixed(1);
  return Number(text) === 0 ? '0' : `${delta < 0 ? '−' : '+'}${text}`;
}

function totalChange(outcome: VariantOutcome | null, now: VariantOutcome): string {
  const share = changeOf(outcome?.total ?? null, now.total);
  return share === null ? NONE : changeText(share);
}

function changeOf(total: VariantOutcome['total'], now: VariantOutcome['total']): number | null {
  return total === null || now === null || total.of !== now.of || !(now.estimate > 0)
    ? null
    : total.estimate / now.estimate - 1;
}

/** The gravest first; those that hold are counted. */
function checksText(outcome: VariantOutcome | null): string {
  const checks = outcome?.checks ?? [];
  if (checks.length === 0) return NONE;
  const not = (['fails', 'doubtful'] as const).flatMap((verdict) => {
    const names = checks.filter((c) => c.verdict === verdict).map((c) => checkTerm(c.name));
    return names.length === 0 ? [] : [`${verdict}: ${listed(names, 'and')}`];
  });
  const holding = checks.filter((c) => c.verdict === 'holds').length;
  const saturated = checks.filter((c) => c.verdict === 'saturated').length;
  const told = saturated === 0 ? not : [...not, `${saturated} saturated`];
  return [...told, told.length === 0 ? `all ${holding} hold` : `${holding} hold`].join('; ');
}

/** `The analysis gives 184,000 mussels; 2 variants give 150,000 to 203,000 (−18.6 % to +10.1 %).` */
function sentenceOf(lines: readonly VariantLine[], others: number): string {
  const [analysis] = lines;
  const compared = lines
    .filter((l) => !l.isAnalysis && l.change !== NONE)
    .sort((a, b) => (a.value?.estimate ?? 0) - (b.value?.estimate ?? 0));
  const [least, most] = [compared[0], compared.at(-1)];
  const stale = lines.filter((l) => l.isStale).length;
  const noun = analysis.total.endsWith(terms('cluster')) ? '' : ` ${terms('mussel')}`;
  const kept = counted(others, String(others), 'variant');
  const own =
    analysis.total === NONE
      ? `The analysis has no lake-wide number; ${kept} stand${others === 1 ? 's' : ''} beside it`
      : `The analysis gives ${analysis.total}${noun}`;
  const range =
    least === undefined || most === undefined
      ? ''
      : compared.length === 1
        ? `; ${counted(1, '1', 'variant')} gives ${least.total} (${least.change})`
        : `; ${compared.length} ${terms('variant')} give ${least.total} to ${most.total} (${least.change} to ${most.change})`;
  const left =
    stale === 0
      ? ''
      : ` ${stale === 1 ? 'One is' : `${stale} are`} not compared: estimated from other files, by another version, or not at all.`;
  return `${own}${range}.${left}`;
}
