/** Names of the stations, and small helpers for text on the page. */

import { label, labels } from '../../../shared/glossary.ts';
import type { Station } from '../contract.ts';

export { keptTogether } from '../../present/kept-together.ts';

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
