/**
 * What the choices leave to the data, decided by the criterion of compare.ts over families, transect effect, detection
 * function and form of depth (METHOD.md: Choice and averaging).
 */

import { type Analysis, DEPTH_FORMS, type DepthForm } from '../../shared/analysis.ts';
import type { Family, Shape } from '../../shared/estimate.ts';
import type { ModelNotice } from '../../shared/model-notices.ts';
import type { TriedModel } from '../../shared/result.ts';
import type { SurveyRows } from '../data.ts';
import { FAMILY_NAMES, SIMPLEST_FAMILY } from '../density/families.ts';
import { shorePairs } from '../density/shore.ts';
import { NotConverged, NotEstimable } from '../errors.ts';
import type { KnownValue } from '../parts.ts';
import { criterionOf, LEAST_WEIGHT, lowestCriterion, weighModels } from './compare.ts';
import { fitModel } from './fit-model.ts';
import { type Candidate, type Fit, knownValues, type StatedDepth } from './fitted-model.ts';
import { isSharedAs, sharingSettledBy } from './join.ts';
import { type Ended as Tried, withoutLowerTops } from './nested.ts';

/** A model of the average. */
export interface Member {
  fit: Fit;
  /** of all members they sum to 1 */
  weight: number;
}

export interface Choice {
  /** the best model: what is told of detection, coefficients and checks */
  fit: Fit;
  /** those that converged, the best one first */
  fits: Fit[];
  /** what totals are averaged over, the best one first; that one alone where the choices ask for it */
  members: Member[];
  /** every candidate, in the order tried */
  models: TriedModel[];
  notices: ModelNotice[];
}

type Structure = Omit<Candidate, 'depth' | 'shorePairs'>;

/** Families, effects and shapes that the choices leave open, the simplest first. */
export function structures(rows: SurveyRows, analysis: Analysis): Structure[] {
  const families: readonly Family[] =
    analysis.density.family === 'auto' ? FAMILY_NAMES : [analysis.density.family];
  const effect = analysis.density.transect_effect;
  const effects = effect === 'auto' ? [false, true] : [effect];
  const distance = rows.segments.some((s) => s.design === 'distance');
  const shapes: (Shape | null)[] = !distance
    ? [null]
    : analysis.detection.shape === 'auto'
      ? ['half-normal', 'hazard-rate']
      : [analysis.detection.shape];
  return effects.flatMap((transectEffect) =>
    families.flatMap((family) => shapes.map((shape) => ({ family, transectEffect, shape }))),
  );
}

/** Columns of the curves that are compared. */
const CURVES_DF = [2, 3];
/** The form under which families, effects and shapes are compared first: it can follow most of what depth does. */
const FIRST_FORM: StatedDepth = { form: 'quadratic', df: 2 };

/** Forms of depth that the choices leave open, the one to begin with first. */
export function depthForms({ density }: Analysis): StatedDepth[] {
  if (density.depth !== 'auto')
    return [{ form: density.depth, df: density.depth === 'curve' ? density.depth_df : 0 }];
  const others = DEPTH_FORMS.filter((form) => form !== FIRST_FORM.form);
  return [FIRST_FORM, ...others.flatMap(statedAs)];
}

function statedAs(form: DepthForm): StatedDepth[] {
  return form === 'curve' ? CURVES_DF.map((df) => ({ form, df })) : [{ form, df: 0 }];
}

/** A candidate farther above the best one is not tried with other forms of depth, nor a form of depth with other candidates. */
const WINDOW = 6;

/** Only models so near the best one are tried with density along the shore too, and so many of them at most. */
const SHORE_WINDOW = 4;
const MOST_ALONG_SHORE = 4;

/**
 * Families, effects and shapes are compared under one form of depth, the forms of depth under the best of these; then
 * what came near the best in both is tried together, and the best few of all with density along the shore.
 * @throws NotEstimable when no candidate can be fitted: the first candidate's reason
 */
