/**
 * Randomised quantile residuals of the segments: against depth (which runs down) and against the expected count. Under
 * the right model they scatter like standard normal numbers, wherever one looks.
 */

import { normalQuantile } from '../../../models/numbers/special.ts';
import type { SurveyResult } from '../../../shared/result.ts';
import { formatCount, formatPercent } from '../../../shared/units.ts';
import { type Html, html } from '../html.ts';
import {
  type Box,
  bottomAxis,
  decadeLabel,
  INK,
  leftAxis,
  linear,
  logarithmic,
  outline,
  picture,
  roundSteps,
  type Tick,
  tickLabel,
  WIDTH,
} from './frame.ts';

const BOX: Box = { left: 44, right: WIDTH - 12, top: 28, bottom: 236 };
const HEIGHT = BOX.bottom + 72;
/** The share of residuals that the dashed lines take in. */
const WITHIN = 0.95;
const LIMIT = normalQuantile((1 + WITHIN) / 2);
/** An axis is at least so wide to either side. */
const LEAST_REACH = 3;
/** More points than this are thinned, the far ones kept: a file stays light and a cloud is a cloud. */
const MOST_POINTS = 3000;
/** Expected counts below this stand at the axis' end. */
const LEAST_EXPECTED = 1e-4;

interface Point {
  residual: number;
  expected: number;
  depthM: number;
  found: number;
}

export type ResidualView = Pick<SurveyResult, 'checks' | 'segments'>;

/** Two SVG elements, against depth and against the expected count; null without residuals. */
export function residualFigures(view: ResidualView): { depth: Html; expected: Html } | null {
  const all = pointsOf(view);
  if (all.length === 0) return null;
  const shown = thinned(all);
  const reach = Math.max(LEAST_REACH, Math.ceil(Math.max(...all.map((p) => Math.abs(p.residual)))));
  const words = described(all);
  return { depth: byDepth(shown, reach, words), expected: byExpected(shown, reach, words) };
}

/** Words under the figures. */
export function residualCaption(view: ResidualView): string {
  const all = pointsOf(view);
  const drawn = thinned(all).length;
  const few =
    drawn < all.length
      ? ` Drawn: ${formatCount(drawn)} of ${formatCount(all.length)} segments, the far ones all.`
      : '';
  return `One dot a segment, large where something was found. Under the right model ${formatPercent(WITHIN)} lie between the dashed lines, with no pattern; ${share(all)} do.${few}`;
}

function pointsOf({ checks, segments }: ResidualView): Point[] {
  return (checks?.residuals ?? []).flatMap((residual, i) => {
    const segment = segments[i];
    if (residual === null || segment === undefined) return [];
    const { depthM, detections } = segment;
    return [{ residual, expected: checks!.expected[i]!, depthM, found: detections.length }];
  });
}

function thinned(points: Point[]): Point[] {
  if (points.length <= MOST_POINTS) return points;
  const every = Math.ceil(points.length / MOST_POINTS);
  return points.filter((p, i) => i % every === 0 || Math.abs(p.residual) > LEAST_REACH);
}

function byDepth(points: Point[], reach: number, words: string): Html {
  const depths = roundSteps(0, Math.max(...points.map((p) => p.depthM), 1), 6);
  const y = linear(0, depths.at(-1)!, BOX.top, BOX.bottom);
  const x = linear(-reach, reach, BOX.left, BOX.right);
  const limits = [-LIMIT, 0, LIMIT].map(
    (r) =>
      html`<line x1="${x(r)}" x2="${x(r)}" y1="${BOX.top}" y2="${BOX.bottom}" stroke="${INK.quiet}" ${dash(r)}/>`,
  );
  return picture(
    'residuals-depth',
    HEIGHT - 22,
    'Residuals of the segments against depth',
    `Depth runs downwards. ${words}`,
    html`${leftAxis(BOX, ticks(depths, y), 'depth, m')}${bottomAxis(BOX, ticks(residualSteps(reach), x), 'residual (to the left: fewer found)', false)}${outline(BOX)}${limits}${dots(points, (p) => `${x(p.residual)} ${y(p.depthM)}`)}`,
  );
}

function byExpected(points: Point[], reach: number, words: string): Html {
  const values = points.map((p) => Math.max(p.expected, LEAST_EXPECTED));
  const from = Math.floor(Math.log10(Math.min(...values)) + 1e-9);
  const to = Math.max(from + 1, Math.ceil(Math.log10(Math.max(...values)) - 1e-9));
  const x = logarithmic(10 ** from, 10 ** to, BOX.left, BOX.right);
  const y = linear(-reach, reach, BOX.bottom, BOX.top);
  const decades = Array.from({ length: to - from + 1 }, (_, i) => from + i);
  const limits = [-LIMIT, 0, LIMIT].map(
    (r) =>
      html`<line x1="${BOX.left}" x2="${BOX.right}" y1="${y(r)}" y2="${y(r)}" stroke="${INK.quiet}" ${dash(r)}/>`,
  );
  return picture(
    'residuals-expected',
    HEIGHT - 22,
    'Residuals of the segments against the expected count',
    words,
    html`${leftAxis(BOX, ticks(residualSteps(reach), y), 'residual (below 0: fewer found)')}${bottomAxis(
      BOX,
      decades.map((d) => ({ at: x(10 ** d), label: decadeLabel(d) })),
      'clusters expected on the segment, log scale',
      false,
    )}${outline(BOX)}${limits}${dots(points, (p) => `${x(Math.max(p.expected, LEAST_EXPECTED))} ${y(p.residual)}`)}`,
  );
}

const ticks = (values: number[], at: (x: number) => number): Tick[] =>
  values.map((v) => ({ at: at(v), label: tickLabel(v) }));

function residualSteps(reach: number): number[] {
  const step = reach <= 4 ? 1 : 2;
  const each = Math.floor(reach / step);
  return Array.from({ length: 2 * each + 1 }, (_, i) => (i - each) * step);
}

const dash = (r: number): Html => (r === 0 ? html`` : html`stroke-dasharray="4 4"`);

/** Strokes of no length with round ends: a fifth of the bytes of circles. */
function dots(points: Point[], at: (p: Point) => string): Html {
  const path = (some: Point[]) => some.map((p) => `M${at(p)}h0`).join('');
  const draw = (some: Point[], width: number) =>
    some.length === 0
      ? null
      : html`<path d="${path(some)}" fill="none" stroke="${INK.line}" stroke-opacity="0.6" stroke-width="${width}" stroke-linecap="round"/>`;
  return html`${draw(
    points.filter((p) => p.found === 0),
    3,
  )}${draw(
    points.filter((p) => p.found > 0),
    6,
  )}`;
}

function share(points: Point[]): string {
  const inside = points.filter((p) => Math.abs(p.residual) <= LIMIT).length;
  return formatPercent(Number((inside / points.length).toFixed(2)));
}

function described(points: Point[]): string {
  const residuals = points.map((p) => p.residual);
  const n = formatCount(points.length);
  const segments = points.length === 1 ? '1 segment' : `${n} segments`;
  return `${segments}; residuals from ${signed(Math.min(...residuals))} to ${signed(Math.max(...residuals))}, ${share(points)} of them within ${LIMIT.toFixed(2)} of 0.`;
}

const signed = (x: number): string => x.toFixed(1).replace('-', '−');
