/** Which column of a table means which of ours: by its name, by what stands in it, and by what other tables hold. */

import { formatCount } from '../../../shared/units.ts';
import { listed, plain, quoted } from '../../../shared/words.ts';
import type { Block, Column } from './blocks.ts';
import { type Fit, fieldsOf, type Kind, nameFit } from './names.ts';
import { isPair } from './people.ts';
import { type ColumnStats, statsOf } from './stats.ts';

/** A table, with what stands in its columns. */
export interface Studied {
  block: Block;
  stats: ColumnStats[];
  decimalComma: boolean;
}

/** What other tables hold. */
export interface References {
  ids: ReadonlySet<string>;
  divers: ReadonlySet<string>;
}

export interface Match {
  field: string;
  column: Column;
  fit: Fit;
}

/** So large a share of the cells has to be what the field holds; fewer are typing errors of another kind of column. */
const MOST_OF = 0.5;
/** Nearly all: proof without a name. */
const NEARLY_ALL = 0.9;
/** Coordinates in metres or feet are greater. */
const LEAST_EASTING = 1_000;
/** More words than this are no two roles. */
const MOST_ROLES = 4;
/** So few cells prove nothing. */
const FEW = 3;

export function studied(block: Block, decimalComma: boolean): Studied {
  return { block, stats: block.columns.map((c) => statsOf(block, c, decimalComma)), decimalComma };
}

/** The best pairs first; each column and each field once. A name of ours always counts, whatever stands below it. */
export function matchColumns({ block, stats }: Studied, kind: Kind, refs: References): Match[] {
  const candidates: (Match & { score: number })[] = [];
  block.columns.forEach((column, i) => {
    for (const field of fieldsOf(kind)) {
      const fit = nameFit(column, kind, field);
      const suits =
        fit === 3 ? 1 : wordsAsked(field, fit, suitability(field, stats[i], refs), stats[i]);
      // a sure name stands against a cell or two that cannot be read: they are refused
      const unfit =
        isLengthNotPlace(field, column, stats[i]) ||
        (suits < 0 && (fit < 2 || stats[i].filled >= FEW));
      if (unfit || (fit === 0 && suits < 2)) continue;
      candidates.push({ field, column, fit, score: 2 * fit + suits });
    }
  });
  candidates.sort((a, b) => b.score - a.score);
  const fields = new Set<string>();
  const columns = new Set<number>();
  const matches: Match[] = [];
  for (const { field, column, fit } of candidates) {
    if (fields.has(field) || columns.has(column.at)) continue;
    fields.add(field);
    columns.add(column.at);
    matches.push({ field, column, fit });
  }
  return matches.sort((a, b) => a.column.at - b.column.at);
}

/** `Länge (m)` of 20 is a length: a longitude or easting of so little in metres lies nowhere. */
function isLengthNotPlace(field: string, { unit }: Column, { most }: ColumnStats): boolean {
  return /(lat|lon)$/.test(field) && (unit === 'm' || unit === 'ft') && (most ?? 0) < LEAST_EASTING;
}

/** A sure name over a few words that are not known: what they stand for is asked. */
function wordsAsked(field: string, fit: Fit, suits: -1 | 0 | 1 | 2, { distinct }: ColumnStats) {
  return field === 'role' && fit > 1 && distinct.length <= MOST_ROLES ? Math.max(suits, 0) : suits;
}

/** -1: it cannot be; 0: it may; 1: what stands there speaks for it; 2: it is proof enough without a name. */
function suitability(field: string, stats: ColumnStats, refs: References): -1 | 0 | 1 | 2 {
  if (stats.filled === 0) return 0;
  const proof = (share: number) => (share >= NEARLY_ALL && stats.filled >= FEW ? 2 : 1);
  switch (field) {
    case 'transect':
      return share(stats.distinct, refs.ids) >= NEARLY_ALL ? (stats.numbers > MOST_OF ? 1 : 2) : 0;
    case 'date':
      return stats.dates < MOST_OF ? -1 : proof(stats.dates);
    case 'primary':
    case 'secondary':
      return stats.numbers > MOST_OF || stats.dates > MOST_OF ? -1 : 0;
    case 'observers':
      return 2 * stats.distinct.filter(isPair).length < stats.distinct.length ? -1 : 1;
    case 'design':
      return stats.designs < MOST_OF ? -1 : 1;
    case 'role': {
      const named = share(stats.distinct, refs.divers);
      return Math.max(named, stats.roles) < MOST_OF ? -1 : proof(named);
    }
    case 'substrate_2':
      return stats.substrates < MOST_OF ? -1 : 0;
    case 'substrate':
      if (stats.numbers > MOST_OF && stats.decimals > 0) return -1;
      return stats.substrates < NEARLY_ALL || stats.distinct.length < 2
        ? 0
        : proof(stats.substrates);
    case 'start':
    case 'end':
    case 'pair':
      return stats.pairs < MOST_OF ? -1 : proof(stats.pairs);
    case 'start_lat':
    case 'start_lon':
    case 'end_lat':
    case 'end_lon':
    case 'lat':
    case 'lon':
      return Math.max(stats.coordinates, stats.numbers) < MOST_OF
        ? -1
        : stats.decimals >= 3
          ? 1
          : 0;
    case 'setup_min':
    case 'habitat_min':
    case 'search_min':
      return stats.times < MOST_OF ? -1 : 0;
    case 'plant_cover':
    case 'bearing_ref':
    case 'stop':
    case 'notes':
      return 0;
    default:
      return stats.numbers < MOST_OF ? -1 : 0;
  }
}

function share(values: readonly string[], known: ReadonlySet<string>): number {
  if (values.length === 0 || known.size === 0) return 0;
  return values.filter((value) => known.has(value)).length / values.length;
}

/** `"Bottom": 249 cells, 5 values (sand, silt, …)`. */
export function holdsWhat(column: Column, stats: ColumnStats): string {
  const cells = `${quoted(column.text)}: ${formatCount(stats.filled)} ${stats.filled === 1 ? 'cell' : 'cells'}`;
  if (stats.filled === 0) return `${quoted(column.text)}: nothing stands in it`;
  if (stats.numbers >= MOST_OF && stats.least !== null && stats.most !== null)
    return `${cells}, numbers from ${plain(stats.least)} to ${plain(stats.most)}`;
  const few = stats.distinct.slice(0, 4).map((value) => quoted(value));
  const more = stats.distinct.length - few.length;
  return `${cells}, ${more > 0 ? `${few.join(', ')} and ${formatCount(more)} other values` : listed(few, 'and')}`;
}
