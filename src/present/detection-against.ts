/**
 * Detection against visibility, depth, plant cover or cluster size where the model has them: a panel an observer, ready
 * to be drawn and tabled, and in words.
 */

import { extent } from '../../shared/extent.ts';
import { capital, gloss, label, type TermId, term, terms } from '../../shared/glossary.ts';
import type { DetectionAgainst, DetectionCovariate, SurveyResult } from '../../shared/result.ts';
import { roundSteps } from '../../shared/round-numbers.ts';
import type { Survey } from '../../shared/survey.ts';
import {
  formatDepth,
  formatDigits,
  formatLength,
  M_PER_FOOT,
  type UnitSystem,
} from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import { byName, observerPlaces } from './observers.ts';
import { intervalName, probabilityText } from './quantity.ts';

export interface AgainstPoint {
  value: number;
  p: number;
  lower: number;
  upper: number;
}

/** One observer's curve, or that of several who share it. */
export interface AgainstCurve {
  /** `Ada`, `Ada, on distance transects` where there are both designs */
  name: string;
  /** of the first observer, by which the mark is chosen */
  place: number;
  points: AgainstPoint[];
  /** a few of the points with their value, to be written beside them */
  marks: (AgainstPoint & { text: string })[];
}

export interface AgainstPicture {
  covariate: DetectionCovariate;
  title: string;
  /** depth runs down, every other covariate to the right */
  down: boolean;
  /** ends of the axis of values, and whether it is logarithmic */
  from: number;
  to: number;
  log: boolean;
  ticks: { value: number; label: string }[];
  /** `depth (m)` */
  axis: string;
  /** drawn; further ones stand in the table alone */
  curves: AgainstCurve[];
  described: string;
  note: string;
  table: { columns: string[]; rows: string[][] };
  /** the marks alone, a row an observer, for narrow columns */
  byObserver: { columns: string[]; rows: string[][] };
}

/** The parts of a result that are read here. */
export type AgainstInput = {
  detectionAgainst: DetectionAgainst[];
  survey: Pick<Survey, 'transects'>;
  analysis: Pick<SurveyResult['analysis'], 'interval'>;
};

/** More panels than this are no picture any more. */
const MOST_PANELS = 8;
const MOST_TICKS = 4;
const MOST_ROWS = 7;
/** Of a curve, values beside it: at its ends and between them, as shares of the axis. */
const MARKED = [0, 0.5, 1];
/** Sizes of clusters on a logarithmic axis. */
const SIZES = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000];

const TERMS: Record<DetectionCovariate, TermId> = {
  plant_cover: 'plantCover',
  depth: 'depth',
  visibility: 'visibility',
  cluster_size: 'clusterSize',
};

/** A picture for each covariate of the detection; none where it has none. */
export function readDetectionAgainst(
  { detectionAgainst, survey, analysis }: AgainstInput,
  units: UnitSystem = 'metric',
): AgainstPicture[] {
  const places = observerPlaces(survey.transects);
  return detectionAgainst.map((record) => {
    const { covariate, at } = record;
    const log = covariate === 'cluster_size';
    const marked = spread(at, log);
    const curves = curvesOf(record, places, marked);
    const [from, to] = [at[0], at[at.length - 1]];
    const name = term(TERMS[covariate]);
    const title = `${label('detectionProbability')} against ${name}`;
    const rows = few(at, MOST_ROWS);
    return {
      covariate,
      title,
      down: covariate === 'depth',
      from,
      to,
      log,
      ticks: ticksOf(covariate, from, to, units),
      axis: axisOf(covariate, units),
      curves: curves.slice(0, MOST_PANELS),
      described: `${title}. ${curves.map((c) => `${c.name}: ${said(c.marks, covariate, units)}`).join('; ')}.`,
      note: noteOf(record, intervalName(analysis.interval), curves.length, units),
      table: {
        columns: [capital(axisOf(covariate, units)), ...curves.map((c) => c.name)],
        rows: rows.map((i) => [
          written(covariate, at[i], units),
          ...curves.map(({ points }) => withLimits(points[i])),
        ]),
      },
      byObserver: {
        columns: [
          label('observer'),
          ...marked.map((i) => `${name} ${written(covariate, at[i], units)}`),
        ],
        rows: curves.map((c) => [c.name, ...c.marks.map(withLimits)]),
      },
    };
  });
}

/** `74 % (58 % to 85 %)` */
function withLimits({ p, lower, upper }: AgainstPoint): string {
  return `${probabilityText(p)} (${probabilityText(lower)} to ${probabilityText(upper)})`;
}

