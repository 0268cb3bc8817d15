/** The manager's short version in words and figures, in the reader's language: where mussels are, areas, what is left out. */

import type { AreasHeld } from '../../shared/areas.ts';
import type { Quantity } from '../../shared/estimate.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { decimalsOfSize, M2_PER_ACRE, M2_PER_HA } from '../../shared/units.ts';
import { VERSION } from '../../shared/version.ts';
import {
  type FrontInput,
  habitatDepths,
  land,
  levelOf,
  placeAndTime,
  type ReportWords,
} from './front-page.ts';
import { NONE } from './quantity.ts';

/** Rows that leave room for everything else on its two pages. */
const MOST_ROWS = 10;

export interface ShortRow {
  cells: string[];
  /** the whole, or the rest of it, under its parts */
  sum: boolean;
}

export interface ShortTable {
  title: string;
  columns: { name: string; number: boolean }[];
  rows: ShortRow[];
}

export interface ShortReport {
  /** of the document */
  title: string;
  /** texts have {table} and {otherTable} where the tables are named by number */
  where: { heading: string; text: string; byDepth: ShortTable; bySubstrate: ShortTable } | null;
  areas: { heading: string; text: string; table: ShortTable } | null;
  outside: { heading: string; text: string } | null;
  cautions: { heading: string; list: string[] };
  madeBy: string;
}

export type ShortInput = FrontInput & Pick<SurveyResult, 'domain'>;

/** @param held what the treatment areas hold together; null where that is not known */
export function readShortReport(
  result: ShortInput,
  words: ReportWords,
  held: AreasHeld | null = null,
): ShortReport {
  return {
    title: `${result.estimate.lake}: ${words.say('heading')}`,
    where: whereOf(result, words),
    areas: areasOf(result, words, held),
    outside: outsideOf(result, words),
    cautions: {
      heading: words.say('cautions'),
      list: [
        words.say('cautionHabitats'),
        words.say('cautionMissed'),
        words.say('cautionMaps'),
        words.say('cautionTreatment'),
        words.say('cautionDiving'),
      ],
    },
    madeBy: words.say('madeBy', { version: VERSION }),
  };
}

interface Part {
  name: string;
  areaM2: number;
  mussels: Quantity | null;
}

function whereOf(result: ShortInput, words: ReportWords): ShortReport['where'] {
  const { margins, abundance } = result.estimate;
  const whole = abundance?.mussels ?? null;
  if (margins === null || abundance === null || whole === null || !(whole.estimate > 0))
    return null;
  const sum = { name: words.say('all'), areaM2: abundance.area_m2, mussels: whole };
  const of = placeAndTime(result, words);
  const { domain } = result;
  const depths = margins.by_depth.map((d) => ({
    name: words.say('band', {
      from: words.metres(Math.max(d.depth_from_m, domain.depthFromM)),
      to: words.metres(Math.min(d.depth_to_m, domain.depthToM)),
    }),
    areaM2: d.area_m2,
    mussels: d.mussels,
  }));
  const list = new Intl.ListFormat(words.tag);
  const substrates = margins.by_substrate
    .map((s) => ({
      name: list.format(s.substrate.split('+')),
      areaM2: s.area_m2,
      mussels: s.mussels,
    }))
    .sort((a, b) => (b.mussels?.estimate ?? 0) - (a.mussels?.estimate ?? 0));
  return {
    heading: words.say('where'),
    text: words.say('whereText', { table: '{table}', otherTable: '{otherTable}' }),
    byDepth: tableOf(words.say('byDepth', of), words.say('depth'), depths, sum, result, words),
    bySubstrate: tableOf(
      words.say('bySubstrate', of),
      words.say('substrate'),
      substrates,
      sum,
      result,
      words,
    ),
  };
}

function areasOf(
  result: ShortInput,
  words: ReportWords,
  held: AreasHeld | null,
): ShortReport['areas'] {
  const { treatments } = result.estimate;
  if (treatments === null || treatments.length === 0) return null;
  const parts = treatments
    .map((t) => ({ name: t.name, areaM2: t.area_m2, mussels: t.mussels }))
    .sort((a, b) => (b.mussels?.estimate ?? 0) - (a.mussels?.estimate ?? 0));
  const { from, to } = habitatDepths(result, words);
  const left = held?.left_out ?? null;
  const rest = left && {
    name: words.say('leftOut'),
    areaM2: left.surveyed_m2,
    mussels: left.mussels,
  };
  const title = words.say('areasTitle', placeAndTime(result, words));
  return {
    heading: words.say('areas'),
    text: words.say('areasText', { table: '{table}', from, to }),
    table: tableOf(title, words.say('areaColumn'), parts, rest, result, words),
  };
}

function outsideOf({ estimate }: ShortInput, words: ReportWords): ShortReport['outside'] {
  const { abundance } = estimate;
  if (abundance === null) return null;
  const areaM2 = abundance.outside_area_m2 + abundance.unmapped_area_m2;
  return {
    heading: words.say('outside'),
    text: areaM2 > 0 ? words.say('outsideText', land(areaM2, words)) : words.say('outsideNone'),
  };
}

/** So many rows, and how many more there are. */
function tableOf(
  title: string,
  first: string,
  parts: readonly Part[],
  whole: Part | null,
  result: ShortInput,
  words: ReportWords,
): ShortTable {
  const total = result.estimate.abundance?.mussels?.estimate ?? 0;
  const row = (part: Part, sum: boolean): ShortRow => ({ sum, cells: cellsOf(part, total, words) });
  const more = parts.length - MOST_ROWS;
  const columns = [
    words.say('hectaresColumn'),
    words.say('acresColumn'),
    words.say('musselsColumn'),
    words.say('intervalColumn', { level: levelOf(result) }),
    words.say('shareColumn'),
  ].map((name) => ({ name, number: true }));
  return {
    title,
    columns: [{ name: first, number: false }, ...columns],
    rows: [
      ...parts.slice(0, MOST_ROWS).map((part) => row(part, false)),
      ...(more > 0
        ? [{ sum: false, cells: [words.say('others', { count: more }), ...columns.map(() => '')] }]
        : []),
      ...(whole === null ? [] : [row(whole, true)]),
    ],
  };
}

function cellsOf({ name, areaM2, mussels }: Part, total: number, words: ReportWords): string[] {
  const share =
    mussels === null || !(total > 0)
      ? NONE
      : words.say('percent', {
          share: Number((100 * (mussels.estimate / total)).toPrecision(2)),
        });
  return [
    name,
    figure(areaM2 / M2_PER_HA, words),
    figure(areaM2 / M2_PER_ACRE, words),
    ...musselCells(mussels, words),
    share,
  ];
}

/** An area with as many decimals as its size asks for. */
function figure(x: number, words: ReportWords): string {
  return words.fixed(x, decimalsOfSize(x));
}

function musselCells(mussels: Quantity | null, words: ReportWords): [string, string] {
  if (mussels === null) return [NONE, NONE];
  const { estimate, lower, upper } = words.range(mussels);
  if (upper === null) return [estimate, NONE];
  if (lower === null || mussels.estimate === 0) return [estimate, words.say('upTo', { upper })];
  return [estimate, words.say('rangeColumn', { lower, upper })];
}
