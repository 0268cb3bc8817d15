/** `auto` decided by AICc over families, transect effect and shape (METHOD.md: Choice by AICc). */

import type { Analysis } from '../../shared/analysis.ts';
import type { Family, Shape } from '../../shared/estimate.ts';
import type { ModelNotice, NotEstimableReason } from '../../shared/model-notices.ts';
import type { TriedModel } from '../../shared/result.ts';
import type { SurveyRows } from '../data.ts';
import { FAMILY_NAMES, SIMPLEST_FAMILY } from '../density/families.ts';
import { NotConverged, NotEstimable } from '../errors.ts';
import type { KnownValue } from '../parts.ts';
import { EFFECT_MARGIN, TIE } from './compare.ts';
import { fitModel } from './fit-model.ts';
import {
  type Candidate,
  type Fit,
  type FittedModel,
  knownValues,
  type UnconvergedFit,
} from './fitted-model.ts';

export interface Choice {
  fit: Fit;
  /** those that converged, the chosen one first */
  fits: Fit[];
  /** every candidate, in the order tried */
  models: TriedModel[];
  notices: ModelNotice[];
}

/** All combinations that the choices leave open, the simplest first. */
export function candidates(rows: SurveyRows, analysis: Analysis): Candidate[] {
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

/**
 * @throws NotEstimable when no candidate can be fitted: the first candidate's reason
 */
export function chooseModel(
  rows: SurveyRows,
  analysis: Analysis,
  progress: (done: number, of: number) => void = () => {},
): Choice {
  const tried = candidates(rows, analysis);
  const fits: Fit[] = [];
  const ends: { candidate: Candidate; end: Fit | UnconvergedFit | NotEstimableReason }[] = [];
  let refused: NotEstimable | null = null;
  const warm: Warm = new Map();
  tried.forEach((candidate, i) => {
    progress(i, tried.length);
    try {
      const fit = fitModel(rows, analysis, candidate, startFrom(warm, candidate));
      ends.push({ candidate, end: fit });
      if (fit.converged) {
        fits.push(fit);
        if (!warm.has(candidate.shape))
          warm.set(candidate.shape, knownValues(fit.likelihood, fit.estimates));
      }
    } catch (error) {
      if (!(error instanceof NotEstimable)) throw error;
      refused ??= error;
      ends.push({ candidate, end: error.reason });
    }
  });
  progress(tried.length, tried.length);
  if (fits.length === 0)
    throw refused ?? new NotConverged({ code: 'not-converged', cause: 'no-maximum' });
  const best = pickByAicc(fits);
  const fit = best ?? simplest(fits, analysis);
  const { family, transectEffect } = fit.parts;
  return {
    fit,
    fits: first(fit, fits),
    models: ends.map(({ candidate, end }) => triedModel(candidate, end, fit)),
    notices:
      best === null
        ? [{ code: 'too-few-segments', segments: rows.segments.length, family, transectEffect }]
        : [],
  };
}

function first(chosen: Fit, fits: Fit[]): Fit[] {
  return [chosen, ...fits.filter((f) => f !== chosen)];
}

/** The first fit of each shape, whose values the others start from: one search over many starts a shape is enough. */
type Warm = Map<Shape | null, KnownValue[]>;

function startFrom(warm: Warm, { shape }: Candidate): KnownValue[] | undefined {
  const same = warm.get(shape);
  if (same) return same;
  const [other] = warm.values();
  return other?.filter((k) => k.part !== 'shape');
}

export function triedModel(
  candidate: Candidate,
  end: Fit | UnconvergedFit | NotEstimableReason,
  chosen: Fit,
): TriedModel {
  if ('code' in end) return { ...candidate, fit: null, boundaries: [], why: end, chosen: false };
  const { boundaries, converged, logLikelihood, parameters, aicc } = end;
  return {
    ...candidate,
    fit: converged ? { logLikelihood, parameters, aicc } : null,
    boundaries,
    why: converged ? null : { code: 'not-converged', cause: 'no-maximum' },
    chosen: end === chosen,
  };
}

/** The fit that AICc chooses, by the rules of the method; null when none has an AICc. */
export function pickByAicc<F extends FittedModel>(fits: F[]): F | null {
  const [only] = fits;
  if (only && fits.length === 1) return only;
  const withEffect = lowest(fits.filter((f) => f.parts.transectEffect));
  const without = lowest(fits.filter((f) => !f.parts.transectEffect));
  if (!withEffect || !without) return (withEffect ?? without)?.fit ?? null;
  return without.aicc < withEffect.aicc - EFFECT_MARGIN ? without.fit : withEffect.fit;
}

/** Lowest AICc; ties go to fewer parameters, then to the one tried first. */
function lowest<F extends FittedModel>(fits: F[]): { fit: F; aicc: number } | null {
  let best: { fit: F; aicc: number } | null = null;
  for (const fit of fits) {
    const { aicc } = fit;
    if (aicc === null) continue;
    const gain = best === null ? Infinity : best.aicc - aicc;
    if (gain > TIE || (best && gain > -TIE && fit.parameters < best.fit.parameters))
      best = { fit, aicc };
  }
  return best;
}

/** The simplest family, no transect effect, half-normal, as far as the choices leave these open. */
function simplest(fits: Fit[], analysis: Analysis): Fit {
  const score = (f: Fit): number =>
    (f.candidate.transectEffect && analysis.density.transect_effect === 'auto' ? 4 : 0) +
    (f.candidate.family !== SIMPLEST_FAMILY && analysis.density.family === 'auto' ? 2 : 0) +
    (f.candidate.shape === 'hazard-rate' && analysis.detection.shape === 'auto' ? 1 : 0);
  return fits.reduce((a, b) => (score(b) < score(a) ? b : a));
}
