/**
 * Perpendicular distances of the detections: a bar a class, as high as detections per metre, its number above it; what the
 * fit expects; and, where one scale has both, the detection function on the scale to the right.
 */

import { extent } from '../../../shared/extent.ts';
import { roundSteps } from '../../../shared/round-numbers.ts';
import { formatPercent } from '../../../shared/units.ts';
import { plain } from '../../../shared/words.ts';
import type { DistancePicture } from '../../present/detection-function.ts';
import { type Html, html } from '../html.ts';
import {
  type Box,
  bottomAxis,
  INK,
  leftAxis,
  linear,
  outline,
  picture,
  place,
  tickLabel,
  WIDTH,
} from './frame.ts';

const BOX: Box = { left: 54, right: WIDTH - 52, top: 28, bottom: 216 };
const MOST_LIMITS = 6;
const LEGEND_Y = BOX.bottom + 62;

/** An SVG element; null without distance transects. */
export function distanceFigure(distances: DistancePicture | null): Html | null {
  if (distances === null) return null;
  const { classes, curve, expectedAtOne, halfWidthM } = distances;
  const most = extent([
    1,
    expectedAtOne ?? 0,
    ...classes.map((c) => c.observedPerLength),
    ...curve.map((c) => c.expectedPerLength),
  ])[1];
  const steps = roundSteps(0, most, 4);
  const y = linear(0, steps.at(-1) ?? most, BOX.bottom, BOX.top);
  const x = linear(0, halfWidthM, BOX.left, BOX.right);
  return picture(
    'distances',
    LEGEND_Y + 12,
    distances.title,
    distances.described,
    html`${leftAxis(
      BOX,
      steps.map((s) => ({ at: y(s), label: tickLabel(s) })),
      distances.heightAxis,
      true,
    )}
${classes.map((c) => html`<rect class="observed" x="${x(c.fromM)}" y="${y(c.observedPerLength)}" width="${place(x(c.toM) - x(c.fromM))}" height="${place(BOX.bottom - y(c.observedPerLength))}" fill="${INK.water}" stroke="${INK.quiet}"/>`)}
${bottomAxis(
  BOX,
  namedLimits(classes).map((m) => ({ at: x(m), label: plain(Number(m.toFixed(3))) })),
  distances.axis,
  false,
)}
${outline(BOX)}
<polyline points="${curve.map((c) => `${x(c.distanceM)},${y(c.expectedPerLength)}`).join(' ')}" fill="none" stroke="${INK.text}" stroke-width="2"/>
${classes.map((c) => html`<text class="count" x="${place((x(c.fromM) + x(c.toM)) / 2)}" y="${place(y(c.observedPerLength) - 4)}" text-anchor="middle" stroke="${INK.panel}" stroke-width="3" paint-order="stroke">${c.observedText}</text>`)}
${expectedAtOne === null ? null : scaleOfDetection(distances.symbol, (p) => y(p * expectedAtOne))}
${legend(distances)}`,
  );
}

/** Limits of the classes as far as there is room: all of a few, every second of many. */
function namedLimits(classes: DistancePicture['classes']): number[] {
  const every = Math.ceil(classes.length / MOST_LIMITS);
  return [0, ...classes.map((c) => c.toM)].filter((_, i) => i % every === 0);
}

/** The same curve read as the detection function. */
function scaleOfDetection(symbol: string, y: (p: number) => number): Html {
  const ticks = [0, 0.5, 1].map(
    (p) =>
      html`<line x1="${BOX.right}" x2="${BOX.right + 4}" y1="${y(p)}" y2="${y(p)}" stroke="${INK.quiet}"/><text x="${BOX.right + 7}" y="${place(y(p) + 5)}">${formatPercent(p)}</text>`,
  );
  return html`<g fill="${INK.quiet}">${ticks}<text x="${WIDTH - 4}" y="${BOX.top - 10}" text-anchor="end">${symbol}</text></g>`;
}

function legend({ columns }: DistancePicture): Html {
  const y = LEGEND_Y;
  const x = BOX.left;
  return html`<rect x="${x}" y="${y - 7}" width="22" height="12" fill="${INK.water}" stroke="${INK.quiet}"/><text x="${x + 30}" y="${y + 4}">${columns.observed.toLowerCase()}</text><line x1="${x + 106}" x2="${x + 128}" y1="${y - 1}" y2="${y - 1}" stroke="${INK.text}" stroke-width="2"/><text x="${x + 136}" y="${y + 4}">${columns.expected.toLowerCase()}</text>`;
}
