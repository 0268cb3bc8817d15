/** What the pipeline is doing, as a reader would say it. */

import { term, terms } from '../../shared/glossary.ts';

const WORDS: Readonly<Record<string, string>> = {
  read: 'Reading the tables and maps',
  place: `Placing the ${terms('transect')}`,
  bed: 'Laying out the bed',
  fit: `Fitting ${term('density')} and ${term('detection')}`,
  lake: 'Carrying the density to the lake',
  checks: 'Checking the model',
  bootstrap: `Drawing ${terms('bootstrapReplicate')}`,
  rehearsal: 'Simulating surveys and estimating each',
  variants: `Estimating the ${terms('variant')}`,
  change: `Holding the ${terms('survey')} against each other`,
  areas: 'Choosing areas',
  plan: 'Looking at places for dives',
  done: 'Drawing the lake',
};

/** A step as the pipeline names it, in words; the name itself where it has none. */
export function stepWords(step: string): string {
  return WORDS[step] ?? step;
}