export function chooseModel(
  rows: SurveyRows,
  analysis: Analysis,
  progress: (done: number, of: number) => void = () => {},
): Choice {
  const all = structures(rows, analysis);
  const [first, ...otherForms] = depthForms(analysis);
  if (first === undefined) throw new RangeError('got no form of depth, expected at least one');
  const ends: Tried[] = [];
  const steps = all.length + otherForms.length;
  const warm: Warm = new Map();
  const met: ModelNotice[] = [];
  const fitAsked = (candidate: Candidate): Tried => {
    const tried = fitted(rows, analysis, candidate, startFrom(warm, candidate), met);
    const fit = fitOf(tried);
    if (fit === null) return tried;
    for (const notice of fit.notices) met.push(notice);
    if (!warm.has(candidate.shape))
      warm.set(candidate.shape, knownValues(fit.likelihood, fit.estimates));
    return tried;
  };
  let settled: Pick<Candidate, 'sharing'> = {};
  const attempt = (candidate: Candidate): void => {
    progress(Math.min(ends.length, steps), steps);
    ends.push(fitAsked({ ...candidate, ...settled }));
  };

  for (const structure of all) attempt({ ...structure, depth: first });
  settled = sharingSettledBy(best(ends));
  for (const [i, { candidate, end }] of ends.entries()) {
    const same = { ...candidate, ...settled };
    ends[i] = isSharedAs(fitOf(ends[i]), settled) ? { candidate: same, end } : fitAsked(same);
  }
  if (otherForms.length > 0) {
    const leading = best(ends)?.candidate ?? all[0];
    if (leading) for (const depth of otherForms) attempt({ ...leading, depth });
    const structuresNear = near(ends, (c) => c.depth === first);
    const formsNear = near(ends, (c) => c.depth !== first);
    for (const structure of structuresNear)
      for (const { depth } of formsNear)
        if (depth && !isSame(structure, leading)) attempt({ ...structure, depth });
  }
  const pairs = analysis.density.shore === 'none' ? [] : shorePairs(rows);
  if (pairs.length > 0)
    for (const candidate of bestFew(ends))
      for (const shorePairs of pairs) attempt({ ...candidate, shorePairs });
  progress(steps, steps);
  const sound = withoutLowerTops(
    ends,
    (candidate, from) => fitted(rows, analysis, candidate, from, met).end,
  );
  return choiceAmong(sound, rows, analysis);
}

const isSame = (a: Structure, b: Structure | undefined): boolean =>
  a.family === b?.family && a.transectEffect === b.transectEffect && a.shape === b.shape;

/** The first fit of each shape, whose values the others start from: one search over many starts a shape is enough. */
type Warm = Map<Shape | null, KnownValue[]>;

function fitted(
  rows: SurveyRows,
  analysis: Analysis,
  candidate: Candidate,
  from: readonly KnownValue[] | undefined,
  met: readonly ModelNotice[],
): Tried {
  try {
    return { candidate, end: fitModel(rows, analysis, candidate, from, met) };
  } catch (error) {
    if (!(error instanceof NotEstimable)) throw error;
    return { candidate, end: error };
  }
}

function startFrom(warm: Warm, { shape }: Candidate): KnownValue[] | undefined {
  const same = warm.get(shape);
  if (same) return same;
  const [other] = warm.values();
  return other?.filter((k) => k.part !== 'shape');
}

const fitOf = ({ end }: Tried): Fit | null =>
  !(end instanceof NotEstimable) && end.converged ? end : null;

const best = (ends: readonly Tried[]): Fit | null =>
  lowestCriterion(ends.flatMap((tried) => fitOf(tried) ?? []));

/** Candidates of a kind within the window above the best of the kind, each model once. */
function near(ends: readonly Tried[], isMeant: (candidate: Candidate) => boolean): Candidate[] {
  const meant = ends.filter(({ candidate }) => isMeant(candidate));
  let lowest = Number.POSITIVE_INFINITY;
  for (const { fit } of meant.map(triedModel)) lowest = Math.min(lowest, fit?.criterion ?? lowest);
  return eachOnce(meant).flatMap(({ candidate, criterion }) =>
    criterion - lowest <= WINDOW ? [candidate] : [],
  );
}

/** The candidates within SHORE_WINDOW above the best one, each model once, the best first. */
function bestFew(ends: readonly Tried[]): Candidate[] {
  const ordered = eachOnce(ends).sort((a, b) => a.criterion - b.criterion);
  const [first] = ordered;
  return ordered
    .filter(({ criterion }) => first && criterion - first.criterion <= SHORE_WINDOW)
    .slice(0, MOST_ALONG_SHORE)
    .map(({ candidate }) => candidate);
}

/** Candidates with a criterion, in the order tried; one that became another model on its boundary is left out. */
function eachOnce(ends: readonly Tried[]): { candidate: Candidate; criterion: number }[] {
  const models = ends.map(triedModel);
  return weighModels(models).flatMap(({ sameAs }, i) => {
    const criterion = models[i]?.fit?.criterion ?? null;
    const candidate = ends[i]?.candidate;
    return criterion !== null && candidate && sameAs === null ? [{ criterion, candidate }] : [];
  });
}

