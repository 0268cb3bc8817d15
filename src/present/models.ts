/** The models compared, the one used, and its coefficients, ready for the tables of report, terminal and page. */

import { EFFECT_MARGIN, LEAST_WEIGHT, TIE, type Weighed, weighModels } from '../../models/index.ts';
import { gloss, label, shortTerm, term, terms } from '../../shared/glossary.ts';
import type { SurveyResult, TriedModel } from '../../shared/result.ts';
import { modelEnd } from '../../shared/sentences/model-notices.ts';
import { depthName, FAMILIES, haveForms, modelName, modelNamer, namesOf } from './model-names.ts';
import {
  type CoefficientLine,
  logScoreSentence,
  modelSentence,
  readCoefficients,
  signed,
} from './model-used.ts';
import { NONE } from './quantity.ts';

/** A row of the table of models. */
export interface ModelLine {
  /** `Poisson`, `NB1` */
  family: string;
  /** `Negative binomial (NB1)`, and what that means */
  countDistribution: string;
  gloss: string | null;
  transectEffect: 'yes' | 'no';
  /** `half-normal`; a dash without distance transects */
  detectionFunction: string;
  /** `parabola`, `spline, 3 df` */
  depth: string;
  /** `2 df`; a dash where density does not change along the shore */
  shore: string;
  /** a model without a maximum says so here */
  logLikelihood: string;
  parameters: string;
  /** AICc above the lowest */
  delta: string;
  weight: string;
  used: boolean;
  /** the choices of the analysis leave it out: fitted to stand beside the one used */
  outside: boolean;
  /** `used`, `left out`, or nothing */
  mark: string;
  /** false where there was no maximum */
  fitted: boolean;
}

export interface ModelComparison {
  /** the best first; a model that became another one on its boundary is not listed twice */
  lines: ModelLine[];
  /** a detection function is part of the models */
  withShapes: boolean;
  /** forms of depth differ */
  withDepths: boolean;
  /** some models have density change along the shore */
  withShores: boolean;
  /** whether the totals are averaged over these models, and over how many; null where there was one */
  averaged: string | null;
  /** in a sentence, where only one model was asked for; null when several were compared */
  single: string | null;
  /** models that became one of those listed */
  alike: number;
  /** why the model used need not be the one with the lowest AICc; null when it is */
  kept: string | null;
  /** what the choices cost, against the automatic choice; null where that is the model used */
  forced: string | null;
  /** what ended on its boundary or could not be fitted, models of the same fate together */
  notes: string[];
}

export type FittedResult = Pick<SurveyResult, 'models' | 'estimate'>;
type Entry = Omit<TriedModel, 'weight'> & Weighed & { used: boolean; left: boolean };

const LEFT_OUT = 'left out: not chosen from, by the choices of the analysis; fitted to compare';

/** Null when nothing was fitted, as where nothing was detected. */
export function readModels({ models }: Pick<SurveyResult, 'models'>): ModelComparison | null {
  if (!models.some(isFitted)) return null;
  const entries = entriesOf(models);
  const [only, ...others] = entries;
  const listedModels = entries.filter((e) => e.sameAs === null);
  return {
    lines: listedModels.map(lineOf),
    withShapes: models.some((m) => m.shape !== null),
    withDepths: haveForms(entries),
    withShores: entries.some((e) => e.shorePairs !== undefined),
    averaged: averagedSentence(models),
    single:
      only === undefined || others.length > 0
        ? null
        : `${modelName(only)}: no other was asked for.`,
    alike: entries.length - listedModels.length,
    kept: keptSentence(entries),
    forced: forcedSentence({ models }),
    notes: [...(entries.some((e) => e.left) ? [LEFT_OUT] : []), ...notesOf(entries)],
  };
}

/** The first lines and the one used, and how many there are besides; all of them stand in models.csv. */
export function linesShown(
  { lines }: ModelComparison,
  most: number,
): { shown: ModelLine[]; more: string | null } {
  const shown = lines.filter((m, i) => i < most || m.used);
  const left = lines.length - shown.length;
  return { shown, more: left === 0 ? null : `and ${left} more with less weight: see models.csv` };
}

function isFitted({ fit, boundaries }: TriedModel): boolean {
  return fit !== null && !boundaries.some((b) => b.parameter === 'lambda');
}

function entriesOf(models: readonly TriedModel[]): Entry[] {
  const weighed = weighModels(models);
  const chosen = models.findIndex((m) => m.chosen);
  const used = weighed[chosen]?.sameAs ?? chosen;
  // a model that one of those chosen from became is no longer outside
  const within = new Set(models.flatMap((m, i) => (m.outside ? [] : [weighed[i]?.sameAs ?? i])));
  const averaged = isAveraged(models);
  const isLeft = (m: TriedModel, i: number): boolean => m.outside === true && !within.has(i);
  let shared = 0;
  models.forEach((m, i) => {
    if (!isLeft(m, i)) shared += weighed[i]?.weight ?? 0;
  });
  return models
    .flatMap((m, i) => {
      const own = weighed[i];
      if (own === undefined) return [];
      const left = isLeft(m, i);
      const share = own.weight === null ? null : averaged ? m.weight : own.weight / shared;
      return [{ ...m, ...own, weight: left ? null : share, used: i === used, left }];
    })
    .sort((a, b) => rank(a) - rank(b));
}

/** Finite, so that models without a criterion stay in their order. */
function rank({ fit }: Entry): number {
  return fit?.criterion ?? Number.MAX_VALUE;
}

