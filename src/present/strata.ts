/** Abundance and density by stratum, gathered by substrate: the same table in report, terminal and page. */

import type { Stratum } from '../../shared/estimate.ts';
import type { SurveyResult } from '../../shared/result.ts';
import {
  formatDepthBand,
  formatDigits,
  formatPercent,
  landArea,
  type UnitSystem,
} from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import { NONE, quantityCells } from './quantity.ts';

/** Sums have no interval to round to: strata of one substrate share their coefficients, so their errors do not add up. */
const DIGITS_OF_SUM = 3;

export interface StratumRow {
  /** `1.0 to 2.0 m` */
  band: string;
  fromM: number;
  toM: number;
  /** without its unit */
  area: string;
  /** mussels per m² and its interval */
  density: [estimate: string, interval: string];
  mussels: [estimate: string, interval: string];
}

export interface SubstrateRow {
  /** as in estimate.json: classes joined by + */
  substrate: string;
  /** `sand and gravel` */
  words: string;
  area: string;
  density: string;
  mussels: string;
  /** of the mussels on all substrates; null when no stratum has a number above 0 */
  share: { value: number; text: string } | null;
  strata: StratumRow[];
}

export interface Strata {
  /** the densest first, otherwise in the order of the substrates */
  substrates: SubstrateRow[];
  /** how many strata there are over all substrates */
  count: number;
  /** all together; null without a lake-wide number */
  whole: { area: string; mussels: [estimate: string, interval: string] } | null;
  /** why there are none, a sentence; null where there are */
  missing: string | null;
}

export function strata(
  { estimate }: Pick<SurveyResult, 'estimate'>,
  units: UnitSystem = 'metric',
): Strata {
  const missing = whyNone(estimate.strata);
  if (missing !== null) return { substrates: [], count: 0, whole: null, missing };
  const all = estimate.strata ?? [];
  const { abundance } = estimate;
  return {
    missing,
    substrates: substrateRows(all, units),
    count: all.length,
    whole: abundance && {
      area: landArea(abundance.area_m2, units),
      mussels: quantityCells(abundance.mussels),
    },
  };
}

/** A substrate of estimate.json in words: `sand and gravel` for `sand+gravel`, classes of which none holds a +. */
export function substrateWords(label: string): string {
  return classWords(label.split('+'));
}

/** The classes of a mixture in words. */
export function classWords(classes: readonly string[]): string {
  return listed(classes, 'and');
}

function whyNone(all: readonly Stratum[] | null): string | null {
  if (all === null)
    return 'Without maps of outline, substrate and depth there is no breakdown of the lake.';
  if (all.length === 0)
    return 'No mapped bed lies within the habitats and depths that were searched.';
  const known = (q: Stratum['mussels']): boolean =>
    q !== null && (q.estimate > 0 || q.upper !== null);
  return all.some((s) => known(s.mussels))
    ? null
    : 'Nothing was detected, so there is no density by stratum.';
}

interface Sum {
  substrate: string;
  areaM2: number;
  /** null when no stratum has a number */
  mussels: number | null;
  strata: Stratum[];
}

function substrateRows(all: readonly Stratum[], units: UnitSystem): SubstrateRow[] {
  const sums = sumsBySubstrate(all);
  const total = sums.reduce((sum, s) => sum + (s.mussels ?? 0), 0);
  return sums
    .map((s) => ({
      ...s,
      perM2: s.mussels === null || s.areaM2 === 0 ? null : s.mussels / s.areaM2,
    }))
    .sort((a, b) => (b.perM2 ?? 0) - (a.perM2 ?? 0))
    .map(({ substrate, areaM2, mussels, perM2, strata: own }) => ({
      substrate,
      words: substrateWords(substrate),
      area: landArea(areaM2, units),
      density: perM2 === null ? NONE : formatDigits(perM2, DIGITS_OF_SUM),
      mussels: mussels === null ? NONE : formatDigits(mussels, DIGITS_OF_SUM),
      share: mussels === null || !(total > 0) ? null : shareOf(mussels / total),
      strata: own.map((s) => ({
        band: formatDepthBand(s.depth_from_m, s.depth_to_m, units),
        fromM: s.depth_from_m,
        toM: s.depth_to_m,
        area: landArea(s.area_m2, units),
        density: quantityCells(s.mussels_per_m2),
        mussels: quantityCells(s.mussels),
      })),
    }));
}

function sumsBySubstrate(all: readonly Stratum[]): Sum[] {
  const sums = new Map<string, Sum>();
  for (const stratum of all) {
    let sum = sums.get(stratum.substrate);
    if (sum === undefined) {
      sum = { substrate: stratum.substrate, areaM2: 0, mussels: null, strata: [] };
      sums.set(stratum.substrate, sum);
    }
    sum.strata.push(stratum);
    sum.areaM2 += stratum.area_m2;
    if (stratum.mussels !== null) sum.mussels = (sum.mussels ?? 0) + stratum.mussels.estimate;
  }
  return [...sums.values()];
}

/** A share to two digits: `56 %`, `3.4 %`. */
export function shareOf(value: number): { value: number; text: string } {
  return { value, text: formatPercent(Number(value.toPrecision(2))) };
}
