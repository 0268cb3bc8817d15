/** What lies outside of the surveyed habitat, by reason: one dictionary for tables, sentences and spots on the map. */

import { term } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { Reason } from '../../shared/survey.ts';
import {
  formatArea,
  formatCount,
  formatLandArea,
  formatLength,
  formatPercent,
  landArea,
  type UnitSystem,
} from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import { habitatBand } from './depths.ts';

/** `unmapped`: bed within the outline for which the map names no substrate. */
export type Exclusion = Exclude<Reason, 'inside'> | 'unmapped';

/** Smaller areas are edges of two maps that do not quite meet, and not worth a line. */
const LEAST_TOLD_M2 = 1;

/** Digits of the distance that a map of points reaches. */
const REACH_DIGITS = 3;

const WORDS: Record<Exclusion, string> = {
  substrate: 'substrate that was not searched',
  'plant cover': 'more or fewer plants than were searched',
  depth: 'shallower or deeper than was searched',
  'depth unmapped': 'no depth on the map',
  'far from any transect': `farther from any ${term('transect')} than neighbouring ones lie apart`,
  'no dive': 'where nobody may dive',
  unmapped: 'no substrate on the map',
};

/** A reason in words that stand in a table, in brackets or after a colon. Throws on a reason that has none. */
export function exclusionWords(reason: string): string {
  if (!isExclusion(reason))
    throw new Error(
      `got "${reason}" as a reason, expected one of ${Object.keys(WORDS).join(', ')}`,
    );
  return WORDS[reason];
}

function isExclusion(reason: string): reason is Exclusion {
  return Object.hasOwn(WORDS, reason);
}

export interface ExclusionRow {
  words: string;
  /** with its unit: `4.20 ha` */
  area: string;
  /** without: `4.20` */
  areaBare: string;
  /** the same in acres */
  acresBare: string;
}

export type Excludable = Pick<SurveyResult, 'estimate' | 'lake' | 'domain'>;

export interface Exclusions {
  /** by reason, in the order in which they apply; empty when all of the lake's bed is in the number */
  rows: ExclusionRow[];
  /** the same in sentences, or that nothing is left out */
  text: string;
  /** how the bed is known where its map was made from points; null where it was not */
  interpolated: string | null;
}

/** Null without maps of the lake: then it cannot be said. */
export function exclusions(result: Excludable, units: UnitSystem = 'metric'): Exclusions | null {
  const { abundance, outside } = result.estimate;
  if (abundance === null && outside === null) return null;
  const parts = [
    ...(outside ?? []).map((o) => ({ reason: o.reason, areaM2: o.area_m2 })),
    { reason: 'unmapped', areaM2: abundance?.unmapped_area_m2 ?? 0 },
  ].filter((part) => part.areaM2 >= LEAST_TOLD_M2);
  const rows = parts.map(({ reason, areaM2 }) => ({
    words: exclusionWords(reason),
    area: formatLandArea(areaM2, units),
    areaBare: landArea(areaM2, units),
    acresBare: landArea(areaM2, 'imperial'),
  }));
  const told = parts.map(
    ({ reason, areaM2 }) =>
      `${formatArea(areaM2, units)} (${exclusionWords(reason)}${detail(reason, result, units)})`,
  );
  const text =
    told.length === 0
      ? `All of the lake's bed is in the number.`
      : `Outside of the ${term('surveyedHabitat')}, and not in the number: ${listed(told, 'and')}. Mussels may live there too.`;
  const interpolated = interpolatedText(result.estimate.interpolated_substrate ?? null, units);
  return { rows, text, interpolated };
}

function interpolatedText(
  made: Excludable['estimate']['interpolated_substrate'],
  units: UnitSystem,
): string | null {
  if (made === null) return null;
  const { points, greatest_distance_m: reachM, leave_one_out_share: share } = made;
  const { neighbours_within_m: withinM, leave_neighbours_out_share: apart } = made;
  const reach = formatLength(reachM, REACH_DIGITS, units);
  const told =
    share === null
      ? 'How often that is right could not be judged'
      : `Of the samples, left out one by one, ${formatPercent(share)} are told right by the nearest other one`;
  const farther =
    withinM === null || apart === null
      ? ''
      : `; left out with all others within ${formatLength(withinM, REACH_DIGITS, units)}, since half of the map lies that far from its sample or farther, ${formatPercent(apart)}`;
  return `The ${term('substrate')} is known at ${formatCount(points)} samples only: the map takes it from the nearest one, no farther than ${reach}. ${told}${farther}; no interval here covers that.`;
}

/** Substrates that are on the map and that no transect crossed. */
export function neverSearched({ lake, domain }: Pick<SurveyResult, 'lake' | 'domain'>): string[] {
  const classes = (lake.substrate ?? []).flatMap((patch) => patch.substrate);
  return [...new Set(classes)].filter((name) => !domain.classes.includes(name));
}

function detail(reason: string, result: Excludable, units: UnitSystem): string {
  if (reason === 'depth') return `, ${habitatBand(result.domain, units)}`;
  const never = reason === 'substrate' ? neverSearched(result) : [];
  return never.length === 0 ? '' : `: ${listed(never, 'and')}`;
}
