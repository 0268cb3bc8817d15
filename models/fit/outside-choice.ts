/**
 * Models that the choices of an analysis leave out, fitted beside those that they leave open: so that a choice is held
 * against the automatic one (METHOD.md: Choice and averaging). They take no part in the estimate.
 */

import type { Analysis } from '../../shared/analysis.ts';
import type { TriedModel } from '../../shared/result.ts';
import type { SurveyRows } from '../data.ts';
import { type Choice, chooseModel, haveSameNames } from './choice.ts';

/**
 * All models: those that were chosen among first and as they are, then the others that the automatic choice looks at,
 * marked as outside of the choices; the one that it chooses is marked as automatic. The same list where nothing was left
 * out.
 */
export function withModelsOutside(
  rows: SurveyRows,
  analysis: Analysis,
  choice: Choice,
  progress: (done: number, of: number) => void = () => {},
): TriedModel[] {
  const { density, detection } = analysis;
  const open: Analysis = {
    ...analysis,
    density: { ...density, family: 'auto', transect_effect: 'auto', depth: 'auto' },
    detection: { ...detection, shape: 'auto' },
  };
  const isOpen =
    density.family === 'auto' &&
    density.transect_effect === 'auto' &&
    density.depth === 'auto' &&
    (detection.shape === 'auto' || choice.models.every((m) => m.shape === null));
  if (isOpen) return choice.models;
  const all = chooseModel(rows, open, progress).models;
  const left = all
    .filter((m) => !choice.models.some((own) => haveSameNames(own, m)))
    .map((m) => ({ ...m, outside: true, chosen: false, weight: 0 }));
  const automatic = all.find((m) => m.chosen);
  const isAutomatic = (model: TriedModel): boolean =>
    automatic !== undefined && haveSameNames(model, automatic);
  return [...choice.models, ...left].map((model) =>
    isAutomatic(model) ? { ...model, automatic: true } : model,
  );
}
