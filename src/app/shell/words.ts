/** Small helpers for text on the page. */

import { term, terms } from '../../../shared/glossary.ts';

/** A number and its unit stay on one line: `7.0 m`, `95 %`. */
export function keptTogether(text: string): string {
  return text.replace(/(\d) (?=(?:%|m²|m|ha|ft²|ft|acres)(?![a-z²]))/g, '$1\u00a0');
}

/** What the pipeline is doing, as a reader would say it. */
export function stepWords(step: string): string {
  return STEP_WORDS[step] ?? step;
}

const STEP_WORDS: Record<string, string> = {
  read: 'Reading the tables and maps',
  place: `Placing the ${terms('transect')}`,
  bed: 'Laying out the bed',
  fit: `Fitting ${term('density')} and ${term('detection')}`,
  lake: 'Carrying the density to the lake',
  checks: 'Checking the model',
  bootstrap: `Drawing ${terms('bootstrapReplicate')}`,
  done: 'Drawing the lake',
};
