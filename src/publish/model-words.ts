/** The model's own names in words. */

import type { Family } from '../../shared/estimate.ts';

const FAMILIES: Record<Family, string> = {
  poisson: 'Poisson',
  nb1: 'negative binomial (nb1: variance in proportion to the mean)',
  nb2: 'negative binomial (nb2: variance growing with the square of the mean)',
};

/** What a term's name begins with → what it is about; an intercept is about nothing. */
const TERMS: Record<string, string | null> = {
  intercept: null,
  observer: 'diver',
  plant_cover: 'plant cover',
  log_count: 'cluster size',
  offset: 'distance from the rope',
};

export function familyWords(family: Family): string {
  return FAMILIES[family];
}

/** `substrate, depth` for substrate:rock, depth:1, depth:2, intercept; `nothing else` when only intercepts are left. */
export function termWords(terms: string[]): string {
  const stems = terms.map((term) => term.split(/[:^]/, 1)[0]!);
  const words = stems.map((stem) => (stem in TERMS ? TERMS[stem] : stem));
  const about = new Set(words.filter((word) => typeof word === 'string'));
  return about.size === 0 ? 'nothing else' : [...about].join(', ');
}
