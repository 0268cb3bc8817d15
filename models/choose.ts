/** `auto` decided by AICc over families, transect effect and shape (method: checks on the model, AICc). */

import type { Analysis } from '../shared/analysis.ts';
import type { Family, ModelRow, Shape } from '../shared/estimate.ts';
import { type ModelNotice, NotIdentified, type SurveyRows } from './data.ts';
import { type Candidate, type Fit, fitModel, named } from './fit.ts';

export interface Choice {
  fit: Fit;
  /** those that converged, the chosen one first */
  fits: Fit[];
  /** every candidate, in the order tried */
  models: ModelRow[];
  notices: ModelNotice[];
}

/** All combinations that the choices leave open, the simplest first. */
export function candidates(rows: SurveyRows, analysis: Analysis): Candidate[] {
  const families: Family[] =
    analysis.density.family === 'auto' ? ['poisson', 'nb1', 'nb2'] : [analysis.density.family];
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

/** A lower AICc than this is a tie. */
const TIE = 1e-6;
/** Leaving the transect effect out must lower AICc by more than this: dropping it costs coverage. */
const EFFECT_MARGIN = 2;

/**
 * @throws NotIdentified when no candidate can be fitted
 */
export function chooseModel(
  rows: SurveyRows,
  analysis: Analysis,
  progress: (done: number, of: number) => void = () => {},
): Choice {
  const tried = candidates(rows, analysis);
  const fits: Fit[] = [];
  const models: ModelRow[] = [];
  let refused: NotIdentified | null = null;
  const warm: Warm = new Map();
  tried.forEach((candidate, i) => {
    progress(i, tried.length);
    try {
      const fit = fitModel(rows, analysis, candidate, startFrom(warm, candidate));
      models.push(rowOf(candidate, fit));
      if (fit.converged) {
        fits.push(fit);
        if (!warm.has(candidate.shape)) warm.set(candidate.shape, named(fit.likelihood, fit.theta));
      }
    } catch (error) {
      if (!(error instanceof NotIdentified)) throw error;
      refused ??= error;
      models.push(rowOf(candidate, null, error.message));
    }
  });
  progress(tried.length, tried.length);
  if (fits.length === 0) {
    throw (
      refused ??
      new NotIdentified(
        'not-converged',
        'density',
        'no model could be fitted to this survey: the likelihood has no clear maximum; ask for fewer terms in density and detection',
      )
    );
  }
  const best = pickByAicc(fits);
  if (best) return { fit: best, fits: first(best, fits), models, notices: [] };
  const plain = simplest(fits, analysis);
  return {
    fit: plain,
    fits: first(plain, fits),
    models,
    notices: [
      {
        code: 'too-few-segments',
        key: 'density',
        message: `the survey has ${rows.segments.length} segments, too few to compare models by AICc; ${plain.parts.family} without transect effect is used`,
      },
    ],
  };
}

function first(chosen: Fit, fits: Fit[]): Fit[] {
  return [chosen, ...fits.filter((f) => f !== chosen)];
}

/** The first fit of each shape, whose values the others start from: one search over many starts a shape is enough. */
type Warm = Map<Shape | null, Map<string, number>>;

function startFrom(warm: Warm, { shape }: Candidate): Map<string, number> | undefined {
  const same = warm.get(shape);
  if (same) return same;
  const [other] = warm.values();
  return other && new Map([...other].filter(([key]) => !key.startsWith('shape|')));
}

function rowOf(candidate: Candidate, fit: Fit | null, why = ''): ModelRow {
  const boundary = fit
    ? [...fit.boundaries, ...(fit.converged ? [] : ['did not converge'])].join('; ')
    : why;
  return {
    family: candidate.family,
    transect_effect: candidate.transectEffect,
    shape: candidate.shape,
    log_likelihood: fit?.converged ? fit.logLikelihood : null,
    parameters: fit?.converged ? fit.parameters : null,
    aicc: fit?.converged ? fit.aicc : null,
    boundary: boundary === '' ? null : boundary,
  };
}

/** The fit that AICc chooses, by the rules of the method; null when none has an AICc. */
export function pickByAicc(fits: Fit[]): Fit | null {
  if (fits.length === 1) return fits[0];
  const withEffect = lowest(fits.filter((f) => f.parts.transectEffect));
  const without = lowest(fits.filter((f) => !f.parts.transectEffect));
  if (!withEffect || !without) return withEffect ?? without;
  return (without.aicc as number) < (withEffect.aicc as number) - EFFECT_MARGIN
    ? without
    : withEffect;
}

/** Lowest AICc; ties go to fewer parameters, then to the one tried first. */
function lowest(fits: Fit[]): Fit | null {
  let best: Fit | null = null;
  for (const fit of fits) {
    if (fit.aicc === null) continue;
    if (best === null) best = fit;
    else {
      const gain = (best.aicc as number) - fit.aicc;
      if (gain > TIE || (gain > -TIE && fit.parameters < best.parameters)) best = fit;
    }
  }
  return best;
}

/** Poisson, no transect effect, half-normal, as far as the choices leave these open. */
function simplest(fits: Fit[], analysis: Analysis): Fit {
  const score = (f: Fit): number =>
    (f.candidate.transectEffect && analysis.density.transect_effect === 'auto' ? 4 : 0) +
    (f.candidate.family !== 'poisson' && analysis.density.family === 'auto' ? 2 : 0) +
    (f.candidate.shape === 'hazard-rate' && analysis.detection.shape === 'auto' ? 1 : 0);
  return fits.reduce((a, b) => (score(b) < score(a) ? b : a));
}
