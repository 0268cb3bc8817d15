/** Precision against effort as a picture: the curve, its band, and where the plan and the survey stand on it. */

import { extent } from '../../shared/extent.ts';
import { labels, term, terms } from '../../shared/glossary.ts';
import type { PlanFile, PrecisionAhead, PrecisionPoint } from '../../shared/planning.ts';
import { cvText, hoursText } from './plan.ts';
import { NONE } from './quantity.ts';

export interface PrecisionPicture {
  title: string;
  described: string;
  /** rising in transects */
  points: { transects: number; cv: number; lower: number; upper: number }[];
  /** of the plan; null: not estimable */
  plan: { transects: number; cv: number } | null;
  /** of the survey that is added to, a line across; null where nothing is added */
  current: number | null;
  /** of the axes, which are logarithmic */
  transects: { from: number; to: number; ticks: number[]; name: string };
  cv: { from: number; to: number; ticks: { at: number; label: string }[]; name: string };
  /** what the band is, and the ring and the line where they are drawn */
  band: string;
}

const CV_TICKS = [0.01, 0.02, 0.03, 0.05, 0.07, 0.1, 0.15, 0.2, 0.3, 0.5, 0.7, 1];
const TRANSECT_TICKS = [5, 10, 20, 50, 100, 200];
const GREATEST_CV = 1;

/** The curve in figures, for a table. */
export function curveTable({ curve }: Pick<PlanFile, 'curve'>): {
  head: string[];
  rows: string[][];
} {
  return {
    head: [labels('transect'), `expected ${term('cv')}`, 'from', 'to', 'diving'],
    rows: curve.map((p) => [
      String(p.transects),
      cvText(p.cv),
      p.lower === null ? NONE : cvText(p.lower),
      p.upper === null ? NONE : cvText(p.upper),
      p.minutes === null ? NONE : hoursText(p.minutes),
    ]),
  };
}

/** Null where no design tells the total. */
export function precisionPicture(plan: PlanFile): PrecisionPicture | null {
  const { curve, expected_cv: cv, transects, request } = plan;
  const own = cv === null ? null : { transects: transects.length, cv: Math.min(cv, GREATEST_CV) };
  return pictureOf(curve, request.added, request.added ? plan.current_cv : null, own);
}

/** Of a survey by itself, with more dives added to it. */
export function aheadPicture({ curve, current_cv }: PrecisionAhead): PrecisionPicture | null {
  return pictureOf(curve, true, current_cv, null);
}

function pictureOf(
  curve: readonly PrecisionPoint[],
  added: boolean,
  current: number | null,
  own: PrecisionPicture['plan'],
): PrecisionPicture | null {
  const points = curve.flatMap(({ transects, cv, lower, upper }) =>
    cv === null || lower === null || upper === null
      ? []
      : [{ transects, cv, lower, upper: Math.min(upper, GREATEST_CV) }],
  );
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined || first === last) return null;
  const shown = [...points.flatMap((p) => [p.lower, Math.min(p.upper, GREATEST_CV)])];
  if (own !== null) shown.push(own.cv);
  // above the axis there is no line to draw
  const across = current !== null && current <= GREATEST_CV ? current : null;
  if (across !== null) shown.push(across);
  const [least, greatest] = extent(shown);
  const [from, to] = [
    CV_TICKS.findLast((t) => t <= least) ?? least,
    CV_TICKS.find((t) => t >= greatest) ?? GREATEST_CV,
  ];
  const more = added ? 'more ' : '';
  return {
    title: `Expected ${term('cv')} of the lake's total by the number of ${terms('transect')}`,
    described: `The ${term('cv')} falls from ${cvText(first.cv)} with ${first.transects} ${more}${terms('transect')} to ${cvText(last.cv)} with ${last.transects}.`,
    points,
    plan: own,
    current: across,
    transects: {
      from: Math.min(first.transects, own?.transects ?? first.transects),
      to: Math.max(last.transects, own?.transects ?? 0),
      ticks: TRANSECT_TICKS.filter((t) => t >= first.transects && t <= last.transects),
      name: `${more}${terms('transect')}`,
    },
    cv: {
      from,
      to,
      ticks: CV_TICKS.filter((t) => t >= from && t <= to).map((at) => ({ at, label: cvText(at) })),
      name: `expected ${term('cv')}`,
    },
    band: [
      'The band holds eight in ten designs of as many dives.',
      ...(own === null ? [] : ['The ring is this plan.']),
      ...(across === null ? [] : [`The broken line is this survey as it is, ${cvText(across)}.`]),
    ].join(' '),
  };
}
