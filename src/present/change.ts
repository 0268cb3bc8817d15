/**
 * The change between surveys in words and rows: what happened, how sure it is, what could not have been seen, what stands
 * behind it. Terminal, page and report say it word for word the same.
 */

import {
  type ChangeFile,
  type ChangeNumbers,
  type ChangeRow,
  LEAST_OVERLAP,
  type PairChange,
  type SurveyOfChange,
} from '../../shared/change.ts';
import { capital, label, labels, shortTerm, term, terms } from '../../shared/glossary.ts';
import {
  formatCount,
  formatDepthBand,
  formatPercent,
  landArea,
  landAreaUnit,
  type UnitSystem,
} from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import { bandOf, barsOf, type ChangeBar } from './change-bars.ts';
import { detectionSentence, groundSentences, treatedSentences } from './change-basis.ts';
import {
  countCells,
  limitCells,
  limitHeadline,
  limitOpening,
  limitSure,
  nothingSentences,
  partSentences,
} from './change-limit.ts';
import { changeInWords, ratioCells } from './change-words.ts';
import { ciName, NONE, probabilityText, quantityCells, quantityInFull } from './quantity.ts';

export interface ChangeRead {
  title: string;
  /** one a survey, in the order of their dives; the first row is the head */
  surveys: string[][];
  pairs: PairRead[];
  series: Series;
}

export interface PairRead {
  title: string;
  /** the answer at a glance */
  headline: string;
  /** the answer, to be read aloud */
  opening: string;
  /** how sure it is, and what could have been seen */
  sure: string[];
  /** what it is a change of, and what stands behind it */
  basis: string[];
  /** null where nothing was treated */
  treated: string[] | null;
  tables: { caption: string; rows: string[][] }[];
  /** for a drawing */
  bars: ChangeBar[];
}

/** Totals of all surveys on their own surveyed habitat, in time. */
export interface Series {
  described: string;
  points: {
    survey: string;
    date: string;
    estimate: number;
    lower: number | null;
    upper: number | null;
    /** whether a line leads here from the survey before: their surveyed habitats overlap enough */
    joined: boolean;
  }[];
}

export function readChange(file: ChangeFile, units: UnitSystem = 'metric'): ChangeRead {
  const last = file.surveys[file.surveys.length - 1];
  return {
    title: `${last.lake}: ${term('changeRatio')} between ${terms('survey')}`,
    surveys: surveyRows(file, units),
    pairs: file.pairs.map((pair) => readPair(pair, file, units)),
    series: seriesOf(file),
  };
}

function sureOf(pair: PairChange): string[] {
  const { change, limit } = pair.total;
  if (limit !== null) return limitSure(limit, pair);
  return change === null ? [] : sureSentences(change);
}

function readPair(
  pair: PairChange,
  { interval, surveys }: ChangeFile,
  units: UnitSystem,
): PairRead {
  return {
    title: `${pair.before} to ${pair.after}`,
    headline: headlineOf(pair, interval),
    opening: openingOf(pair, interval, surveys, units),
    sure: sureOf(pair),
    basis: [
      ...groundSentences(pair, interval, units),
      ...(pair.nothing === null
        ? [detectionSentence(pair)]
        : nothingSentences(pair.nothing, units)),
      ...partSentences(pair),
    ],
    treated: pair.treated === null ? null : treatedSentences(pair.treated, interval, units),
    tables: tablesOf(pair, interval, units),
    bars: barsOf(pair, interval, units),
  };
}

/** `0.50 times as many mussels in 2026 as in 2025 (95 % CI 0.31 to 0.81).` */
function headlineOf(pair: PairChange, interval: number): string {
  const { before, after, total } = pair;
  if (total.limit !== null) return limitHeadline(pair, total.limit, interval);
  if (total.change === null)
    return `There is no ratio of the ${terms('mussel')} in ${after} to those in ${before}.`;
  const [ratio, limits] = ratioCells(total.change);
  return `${ratio} times as many ${terms('mussel')} in ${after} as in ${before} (${ciName(interval)} ${limits}).`;
}

/** `On the common ground … there were 24,000 mussels (…) in 2025 and 12,000 (…) in 2026: 0.50 times as many (…).` */
function openingOf(
  pair: PairChange,
  interval: number,
  surveys: readonly SurveyOfChange[],
  units: UnitSystem,
): string {
  const { before, after, total, common } = pair;
  const when = (name: string): string => {
    const { from, to } = surveys.find((s) => s.survey === name) ?? { from: null, to: null };
    return from === null ? name : `${name} (${from === to ? from : `${from} to ${to}`})`;
  };
  const ground = `On the ${term('commonGround')} of ${formatDepthBand(common.depth_from_m, common.depth_to_m, units)} depth`;
  if (total.limit !== null) return limitOpening(pair, total.limit, interval, ground, when);
  const [n1, n2] = [total.before, total.after].map((q) =>
    quantityInFull(q, terms('mussel'), interval),
  );
  const counts = `${ground} there were ${n1} in ${when(before)} and ${n2} in ${when(after)}`;
  return total.change === null
    ? `${counts}; there is no ratio of them.`
    : `${counts}: ${changeInWords(total.change, interval)}.`;
}

