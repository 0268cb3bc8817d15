/** What every printed result carries with it. */

import { en } from '../../shared/strings/report/en.ts';

export const CAUTIONS: readonly string[] = [
  en.cautionHabitats,
  en.cautionMissed,
  en.cautionMaps,
  en.cautionTreatment,
  en.cautionDiving,
];
