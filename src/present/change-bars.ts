/** A change and its parts as bars: each with its interval, or with the limit that is all there is. */

import type { ChangeRow, PairChange } from '../../shared/change.ts';
import { term } from '../../shared/glossary.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { limitInWords } from './change-limit.ts';
import { changeInWords } from './change-words.ts';
import { bandWithin } from './depths.ts';

/** A ratio with its interval, for a drawing on a log axis. */
export interface ChangeBar {
  name: string;
  kind: 'total' | 'substrate' | 'depth' | 'area';
  /** null where one survey detected nothing: then one of the limits is all there is */
  ratio: number | null;
  lower: number | null;
  upper: number | null;
  words: string;
}

/** A row's depths as far as they are common ground, as a survey's own strata are told. */
export const bandOf =
  ({ common }: PairChange, units: UnitSystem) =>
  ({ depth_from_m, depth_to_m }: ChangeRow): string =>
    bandWithin(
      depth_from_m ?? common.depth_from_m,
      depth_to_m ?? common.depth_to_m,
      { depthFromM: common.depth_from_m, depthToM: common.depth_to_m },
      units,
    );

export function barsOf(pair: PairChange, interval: number, units: UnitSystem): ChangeBar[] {
  const bar = (
    kind: ChangeBar['kind'],
    name: string,
    { change, limit }: Pick<ChangeRow, 'change' | 'limit'>,
  ): ChangeBar[] => {
    if (limit !== null) {
      const [lower, upper] =
        limit.nothing_in === 'after' ? [null, limit.ratio] : [limit.ratio, null];
      return [{ name, kind, ratio: null, lower, upper, words: `${name}: ${limitInWords(limit)}` }];
    }
    if (change === null) return [];
    const { ratio, lower, upper } = change;
    return [
      { name, kind, ratio, lower, upper, words: `${name}: ${changeInWords(change, interval)}` },
    ];
  };
  return [
    ...bar('total', `All ${term('commonGround')}`, pair.total),
    ...pair.by_substrate.flatMap((row) => bar('substrate', row.substrate ?? '', row)),
    ...pair.by_depth.flatMap((row) => bar('depth', bandOf(pair, units)(row), row)),
    ...pair.areas.flatMap((row) => bar('area', row.name ?? '', row)),
    ...treatedBars(pair.treated, bar),
  ];
}

/** Of an end that a limit leaves open, so that its line has a length. */
const LEAST_LINE = 2;

/** Ratios that an axis has to hold. */
export function reachOf({
  ratio,
  lower,
  upper,
}: Pick<ChangeBar, 'ratio' | 'lower' | 'upper'>): number[] {
  const ends = [lower, upper].filter((x) => x !== null);
  if (ratio !== null) return ends;
  return [
    ...ends,
    ...(lower === null ? ends.map((x) => x / LEAST_LINE) : ends.map((x) => x * LEAST_LINE)),
  ];
}

/** What was treated and what was not, by models that tell them apart: areas above have the densities of their habitats. */
function treatedBars(
  treated: PairChange['treated'],
  bar: (
    kind: ChangeBar['kind'],
    name: string,
    row: Pick<ChangeRow, 'change' | 'limit'>,
  ) => ChangeBar[],
): ChangeBar[] {
  if (treated === null) return [];
  const limit = treated.limit?.treated ?? null;
  return [
    ...bar('area', 'Treated', { change: treated.treated?.change ?? null, limit }),
    ...bar('area', 'Untreated', { change: treated.untreated?.change ?? null, limit: null }),
  ];
}
