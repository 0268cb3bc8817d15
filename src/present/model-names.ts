/** What a model is called. */

import type { Family } from '../../shared/estimate.ts';
import { shortTerm, type TermId, term } from '../../shared/glossary.ts';
import type { TriedModel } from '../../shared/result.ts';
import { listed } from '../../shared/words.ts';
import { valueWords } from './choices.ts';
import { NONE } from './quantity.ts';

export const FAMILIES: Record<Family, TermId> = { poisson: 'poisson', nb1: 'nb1', nb2: 'nb2' };

/** `NB1 with random effect of transect, half-normal` */
export function modelName({
  family,
  transectEffect,
  shape,
  shorePairs,
}: Pick<TriedModel, 'family' | 'transectEffect' | 'shape' | 'shorePairs'>): string {
  const along = shorePairs === undefined ? '' : `, ${term('alongShore')} with ${2 * shorePairs} df`;
  return `${shortTerm(FAMILIES[family])}${withEffect(transectEffect)}${shape === null ? '' : `, ${shape}`}${along}`;
}

/** `parabola`, `spline, 3 df` */
export function depthName({ depth, depthDf }: Pick<TriedModel, 'depth' | 'depthDf'>): string {
  if (depth === null) return NONE;
  return depthDf === null
    ? valueWords('density.depth', depth)
    : `${shortTerm('spline')}, ${depthDf} df`;
}

/** Names with the form of depth where the models differ in it: `NB1 with random effect of transect; depth: parabola`. */
export function modelNamer(models: readonly ModelNames[]): (m: ModelNames) => string {
  return haveForms(models) ? (m) => `${modelName(m)}; depth: ${depthName(m)}` : modelName;
}

export type ModelNames = Pick<
  TriedModel,
  'family' | 'transectEffect' | 'shape' | 'depth' | 'depthDf' | 'shorePairs'
>;

/** Families and detection functions side by side where all their combinations are meant, else name by name. */
export function namesOf(
  some: readonly Pick<TriedModel, 'family' | 'transectEffect' | 'shape' | 'shorePairs'>[],
): string {
  const families = [...new Set(some.map((e) => e.family))];
  const shapes = [...new Set(some.map((e) => e.shape))].filter((s) => s !== null);
  const effects = [...new Set(some.map((e) => e.transectEffect))];
  if (effects.length > 1 || some.length !== families.length * Math.max(1, shapes.length))
    return [...new Set(some.map(modelName))].join('; ');
  const names = families.map((f) => shortTerm(FAMILIES[f]));
  return `${listed(names, 'and')}${withEffect(effects[0] ?? false)}${shapes.length === 0 ? '' : `, ${listed(shapes, 'and')}`}`;
}

export const haveForms = (models: readonly Pick<TriedModel, 'depth' | 'depthDf'>[]): boolean =>
  new Set(models.map((m) => `${m.depth} ${m.depthDf}`)).size > 1;

function withEffect(transectEffect: boolean): string {
  return transectEffect ? ` with ${term('transectEffect')}` : '';
}
