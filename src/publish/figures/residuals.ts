/**
 * Randomised quantile residuals of the segments: against depth (which runs down) and against the expected count. Under
 * the right model they lie like standard normal numbers, wherever one looks.
 */

import { extent } from '../../../shared/extent.ts';
import { roundSteps } from '../../../shared/round-numbers.ts';
import { formatCount } from '../../../shared/units.ts';
import {
  type ResidualPoint,
  type Residuals,
  residualGloss,
  thinned,
} from '../../present/residuals.ts';
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
  type Tick,
  tickLabel,
  WIDTH,
} from './frame.ts';

const BOX: Box = { left: 44, right: WIDTH - 12, top: 28, bottom: 236 };
const HEIGHT = BOX.bottom + 72;
/** More points than this are thinned, the far ones kept: a file stays light and a cloud is a cloud. */
const MOST_POINTS = 3000;
/** Expected counts below this stand at the axis' end. */
const LEAST_EXPECTED = 1e-4;

/** Two SVG elements, against depth and against the expected count. */
export function residualFigures(residuals: Residuals): { depth: Html; expected: Html } {
  const scene = {
    points: thinned(residuals, MOST_POINTS),
    reach: Math.ceil(residuals.reach),
    limits: [-residuals.limit, 0, residuals.limit],
    described: residuals.described,
  };
  return { depth: byDepth(scene), expected: byExpected(scene) };
}

interface Scene {
  points: ResidualPoint[];
  reach: number;
  /** where the lines stand */
  limits: number[];
  described: string;
}

/** Words under the figures. */
export function residualCaption(residuals: Residuals): string {
  const all = residuals.points.length;
  const drawn = thinned(residuals, MOST_POINTS).length;
  const few =
    drawn < all
      ? ` Drawn: ${formatCount(drawn)} of ${formatCount(all)} segments, the far ones all.`
      : '';
  return `One dot a segment, large where something was detected. ${residualGloss(residuals)}${few}`;
}

function byDepth({ points, reach, limits, described }: Scene): Html {
  const depths = roundSteps(0, Math.max(extent(points.map((p) => p.depthM))[1], 1), 6);
  const y = linear(0, depths.at(-1) ?? 1, BOX.top, BOX.bottom);
  const x = linear(-reach, reach, BOX.left, BOX.right);
  const lines = limits.map(
    (r) =>
      html`<line x1="${x(r)}" x2="${x(r)}" y1="${BOX.top}" y2="${BOX.bottom}" stroke="${INK.quiet}" ${dash(r)}/>`,
  );
  return picture(
    'residuals-depth',
    HEIGHT - 22,
    'Residuals of the segments against depth',
    `Depth runs downwards. ${described}`,
    html`${leftAxis(BOX, ticks(depths, y), 'depth, m')}${bottomAxis(BOX, ticks(residualSteps(reach), x), 'residual (to the left: fewer detected)', false)}${outline(BOX)}${lines}${dots(points, (p) => `${x(p.residual)} ${y(p.depthM)}`)}`,
  );
}

function byExpected({ points, reach, limits, described }: Scene): Html {
  const values = points.map((p) => Math.max(p.expected, LEAST_EXPECTED));
  const [least, most] = extent(values);
  const from = Math.floor(Math.log10(least) + 1e-9);
  const to = Math.max(from + 1, Math.ceil(Math.log10(most) - 1e-9));
  const x = logarithmic(10 ** from, 10 ** to, BOX.left, BOX.right);
  const y = linear(-reach, reach, BOX.bottom, BOX.top);
  const decades = Array.from({ length: to - from + 1 }, (_, i) => from + i);
  const lines = limits.map(
    (r) =>
      html`<line x1="${BOX.left}" x2="${BOX.right}" y1="${y(r)}" y2="${y(r)}" stroke="${INK.quiet}" ${dash(r)}/>`,
  );
  return picture(
    'residuals-expected',
    HEIGHT - 22,
    'Residuals of the segments against the expected count',
    described,
    html`${leftAxis(BOX, ticks(residualSteps(reach), y), 'residual (below 0: fewer detected)')}${bottomAxis(
      BOX,
      decades.map((d) => ({ at: x(10 ** d), label: decadeLabel(d) })),
      'clusters expected on the segment, log scale',
      false,
    )}${outline(BOX)}${lines}${dots(points, (p) => `${x(Math.max(p.expected, LEAST_EXPECTED))} ${y(p.residual)}`)}`,
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
function dots(points: ResidualPoint[], at: (p: ResidualPoint) => string): Html {
  const path = (some: ResidualPoint[]) => some.map((p) => `M${at(p)}h0`).join('');
  const draw = (some: ResidualPoint[], width: number) =>
    some.length === 0
      ? null
      : html`<path d="${path(some)}" fill="none" stroke="${INK.line}" stroke-opacity="0.6" stroke-width="${width}" stroke-linecap="round"/>`;
  return html`${draw(
    points.filter((p) => p.detected === 0),
    3,
  )}${draw(
    points.filter((p) => p.detected > 0),
    6,
  )}`;
}