const isAveraged = (models: readonly TriedModel[]): boolean =>
  models.some((m) => m.weight > 0 && m.weight < 1);

/** `Totals, … are averaged over 7 models by their weights, …`; null where there was nothing to choose from. */
export function averagedSentence(models: readonly TriedModel[]): string | null {
  const taking = models.filter((m) => m.weight > 0);
  const compared = models.filter((m) => m.fit !== null && !m.outside);
  if (compared.length < 2) return null;
  const rest = `${terms('stratum')}, ${terms('treatmentArea')} and curves`;
  return taking.length > 1
    ? `Totals, ${rest} are averaged over ${taking.length} models by their weights, and what these do not agree on is part of the ${term('confidenceInterval')}. Detection, coefficients and checks are those of the best one.`
    : `Totals, ${rest} rest on the best model alone${isChosenAlone(compared) ? ': no other has weight' : `; what the choice among models adds to the ${term('confidenceInterval')} is left out`}.`;
}

/** The others lost, and were not left out. */
const isChosenAlone = (compared: readonly TriedModel[]): boolean =>
  weighModels(compared).every(
    ({ weight }) => weight === null || weight < LEAST_WEIGHT || weight > 1 - LEAST_WEIGHT,
  );

function lineOf(entry: Entry): ModelLine {
  const { family, transectEffect, shape, fit, delta, weight, used, left } = entry;
  const id = FAMILIES[family];
  return {
    family: shortTerm(id),
    countDistribution: label(id),
    gloss: gloss(id),
    transectEffect: transectEffect ? 'yes' : 'no',
    detectionFunction: shape ?? NONE,
    depth: depthName(entry),
    shore: entry.shorePairs === undefined ? NONE : `${2 * entry.shorePairs} df`,
    logLikelihood: fit === null ? 'not fitted' : signed(fit.logLikelihood, 2),
    parameters: fit === null ? NONE : String(fit.parameters),
    delta: delta === null ? NONE : delta.toFixed(1),
    weight: weightText(weight),
    used,
    outside: left,
    mark: used ? 'used' : left ? 'left out' : '',
    fitted: fit !== null,
  };
}

/** `0.74`; a weight that rounds to nothing is not 0. */
function weightText(weight: number | null): string {
  if (weight === null) return NONE;
  return weight < 0.005 ? '< 0.01' : weight.toFixed(2);
}

function keptSentence(entries: readonly Entry[]): string | null {
  const used = entries.find((e) => e.used)?.delta ?? 0;
  // in the order of their differences
  const lowest = entries.find((e) => !e.left)?.delta ?? 0;
  return used - lowest <= TIE ? null : `The ${effectKept()}`;
}

function effectKept(): string {
  return `${term('transectEffect')} is kept unless leaving it out lowers AICc by more than ${EFFECT_MARGIN}: dropping it makes confidence intervals too narrow.`;
}

/** Differences in AICc below the first are hardly any; beyond the second a model has essentially no support (Burnham & Anderson 2002, ch. 2.6). */
const HARDLY = 2;
const NO_SUPPORT = 10;

/** `ΔAICc 30.3 against the automatic choice (NB1, half-normal): …`; null where the model used is that, or none is known. */
export function forcedSentence({ models }: Pick<SurveyResult, 'models'>): string | null {
  const entries = entriesOf(models);
  const used = entries.find((e) => e.used);
  const automatic = models.find((m) => m.automatic);
  if (!used?.fit || !automatic?.fit || used.fit.aicc === null || automatic.fit.aicc === null)
    return null;
  const above = used.fit.aicc - automatic.fit.aicc;
  if (Math.abs(above) <= TIE) return null;
  const against = `the automatic choice (${modelNamer(models)(automatic)})`;
  const delta = `${term('deltaAicc')} ${signed(above, 1)} against ${against}`;
  if (above < 0) return `${delta}: the ${effectKept()}`;
  if (above < HARDLY) return `${delta}: hardly a difference.`;
  return above < NO_SUPPORT
    ? `${delta}: the data speak less for the model used than for that one.`
    : `${delta}: beside that one the data give the model used practically no support.`;
}

function notesOf(entries: readonly Entry[]): string[] {
  const fates = new Map<string, { end: string; same: boolean; some: Entry[] }>();
  for (const e of entries) {
    const end = modelEnd(e);
    if (end === null) continue;
    const same = e.sameAs !== null;
    const key = `${same}|${end}`;
    const fate = fates.get(key) ?? { end, same, some: [] };
    fate.some.push(e);
    fates.set(key, fate);
  }
  return [...fates.values()].map(({ end, same, some }) => {
    const who = some.length === entries.length && some.length > 1 ? 'all models' : namesOf(some);
    const once = same
      ? `; counted once, as the simpler ${some.length === 1 ? 'model that it' : 'models that they'} became`
      : '';
    return `${who}: ${end}${once}`;
  });
}

/** The model used, and those that it was compared with. */
export interface ModelRead {
  sentence: string;
  /** null when nothing was fitted */
  compared: ModelComparison | null;
  coefficients: CoefficientLine[];
  /** null when it could not be computed */
  logScore: string | null;
}

export function readModel(result: FittedResult): ModelRead {
  return {
    sentence: modelSentence(result),
    compared: readModels(result),
    coefficients: readCoefficients(result),
    logScore: logScoreSentence(result),
  };
}
