/** What tests of a fit ask of it, and the small surveys that they ask it of. */

import { fitModel } from '../../models/fit/fit-model.ts';
import type { Candidate, Fit } from '../../models/fit/fitted-model.ts';
import { choices } from './made-up-rows.ts';
import type { WrittenTransect } from './written-rows.ts';

export const POISSON: Candidate = { family: 'poisson', transectEffect: false, shape: null };
export const NB1: Candidate = { ...POISSON, family: 'nb1' };
export const NB2: Candidate = { ...POISSON, family: 'nb2' };
export const BARE = choices({ density: { substrate: false, plant_cover: 'none', depth: 'none' } });
/** −log(1 − 0.95) */
export const DROP = 2.995732273553991;

/** A fit that a test counts on. */
export function fitConverged(...asked: Parameters<typeof fitModel>): Fit {
  const fit = fitModel(...asked);
  if (!fit.converged) throw new Error('the search ended without a maximum');
  return fit;
}

export const coefficient = (fit: Fit, term: string): number => {
  const i = fit.likelihood.layout.parameters.findIndex((p) => p.term === term);
  if (i < 0) throw new Error(`no ${term} in the fit`);
  return fit.estimates[i];
};
export const seOf = (fit: Fit, term: string): number => {
  const i = fit.likelihood.layout.parameters.findIndex((p) => p.term === term);
  return Math.sqrt(fit.covariance[i * fit.estimates.length + i]);
};
export const termsOf = (fit: Fit): string[] => fit.likelihood.layout.parameters.map((p) => p.term);
/** Root of a falling or rising function between two points, by halving. */
export function root(f: (x: number) => number, from: number, to: number): number {
  let [a, b] = [from, to];
  const sign = Math.sign(f(a));
  for (let i = 0; i < 200; i++) {
    const middle = (a + b) / 2;
    if (Math.sign(f(middle)) === sign) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}
/** Greatest value of a function with one top, by golden sections. */
export function greatest(f: (x: number) => number, from: number, to: number): number {
  const g = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [from, to];
  for (let i = 0; i < 200; i++) {
    const [c, d] = [b - g * (b - a), a + g * (b - a)];
    if (f(c) > f(d)) b = d;
    else a = c;
  }
  return f((a + b) / 2);
}

/** Two transects with the roles swapped: Ada first, then Ben first. */
export const swapped = (aa: number, ab: number, bb: number, ba: number): WrittenTransect[] => [
  { primary: 0, secondary: 1, segments: [{ first: aa, second: ab }] },
  { primary: 1, secondary: 0, segments: [{ first: bb, second: ba }] },
];