function curvesOf(
  { at, curves }: DetectionAgainst,
  places: ReadonlyMap<string, number>,
  marked: readonly number[],
): AgainstCurve[] {
  const designs = new Set(curves.map((c) => c.design));
  return curves.map(({ observers, design, p, lower, upper }) => {
    const who = listed([...observers].sort(byName), 'and');
    const points = at.map((value, i) => ({ value, p: p[i], lower: lower[i], upper: upper[i] }));
    return {
      name: designs.size > 1 ? `${who}, ${term(design)}` : who,
      place: places.get(observers[0] ?? '') ?? 0,
      points,
      marks: marked.map((i) => ({ ...points[i], text: probabilityText(p[i]) })),
    };
  });
}

/** Indices from first to last, as evenly as whole numbers can, at most so many. */
function few(values: readonly number[], most: number): number[] {
  const last = values.length - 1;
  const steps = Math.min(last, most - 1);
  return Array.from({ length: steps + 1 }, (_, i) => Math.round((last * i) / steps));
}

/** Indices of the values that lie next to the marked places of the axis: as far from each other as they are drawn. */
function spread(values: readonly number[], log: boolean): number[] {
  const along = values.map((v) => (log ? Math.log(v) : v));
  const [from, to] = [along[0], along[along.length - 1]];
  const nearest = MARKED.map((share) => {
    const away = along.map((x) => Math.abs(x - (from + share * (to - from))));
    return away.indexOf(extent(away)[0]);
  });
  return [...new Set(nearest)];
}

/** `91 % at 1.0 m, 78 % at 4.0 m` */
function said(
  marks: AgainstCurve['marks'],
  covariate: DetectionCovariate,
  units: UnitSystem,
): string {
  return marks.map((m) => `${m.text} at ${written(covariate, m.value, units)}`).join(', ');
}

function ticksOf(
  covariate: DetectionCovariate,
  from: number,
  to: number,
  units: UnitSystem,
): AgainstPicture['ticks'] {
  if (covariate === 'cluster_size')
    return SIZES.filter((s) => s >= from && s <= to).map((value) => ({
      value,
      label: formatDigits(value, 6),
    }));
  const unit = units === 'metric' || covariate === 'plant_cover' ? 1 : M_PER_FOOT;
  const steps = roundSteps(from / unit, to / unit, MOST_TICKS);
  return steps
    .map((s) => ({ value: s * unit, label: formatDigits(s, 6) }))
    .filter(({ value }) => value >= from && value <= to);
}

function axisOf(covariate: DetectionCovariate, units: UnitSystem): string {
  const name = term(TERMS[covariate]);
  if (covariate === 'plant_cover') return `${name} (${gloss('plantCover')})`;
  if (covariate === 'cluster_size') return `${name} (${terms('mussel')})`;
  return `${name} (${units === 'metric' ? 'm' : 'ft'})`;
}

function written(covariate: DetectionCovariate, value: number, units: UnitSystem): string {
  if (covariate === 'depth') return formatDepth(value, units);
  if (covariate === 'visibility') return formatLength(value, 2, units);
  return formatDigits(value, covariate === 'cluster_size' ? 6 : 2);
}

function noteOf(
  { curves, held }: DetectionAgainst,
  interval: string,
  count: number,
  units: UnitSystem,
): string {
  const substrates = held.filter((h) => h.kind === 'substrate');
  const values = held.flatMap(({ kind, value }) =>
    kind === 'depth' || kind === 'visibility' || kind === 'plant_cover'
      ? [`${term(TERMS[kind])} ${written(kind, value, units)}`]
      : [],
  );
  if (substrates.length > 0) values.push(`${terms('substrate')} in their shares`);
  const parts = [`Bands: ${interval}s, point by point. Thin lines: the others.`];
  if (values.length > 0)
    parts.push(`Held at the means over the ${term('searchedArea')}: ${values.join(', ')}.`);
  if (held.some((h) => h.kind === 'cluster_size'))
    parts.push(`The ${term('cluster')} is a ${term('singleMussel')}.`);
  if (curves.some((c) => c.design === 'distance'))
    parts.push(
      `On ${term('distance')} ${terms('transect')}: at ${term('perpendicularDistance')} 0.`,
    );
  if (count > MOST_PANELS)
    parts.push(`${MOST_PANELS} of ${count} curves are drawn; all stand in the table.`);
  return parts.join(' ');
}
