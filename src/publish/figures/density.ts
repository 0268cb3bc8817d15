/**
 * Density against depth, a panel a substrate, side by side across the page: depth runs down, density on a log axis, the
 * interval as a band, the other substrates thin behind for comparison, what nobody sampled hatched.
 */

import type { DensityPicture, DrawnCurve } from '../../present/density-curve.ts';
import type { DensityWords } from '../../present/front-page.ts';
import { type Html, html } from '../html.ts';
import {
  type Box,
  bottomAxis,
  FONT,
  INK,
  leftAxis,
  linear,
  logarithmic,
  outline,
  picture,
  shortened,
  strokeOf,
} from './frame.ts';

/** About a page's width in CSS pixels, and letters as large as those of its notes. */
const WIDTH = 720;
const SMALL = 11;
const LEFT = 36;
const RIGHT = 14;
/** The marks at two panels’ ends do not run together: `100` and `0.01`. */
const GAP = 30;
const PANEL = { title: 30, height: 130, below: 26 };
/** Narrower panels have no room for their names. */
const MOST_IN_A_ROW = 6;
/** With fewer decades there is room for a mark at 3 × 10ⁿ too. */
const MARKED_BETWEEN = 2;
const MOST_DEPTH_MARKS = 5;

interface Panel {
  box: Box;
  x: (density: number) => number;
  y: (depthM: number) => number;
}

/** An SVG element in the words of the report's first page. */
export function densityFigure(density: DensityPicture, words: DensityWords): Html {
  const { title, described, axis } = words;
  const { curves } = density;
  const rows = Math.ceil(curves.length / MOST_IN_A_ROW);
  const perRow = Math.ceil(curves.length / rows);
  const rowHeight = PANEL.title + PANEL.height + PANEL.below;
  return picture(
    'density',
    rows * rowHeight + 22,
    title,
    described,
    html`<defs><pattern id="hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="7" stroke="${INK.rule}" stroke-width="2"/></pattern></defs>
${curves.map((_, i) => {
  const column = i % perRow;
  const top = Math.floor(i / perRow) * rowHeight + PANEL.title;
  const width = (WIDTH - LEFT - RIGHT - GAP * (perRow - 1)) / perRow;
  const left = LEFT + column * (width + GAP);
  const box = { left, right: left + width, top, bottom: top + PANEL.height };
  return panel(density, words, i, box, column === 0);
})}
<text x="${(LEFT + WIDTH - RIGHT) / 2}" y="${rows * rowHeight + 14}" text-anchor="middle" fill="${INK.quiet}">${axis}</text>`,
    { width: WIDTH, font: SMALL },
  );
}

function panel(
  density: DensityPicture,
  { mark, names }: DensityWords,
  own: number,
  box: Box,
  withDepths: boolean,
): Html {
  const { curves, fromPower, toPower, bottomM } = density;
  const place: Panel = {
    box,
    x: logarithmic(10 ** fromPower, 10 ** toPower, box.left, box.right),
    y: linear(0, bottomM, box.top, box.bottom),
  };
  const clip = `density-panel-${own}`;
  const depths = depthMarks(bottomM).map((m) => ({
    at: place.y(m),
    label: withDepths ? String(m) : '',
  }));
  const densities = densityMarks(density).map((d) => ({
    at: place.x(d),
    label: mark(d),
  }));
  const one = curves[own];
  return html`<clipPath id="${clip}"><rect x="${box.left}" y="${box.top}" width="${box.right - box.left}" height="${PANEL.height}"/></clipPath>
${hatched(density, place)}
${bottomAxis(box, densities, '')}${leftAxis(box, depths, withDepths ? 'm' : '')}${outline(box)}
${
  one === undefined
    ? null
    : html`<text x="${box.left}" y="${box.top - 10}" font-weight="600">${shortened(names[own] ?? '', ((box.right - box.left) * FONT) / SMALL)}</text>
<g clip-path="url(#${clip})">${band(one, place)}${curves.map((c, i) =>
        i === own
          ? null
          : line(c, place, html`class="other" stroke="${INK.quiet}" stroke-width="0.8"`),
      )}${line(one, place, html`class="own" stroke="${INK.line}" ${strokeOf(own)}`)}</g>`
}
`;
}

function depthMarks(bottomM: number): number[] {
  const stepM = [1, 2, 5, 10, 20, 50, 100].find((s) => bottomM / s <= MOST_DEPTH_MARKS) ?? 200;
  return Array.from({ length: Math.floor(bottomM / stepM) + 1 }, (_, i) => i * stepM);
}

function densityMarks({ fromPower: from, toPower: to }: DensityPicture): number[] {
  const every = Math.ceil((to - from) / 4);
  const marks: number[] = [];
  for (let d = from; d <= to; d++) {
    if ((d - from) % every === 0) marks.push(10 ** d);
    if (to - from <= MARKED_BETWEEN && d < to) marks.push(3 * 10 ** d);
  }
  return marks;
}

/** Depths that nobody sampled. */
function hatched({ unsampled }: DensityPicture, { box, y }: Panel): Html[] {
  return unsampled.map(
    ({ fromM, toM }) =>
      html`<rect x="${box.left}" y="${y(fromM)}" width="${box.right - box.left}" height="${(y(toM) - y(fromM)).toFixed(1)}" fill="url(#hatch)"/>`,
  );
}

/** The confidence interval as an area; depths without limits are skipped. */
function band({ band: points }: DrawnCurve, { x, y }: Panel): Html | null {
  if (points.length < 2) return null;
  const edge = (side: 'lower' | 'upper', order: DrawnCurve['band']) =>
    order.map((p) => `${x(p[side])},${y(p.depthM)}`).join(' ');
  return html`<polygon points="${edge('lower', points)} ${edge('upper', points.toReversed())}" fill="${INK.line}" fill-opacity="0.16"/>`;
}

function line({ line: points }: DrawnCurve, { x, y }: Panel, style: Html): Html {
  return html`<polyline points="${points.map((p) => `${x(p.musselsPerM2)},${y(p.depthM)}`).join(' ')}" fill="none" ${style}/>`;
}
