/**
 * Detections by perpendicular distance, with what the fit expects and the detection function: one picture for report and
 * page. The expected counts and the detection function are one curve read on two scales wherever all strips have one
 * width.
 */

import { capital, gloss, label, labels, term, terms } from '../../shared/glossary.ts';
import type { ExpectedByDistance, SurveyResult } from '../../shared/result.ts';
import {
  formatDigits,
  formatLength,
  formatPercent,
  M_PER_FOOT,
  type UnitSystem,
} from '../../shared/units.ts';

export interface DistanceClass {
  fromM: number;
  toM: number;
  /** `0.1 m to 0.2 m` */
  name: string;
  observed: number;
  expected: number;
  observedText: string;
  expectedText: string;
  /** detected per metre (foot) of perpendicular distance: the bar's height, whatever the width of the class */
  observedPerLength: number;
  /** detection function at the middle of the class, in percent */
  detectionText: string;
}

export interface DistancePicture {
  title: string;
  /** `g(y)`, or `p*(y)` */
  symbol: string;
  halfWidthM: number;
  classes: DistanceClass[];
  /** expected detections per metre (foot) at each perpendicular distance */
  curve: { distanceM: number; expectedPerLength: number }[];
  /** the same where the detection function is 1; null where strips differ in width */
  expectedAtOne: number | null;
  /** name of the axis of distances, with its unit */
  axis: string;
  /** name of the axis of heights: `detections per m` */
  heightAxis: string;
  columns: { distance: string; observed: string; expected: string; detection: string };
  described: string;
  /** what bars and line are */
  note: string;
}

const ROUNDED = 'Peaks at 0, at half and at the edge of the strip are signs of rounded distances.';
const TAKEN_BY_CLASS = 'The fit took each distance by its class.';

/** The part of a result that is read here. */
export type DistanceInput = Pick<SurveyResult, 'expectedDetections'>;

/** Null without distance transects, or when nothing was detected on them. */
export function readDistances(
  { expectedDetections }: DistanceInput,
  units: UnitSystem = 'metric',
): DistancePicture | null {
  const by = expectedDetections?.byDistance ?? null;
  if (by === null) return null;
  const last = by.classes.at(-1);
  if (last === undefined) throw new Error('readDistances: got no classes, expected one at least');
  const unitM = units === 'metric' ? 1 : M_PER_FOOT;
  const unit = units === 'metric' ? 'm' : 'ft';
  const symbol = by.independence === 'point' ? 'g(y)' : 'p*(y)';
  const detected = by.classes.reduce((sum, c) => sum + c.observed, 0);
  const distance = term('perpendicularDistance');
  return {
    title: `${labels('detection')} by ${distance}`,
    symbol,
    halfWidthM: last.toM,
    classes: by.classes.map((c) => ({
      ...c,
      name: `${formatLength(c.fromM, 2, units)} to ${formatLength(c.toM, 2, units)}`,
      observedText: String(c.observed),
      expectedText: formatDigits(c.expected, 3),
      observedPerLength: (c.observed / (c.toM - c.fromM)) * unitM,
      detectionText: formatPercent(Number(detectionAt(by, (c.fromM + c.toM) / 2).toFixed(3))),
    })),
    curve: by.curve.map(({ distanceM, detectionsPerM }) => ({
      distanceM,
      expectedPerLength: detectionsPerM * unitM,
    })),
    expectedAtOne: by.perMetreAtOne === null ? null : by.perMetreAtOne * unitM,
    axis: `${distance} (m)`,
    heightAxis: `${terms('detection')} per ${unit}`,
    columns: {
      distance: label('perpendicularDistance'),
      observed: 'Detected',
      expected: 'Expected',
      detection: `${label('detectionFunction')} ${symbol}`,
    },
    described: `${detected} detections from 0 to ${formatLength(last.toM, 2, units)}: ${by.classes
      .map(
        (c) =>
          `${formatLength(c.fromM, 2, units)} to ${formatLength(c.toM, 2, units)}: ${c.observed} detected, ${formatDigits(c.expected, 3)} expected`,
      )
      .join('; ')}.`,
    note: `${capital(distance)}: ${gloss('perpendicularDistance')}. Bars: detected, as high as ${terms('detection')} per ${unit} of it; the number stands above each. Line: expected by the fit.${curveWords(by, symbol)} ${by.takenByClass ? TAKEN_BY_CLASS : ROUNDED}`,
  };
}

/** What the detection function is, and how it is read off the line. */
function curveWords(by: ExpectedByDistance, symbol: string): string {
  const shape =
    by.shape === 'flat'
      ? ', flat: detection does not fall within the strip'
      : by.shape === 'half-normal'
        ? `, ${term('halfNormal')}`
        : `, ${term('hazardRate')}`;
  const what =
    by.independence === 'point'
      ? 'the observers of a transect together, as a share of what they detect on the line'
      : 'the probability that the observers of a transect together detect a cluster';
  const read =
    by.perMetreAtOne === null
      ? `${capital(terms('transect'))} differ in width, so the line steps down where narrower strips end, and the ${term('detectionFunction')} stands in the table.`
      : `On the right-hand scale the same line is the ${term('detectionFunction')} ${symbol}${shape}: ${what}.`;
  return ` ${read}`;
}

/** Between the two places of the curve that lie around it, linear. */
function detectionAt({ curve }: ExpectedByDistance, distanceM: number): number {
  const after = curve.findIndex((c) => c.distanceM >= distanceM);
  const b = curve[after];
  const a = curve[Math.max(0, after - 1)];
  if (a === undefined || b === undefined)
    throw new RangeError(`detectionAt: got ${distanceM} m, expected a distance on the curve`);
  const width = b.distanceM - a.distanceM;
  const t = width === 0 ? 1 : (distanceM - a.distanceM) / width;
  return a.detection + t * (b.detection - a.detection);
}
