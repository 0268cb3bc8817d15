/** Names of the stations, and small helpers for text on the page. */

import { label, labels } from '../../../shared/glossary.ts';
import type { Station } from '../contract.ts';

export const STATION_NAMES: Record<Station, string> = {
  survey: label('survey'),
  transects: labels('transect'),
  detection: label('detection'),
  density: label('density'),
  lake: 'Lake',
  areas: 'Areas',
  next: 'Next dives',
  change: 'Change',
};

/** A number and its unit stay on one line: `7.0 m`, `95 %`. */
export function keptTogether(text: string): string {
  return text.replace(/(\d) (?=(?:%|m²|m|ha|ft²|ft|acres)(?![a-z²]))/g, '$1\u00a0');
}
