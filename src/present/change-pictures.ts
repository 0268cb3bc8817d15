/** Changes and totals of surveys as pictures with axes, and the same in rows. */

import type { ChangeFile } from '../../shared/change.ts';
import { extent } from '../../shared/extent.ts';
import { capital, labels, shortTerm, term, terms } from '../../shared/glossary.ts';
import { formatCount } from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import type { ChangeRead, PairRead } from './change.ts';
import { type ChangeBar, reachOf } from './change-bars.ts';
import { ciName } from './quantity.ts';

interface LogAxis {
  from: number;
  to: number;
  ticks: { at: number; label: string }[];
  name: string;
}

export interface RatioPicture {
  title: string;
  described: string;
  note: string;
  /** limits that lie beyond the axis, or do not exist, stand at its end; without a ratio the line is all there is, up to `stop` */
  bars: {
    name: string;
    kind: ChangeBar['kind'];
    ratio: number | null;
    lower: number;
    upper: number;
    stop: number | null;
  }[];
  axis: LogAxis;
  /** the same in words: of what, times as many */
  head: [string, string];
  rows: [string, string][];
}

export interface SeriesPicture {
  title: string;
  described: string;
  note: string;
  points: { survey: string; date: string; estimate: number; lower: number; upper: number }[];
  /** places in `points` of the two ends of a line */
  lines: [number, number][];
  axis: LogAxis;
}

/** What a line is that has no mark. */
export const LIMIT_LINE =
  'nothing was detected in one of the surveys, and the line reaches as far as the ratio can';
/** Ratios beyond stand at the edge. */
const WIDEST = 1000;
/** The axis shows half and twice as many in any case. */
const LEAST_SPAN = 2;
const MOST_TICKS = 7;

/** Null where no part has a ratio. */
export function ratioPicture({ title, bars }: PairRead, interval: number): RatioPicture | null {
  if (bars.length === 0) return null;
  const within = (x: number | null): number | null =>
    x === null ? null : Math.min(WIDEST, Math.max(1 / WIDEST, x));
  const shown = bars.map(({ name, kind, ratio, lower, upper }) => ({
    name,
    kind,
    ratio: within(ratio),
    lower: within(lower),
    upper: within(upper),
    stop: ratio === null ? within(lower ?? upper) : null,
  }));
  const [from, to] = extent([...shown.flatMap(reachOf), 1 / LEAST_SPAN, LEAST_SPAN]);
  const isLimited = shown.some((b) => b.ratio === null);
  return {
    title: `${capital(shortTerm('changeRatio'))}, ${title}`,
    described: bars.map((b) => b.words).join('; '),
    note: `Lines: ${ciName(interval)}.${isLimited ? ` A line with a stop and no mark: ${LIMIT_LINE}.` : ''} Left of the dashed line there are fewer, right of it more.`,
    bars: shown.map((b) => ({ ...b, lower: b.lower ?? from, upper: b.upper ?? to })),
    axis: { from, to, ticks: logSteps(from, to), name: 'times as many' },
    head: ['Part', capital(term('changeRatio'))],
    rows: bars.map(({ name, words }) => [name, words.slice(`${name}: `.length)]),
  };
}

/** Null with fewer than two surveys that have a total. */
export function seriesPicture(
  { series }: ChangeRead,
  { interval }: ChangeFile,
): SeriesPicture | null {
  if (series.points.length < 2) return null;
  const points = series.points.map(({ survey, date, estimate, lower, upper }) => ({
    survey,
    date,
    estimate,
    lower: lower ?? estimate,
    upper: upper ?? estimate,
  }));
  const seen = points.flatMap((p) => [p.lower, p.estimate, p.upper]).filter((n) => n > 0);
  if (seen.length === 0) return null;
  const [least, most] = extent(seen);
  const [from, to] = [least / 1.15, most * 1.15];
  return {
    title: `${labels('mussel')} in ${listed(
      points.map((p) => p.survey),
      'and',
    )}`,
    described: series.described,
    note: `On the ${term('surveyedHabitat')} of each ${term('survey')}, with its ${ciName(interval)}. A dashed line joins ${terms('survey')} whose ${term('surveyedHabitat')} overlaps enough.`,
    points: points.map((p) => ({ ...p, lower: Math.max(from, p.lower) })),
    lines: series.points.flatMap((p, i): [number, number][] =>
      i > 0 && p.joined ? [[i - 1, i]] : [],
    ),
    axis: { from, to, ticks: logSteps(from, to), name: terms('mussel') },
  };
}

/** 1, 2 and 5 times powers of ten, or those powers alone where these would be many. */
function logSteps(from: number, to: number): LogAxis['ticks'] {
  for (const steps of [[1, 1.5, 2, 3, 5, 7], [1, 2, 5], [1, 3], [1]]) {
    const ticks: number[] = [];
    for (let decade = Math.floor(Math.log10(from)); 10 ** decade <= to; decade++)
      for (const step of steps) {
        const at = Number((step * 10 ** decade).toPrecision(6));
        if (at >= from && at <= to) ticks.push(at);
      }
    if (ticks.length <= MOST_TICKS) return ticks.map((at) => ({ at, label: tickLabel(at) }));
  }
  return [{ at: from, label: tickLabel(from) }];
}

const tickLabel = (at: number): string => (at >= 1000 ? formatCount(at) : String(at));
