/**
 * Models that the choices of an analysis leave out, fitted beside those that they leave open: so that a choice is held
 * against what AICc would have chosen (METHOD.md: Choice by AICc). They take no part in the estimate.
 */

import type { Analysis } from '../../shared/analysis.ts';
import type { TriedModel } from '../../shared/result.ts';
import type { SurveyRows } from '../data.ts';
import { NotEstimable } from '../errors.ts';
import type { KnownValue } from '../parts.ts';
import { type Choice, candidates, pickByAicc, triedModel } from './choice.ts';
import { fitModel } from './fit-model.ts';
import { type Candidate, type Fit, knownValues, type UnconvergedFit } from './fitted-model.ts';

/**
 * All candidates: those that were chosen among first and as they are, then the others, marked as outside of the choices;
 * the one that AICc chooses of all of them is marked as automatic. The same list where nothing was left out.
 */
export function withModelsOutside(
  rows: SurveyRows,
  analysis: Analysis,
  choice: Choice,
  progress: (done: number, of: number) => void = () => {},
): TriedModel[] {
  const open: Analysis = {
    ...analysis,
    density: { ...analysis.density, family: 'auto', transect_effect: 'auto' },
    detection: { ...analysis.detection, shape: 'auto' },
  };
  const within = new Set(choice.models.map(keyOf));
  const left = candidates(rows, open).filter((c) => !within.has(keyOf(c)));
  if (left.length === 0) return choice.models;
  const { candidate: chosen, likelihood, estimates } = choice.fit;
  const known = knownValues(likelihood, estimates);
  const startFor = ({ shape }: Candidate) =>
    shape === chosen.shape ? known : known.filter((k) => k.part !== 'shape');
  const ends = left.map((candidate, i) => {
    progress(i, left.length);
    return { candidate, end: ended(rows, open, candidate, startFor(candidate)) };
  });
  const fits = ends.flatMap(({ end }) => ('code' in end || !end.converged ? [] : [end]));
  const automatic = pickByAicc([...choice.fits, ...fits]);
  const isAutomatic = (model: Candidate): boolean =>
    automatic !== null && keyOf(model) === keyOf(automatic.candidate);
  return [
    ...choice.models,
    ...ends.map(({ candidate, end }) => ({
      ...triedModel(candidate, end, choice.fit),
      outside: true,
    })),
  ].map((model) => (isAutomatic(model) ? { ...model, automatic: true } : model));
}

function keyOf({ family, transectEffect, shape }: Candidate): string {
  return `${family} ${transectEffect} ${shape}`;
}

function ended(
  rows: SurveyRows,
  analysis: Analysis,
  candidate: Candidate,
  warm: readonly KnownValue[],
): Fit | UnconvergedFit | NotEstimable['reason'] {
  try {
    return fitModel(rows, analysis, candidate, warm);
  } catch (error) {
    if (!(error instanceof NotEstimable)) throw error;
    return error.reason;
  }
}
