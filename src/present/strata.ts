/** Abundance and density by substrate, by depth band and by both: the same tables in report, terminal and page. */

import type { Stratum } from '../../shared/estimate.ts';
import { extent } from '../../shared/extent.ts';
import { labels, term, terms } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { formatPercent, landArea, type UnitSystem } from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import { bandWithin } from './depths.ts';
import { plantBasis } from './plant-basis.ts';
import { type Measured, quantityCells } from './quantity.ts';

/** A line of a table: area, density and number, each with its interval. */
export interface StrataNumbers {
  /** without its unit */
  area: string;
  /** mussels per m² and its interval */
  density: [estimate: string, interval: string];
  mussels: [estimate: string, interval: string];
}

/** One depth band of a substrate. */
export interface StratumRow extends StrataNumbers {
  /** `1.0 to 2.0 m`, as far as it lies within the surveyed depths */
  band: string;
  /** of the whole band */
  fromM: number;
  toM: number;
}

/** The mussels of a margin's row, for the tables and for a bar. */
interface MarginRow extends StrataNumbers {
  /** of all mussels; null when no row has a number above 0 */
  share: { value: number; text: string } | null;
  /** the numbers themselves */
  value: { mussels: Measured | null; musselsPerM2: number | null };
}

export interface SubstrateRow extends MarginRow {
  /** as in estimate.json: classes joined by + */
  substrate: string;
  /** `sand and gravel` */
  words: string;
  strata: StratumRow[];
}

/** A depth band over all substrates. */
export type DepthRow = MarginRow & StratumRow;

export interface Strata {
  /** the most mussels first, otherwise in the order of the substrates */
  substrates: SubstrateRow[];
  /** from the shore down */
  depths: DepthRow[];
  /** how many strata there are over all substrates */
  count: number;
  /** all together; null without a lake-wide number */
  whole: StrataNumbers | null;
  /** `Mussels by depth and by substrate`, and what that shows, in a sentence each */
  title: string;
  described: string;
  /** mussels at the end of an axis for both margins; null when no row has a number above 0 */
  axis: number | null;
  /** names of the two margins */
  captions: { depths: string; substrates: string };
  /** whose plant cover the densities are for, a sentence; null where the model does not use it */
  basis: string | null;
  /** why there are none, a sentence; null where there are */
  missing: string | null;
}

export type WithStrata = Pick<SurveyResult, 'estimate' | 'domain'>;

export function strata(result: WithStrata, units: UnitSystem = 'metric'): Strata {
  const { estimate, domain } = result;
  const missing = whyNone(estimate.strata);
  const all = missing === null ? (estimate.strata ?? []) : [];
  const { by_substrate: bySubstrate, by_depth: byDepth } =
    missing === null && estimate.margins !== null
      ? estimate.margins
      : { by_substrate: [], by_depth: [] };
  const total = estimate.abundance?.mussels?.estimate ?? 0;
  const band = (s: { depth_from_m: number; depth_to_m: number }) => ({
    band: bandWithin(s.depth_from_m, s.depth_to_m, domain, units),
    fromM: s.depth_from_m,
    toM: s.depth_to_m,
  });
  const substrates = bySubstrate
    .map((s) => ({
      substrate: s.substrate,
      words: substrateWords(s.substrate),
      ...marginOf(s, total, units),
      strata: all
        .filter((one) => one.substrate === s.substrate)
        .map((one) => ({ ...band(one), ...numbersOf(one, units) })),
    }))
    .sort((a, b) => numberOf(b) - numberOf(a));
  const depths = byDepth.map((s) => ({ ...band(s), ...marginOf(s, total, units) }));
  return {
    missing,
    substrates,
    depths,
    count: all.length,
    whole: missing === null ? wholeOf(estimate.abundance, units) : null,
    title: `${labels('mussel')} by ${term('depth')} and by ${term('substrate')}`,
    described: describedOf(substrates, depths),
    axis: axisOf([...substrates, ...depths]),
    captions: {
      depths: `By ${term('depthBand')}, all ${terms('substrate')} together`,
      substrates: `By ${term('substrate')}, all depths together`,
    },
    basis: plantBasis(result)?.strata ?? null,
  };
}

type Numbers = Pick<Stratum, 'area_m2' | 'mussels_per_m2' | 'mussels'>;

function numbersOf(s: Numbers, units: UnitSystem): StrataNumbers {
  return {
    area: landArea(s.area_m2, units),
    density: quantityCells(s.mussels_per_m2),
    mussels: quantityCells(s.mussels),
  };
}

function marginOf(s: Numbers, total: number, units: UnitSystem): MarginRow {
  return {
    ...numbersOf(s, units),
    share: s.mussels === null || !(total > 0) ? null : shareOf(s.mussels.estimate / total),
    value: { mussels: s.mussels, musselsPerM2: s.mussels_per_m2?.estimate ?? null },
  };
}

function numberOf({ value }: MarginRow): number {
  return value.mussels?.estimate ?? 0;
}

/** The whole with its mean density: the area is known, so that the interval is the number's over the area. */
function wholeOf(
  abundance: WithStrata['estimate']['abundance'],
  units: UnitSystem,
): StrataNumbers | null {
  if (abundance === null) return null;
  const { mussels, area_m2: areaM2 } = abundance;
  const over = (x: number | null): number | null => (x === null ? null : x / areaM2);
  return {
    area: landArea(areaM2, units),
    density: quantityCells(
      mussels && {
        estimate: mussels.estimate / areaM2,
        se: over(mussels.se),
        lower: over(mussels.lower),
        upper: over(mussels.upper),
      },
    ),
    mussels: quantityCells(mussels),
  };
}

/** A limit wilder than this many times the longest bar runs off the axis. */
const ROOM = 2.5;

function axisOf(rows: readonly MarginRow[]): number | null {
  const [, longest] = extent([0, ...rows.map(numberOf)]);
  const limits = rows.map(({ value }) => value.mussels?.upper ?? 0);
  return longest === 0 ? null : Math.min(extent([longest, ...limits])[1], ROOM * longest);
}

/** All bars in one text, for those who do not see them. */
function describedOf(substrates: readonly SubstrateRow[], depths: readonly DepthRow[]): string {
  const text = (name: string, { mussels: [estimate, interval] }: StrataNumbers): string =>
    `${name}: ${estimate} (${interval})`;
  return `${labels('mussel')} with ${term('confidenceInterval')}. ${depths
    .map((d) => text(d.band, d))
    .join('; ')}. ${substrates.map((s) => text(s.words, s)).join('; ')}.`;
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

/** A share to two digits: `56 %`, `3.4 %`. */
export function shareOf(value: number): { value: number; text: string } {
  return { value, text: formatPercent(Number(value.toPrecision(2))) };
}