function choiceAmong(ends: readonly Tried[], rows: SurveyRows, analysis: Analysis): Choice {
  const fits = ends.flatMap((tried) => fitOf(tried) ?? []);
  if (fits.length === 0) throw whyNone(ends);
  const models = ends.map(triedModel);
  // one that became another model on its boundary takes no part in the average: the other one is the best
  const twins = weighModels(models).map(({ sameAs }) => sameAs !== null);
  const top = best(ends.filter((_, i) => twins[i] !== true));
  const fit = top ?? simplest(fits, analysis);
  const { family, transectEffect } = fit.parts;
  const weights =
    top === null || analysis.models === 'best'
      ? ends.map(({ end }) => (end === fit ? 1 : 0))
      : averageWeights(models);
  return {
    fit,
    fits: [fit, ...fits.filter((f) => f !== fit)],
    members: membersOf(ends, weights, fit),
    models: models.map((model, i) => ({
      ...model,
      weight: weights[i] ?? 0,
      chosen: ends[i]?.end === fit,
    })),
    notices:
      top === null
        ? [{ code: 'too-few-segments', segments: rows.segments.length, family, transectEffect }]
        : [],
  };
}

/** The first reason, or that no search ended at a maximum. */
function whyNone(ends: readonly Tried[]): NotEstimable {
  const reason = ends.find(({ end }) => end instanceof NotEstimable)?.end;
  return reason instanceof NotEstimable
    ? reason
    : new NotConverged({ code: 'not-converged', cause: 'no-maximum' });
}

/** Weights of the models that take part in an average, in the order given; 0 for the others. */
function averageWeights(models: readonly Pick<TriedModel, 'fit' | 'boundaries'>[]): number[] {
  const raw = weighModels(models).map(({ weight }) =>
    weight !== null && weight >= LEAST_WEIGHT ? weight : 0,
  );
  const sum = raw.reduce((total, w) => total + w, 0);
  return raw.map((w) => w / sum);
}

function membersOf(ends: readonly Tried[], weights: readonly number[], first: Fit): Member[] {
  const members = ends.flatMap((tried, i) => {
    const fit = fitOf(tried);
    const weight = weights[i] ?? 0;
    return fit !== null && weight > 0 ? [{ fit, weight }] : [];
  });
  return members.sort((a, b) => Number(b.fit === first) - Number(a.fit === first));
}

function triedModel({ candidate, end }: Tried): Omit<TriedModel, 'weight' | 'chosen'> {
  const named = namesOf(candidate);
  if (end instanceof NotEstimable) return { ...named, fit: null, boundaries: [], why: end.reason };
  const { boundaries, converged, logLikelihood, parameters, aicc } = end;
  const criterion = criterionOf(end);
  return {
    ...named,
    fit: converged ? { logLikelihood, parameters, aicc, criterion } : null,
    boundaries,
    why: converged ? null : { code: 'not-converged', cause: 'no-maximum' },
  };
}

/** What a model is called by. */
export type ModelNames = Pick<
  TriedModel,
  'family' | 'transectEffect' | 'shape' | 'depth' | 'depthDf' | 'shorePairs'
>;

export function namesOf(candidate: Candidate): ModelNames {
  const { family, transectEffect, shape, depth, shorePairs } = candidate;
  const depthDf = depth?.form === 'curve' ? depth.df : null;
  const along = shorePairs === undefined ? {} : { shorePairs };
  return { family, transectEffect, shape, depth: depth?.form ?? null, depthDf, ...along };
}

export const haveSameNames = (a: ModelNames, b: ModelNames): boolean =>
  a.family === b.family &&
  a.transectEffect === b.transectEffect &&
  a.shape === b.shape &&
  a.depth === b.depth &&
  a.depthDf === b.depthDf &&
  a.shorePairs === b.shorePairs;

/** The simplest family, no transect effect, half-normal, the first form of depth, as far as the choices leave these open. */
function simplest(fits: Fit[], analysis: Analysis): Fit {
  const score = (f: Fit): number =>
    (f.candidate.transectEffect && analysis.density.transect_effect === 'auto' ? 4 : 0) +
    (f.candidate.family !== SIMPLEST_FAMILY && analysis.density.family === 'auto' ? 2 : 0) +
    (f.candidate.shape === 'hazard-rate' && analysis.detection.shape === 'auto' ? 1 : 0);
  return fits.reduce((a, b) => (score(b) < score(a) ? b : a));
}