/** A least increase beyond says that nothing could be told. */
const BEYOND_TELLING = 1000;

function sureSentences(change: ChangeNumbers): string[] {
  const fewer = `The probability that there are fewer is ${probabilityText(change.decline)}.`;
  const least =
    change.least_increase > BEYOND_TELLING
      ? `Pairs of ${terms('survey')} like these would not reliably show even ${formatCount(BEYOND_TELLING)} times as many, or as few.`
      : `Four of five pairs of ${terms('survey')} like these would show a decline by ${wholePercent(1 - change.least_decline)} or an increase by ${wholePercent(change.least_increase - 1)}, and smaller ones less often.`;
  return change.seen
    ? [fewer, least]
    : [
        `No ${shortTerm('changeRatio')} could be seen: the interval holds none as well.`,
        fewer,
        least,
      ];
}

const wholePercent = (share: number): string => formatPercent(Number(share.toFixed(2)));

/** The head, and a row a survey. */
function surveyRows({ surveys, interval }: ChangeFile, units: UnitSystem): string[][] {
  const head = [
    label('survey'),
    'Dives',
    labels('transect'),
    labels('detection'),
    `${label('surveyedHabitat')} (${landAreaUnit(units)})`,
    labels('mussel'),
    ciName(interval),
  ];
  return [
    head,
    ...surveys.map((s) => [
      s.survey,
      s.from === null ? NONE : s.from === s.to ? s.from : `${s.from} to ${s.to}`,
      formatCount(s.transects),
      formatCount(s.detections),
      landArea(s.surveyed_m2, units),
      ...quantityCells(s.detections === 0 ? null : s.mussels),
    ]),
  ];
}

function tablesOf(pair: PairChange, interval: number, units: UnitSystem): PairRead['tables'] {
  const table = (
    caption: string,
    first: string,
    rows: readonly ChangeRow[],
    nameOf: (row: ChangeRow) => string,
  ) => ({
    caption,
    rows: [
      [
        first,
        landAreaUnit(units),
        pair.before,
        pair.after,
        capital(shortTerm('changeRatio')),
        ciName(interval),
        'Chance of fewer',
      ],
      ...rows.map((row) => [
        nameOf(row),
        landArea(row.area_m2, units),
        ...countCells(row, pair, (q) => quantityCells(q)[0]),
        ...(row.limit === null ? ratioCells(row.change) : limitCells(row.limit)),
      ]),
    ],
  });
  const band = bandOf(pair, units);
  return [
    table(
      `By ${term('substrate')}`,
      label('substrate'),
      [...pair.by_substrate, pair.total],
      (row) => (row.substrate === null ? 'All' : row.substrate),
    ),
    table(`By ${term('depth')}`, label('depthBand'), pair.by_depth, band),
    table(
      `By ${term('stratum')}`,
      label('stratum'),
      pair.strata,
      (row) => `${row.substrate}, ${band(row)}`,
    ),
    table(
      `By ${term('treatmentArea')}`,
      label('treatmentArea'),
      pair.areas,
      (row) => row.name ?? NONE,
    ),
  ].filter(({ rows }) => rows.length > 1);
}

function seriesOf({ surveys, pairs }: ChangeFile): Series {
  const points = surveys.flatMap((s) => {
    if (s.mussels === null || s.from === null || s.detections === 0) return [];
    const pair = pairs.find((p) => p.after === s.survey);
    const overlap =
      pair === undefined ? 0 : Math.min(pair.common.share_before, pair.common.share_after);
    const { estimate, lower, upper } = s.mussels;
    return [
      { survey: s.survey, date: s.from, estimate, lower, upper, joined: overlap >= LEAST_OVERLAP },
    ];
  });
  return {
    points,
    described: `${capital(terms('mussel'))} on the ${term('surveyedHabitat')} of each ${term('survey')}: ${listed(
      points.map((p) => `${p.survey} ${quantityCells(p).join(', ')}`),
      'and',
    )}. A line joins ${terms('survey')} whose ${term('surveyedHabitat')} overlaps by ${formatPercent(LEAST_OVERLAP)} or more.`,
  };
}
