/** The estimate in a few words, for lists and for what moved. */

import type { Estimate } from '../../../shared/estimate.ts';
import { quantityWords } from './quantity.ts';

/** `184,000 mussels (121,000 to 279,000)` */
export function answerHeadline({ abundance, data }: Estimate): string {
  if (data.detections === 0) return 'nothing found';
  if (abundance === null) return 'density only, no lake-wide number';
  const quantity = abundance.mussels ?? abundance.clusters;
  const { estimate, range } = quantityWords(quantity);
  const noun = abundance.mussels === null ? 'clusters' : 'mussels';
  return `${estimate} ${noun}${range === null ? '' : ` (${range})`}`;
}

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
  place: 'Placing the transects',
  bed: 'Laying out the bed',
  fit: 'Fitting density and detection',
  lake: 'Carrying the density to the lake',
  checks: 'Checking the model',
  bootstrap: 'Resampling transects',
  done: 'Drawing the lake',
};
