/** The part of the surveyed habitat whose density exceeds a threshold: the same words in report, terminal and page. */

import type { AreaAboveRow } from '../../shared/estimate.ts';
import { capital, term } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import {
  formatArea,
  formatDigits,
  M2_PER_ACRE,
  M2_PER_HA,
  type UnitSystem,
} from '../../shared/units.ts';
import { intervalName, quantity } from './quantity.ts';

/** A threshold is somebody's round number. */
const THRESHOLD_DIGITS = 3;

export interface AreaAbove {
  /** `1 per m²` */
  threshold: string;
  /** `3.2 ha` */
  area: string;
  /** `1.9 to 5.1 ha`; null where no interval could be given */
  interval: string | null;
  /** all of it as a sentence */
  sentence: string;
}

/** For the threshold of the analysis; null when none is set, without a lake, or when nothing was detected. */
export function areaAboveThreshold(
  result: Pick<SurveyResult, 'estimate' | 'analysis'>,
  units: UnitSystem = 'metric',
): AreaAbove | null {
  const { above_threshold: row } = result.estimate;
  return row === null ? null : areaAboveWords(row, result, units);
}

export type { AreaAboveRow };

/** For any threshold; null without a lake. */
export function areaAboveWords(
  { threshold_per_m2, area_m2, lower_m2, upper_m2 }: AreaAboveRow,
  { estimate, analysis }: Pick<SurveyResult, 'estimate' | 'analysis'>,
  units: UnitSystem,
): AreaAbove | null {
  if (estimate.abundance === null) return null;
  const habitatM2 = estimate.abundance.area_m2;
  const { perUnitM2, unit } = landUnit(Math.max(area_m2, upper_m2 ?? 0), units);
  const scaled = (x: number | null): number | null => (x === null ? null : x / perUnitM2);
  const read = quantity({
    estimate: area_m2 / perUnitM2,
    lower: scaled(lower_m2),
    upper: scaled(upper_m2),
  });
  const threshold = `${formatThreshold(threshold_per_m2)} per m²`;
  const area = `${read.estimate} ${unit}`;
  const interval = read.interval === null ? null : `${read.interval} ${unit}`;
  const how =
    interval === null
      ? 'no interval could be given'
      : `${intervalName(analysis.interval)} ${interval}`;
  return {
    threshold,
    area,
    interval,
    sentence:
      `${capital(term('density'))} exceeds ${threshold} on about ${area} (${how}) ` +
      `of the ${formatArea(habitatM2, units)} of ${term('surveyedHabitat')}.`,
  };
}

/** `0.05`, `1` */
export function formatThreshold(perM2: number): string {
  return formatDigits(perM2, THRESHOLD_DIGITS);
}

/** Hectares, or square metres where no figure reaches one hectare; acres. */
function landUnit(largestM2: number, units: UnitSystem): { perUnitM2: number; unit: string } {
  if (units === 'imperial') return { perUnitM2: M2_PER_ACRE, unit: 'acres' };
  return largestM2 < M2_PER_HA
    ? { perUnitM2: 1, unit: 'm²' }
    : { perUnitM2: M2_PER_HA, unit: 'ha' };
}
