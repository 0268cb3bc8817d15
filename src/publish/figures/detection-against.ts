/**
 * Detection against one covariate of the model, a panel an observer: the interval as a band, the others thin behind it,
 * values at a few points. Depth runs down, every other covariate to the right.
 */

import { formatPercent } from '../../../shared/units.ts';
import type { AgainstCurve, AgainstPicture } from '../../present/detection-against.ts';
import { type Html, html } from '../html.ts';
import {
  type Box,
  bottomAxis,
  INK,
  leftAxis,
  linear,
  logarithmic,
  mark,
  outline,
  picture,
  place as rounded,
  shortened,
  WIDTH,
} from './frame.ts';

const LEFT = 50;
const RIGHT = 14;
const GAP = 26;
const PANEL = { title: 28, height: 130, below: 26 };
const SHARES = [0, 0.5, 1];
/** A value stands above its point, below it near the panel's upper edge. */
const VALUE = { above: -10, below: 20, topOfPanel: 28 };

type Place = (at: { value: number; p: number }) => [x: number, y: number];

/** An SVG element. */
export function againstFigure(against: AgainstPicture): Html {
  const { curves, covariate, down, axis } = against;
  const perRow = Math.min(2, curves.length);
  const rowHeight = PANEL.title + PANEL.height + PANEL.below;
  const height = Math.ceil(curves.length / perRow) * rowHeight;
  const width = (WIDTH - LEFT - RIGHT - GAP * (perRow - 1)) / perRow;
  return picture(
    `against-${covariate}`,
    height + 22,
    against.title,
    against.described,
    html`${curves.map((_, i) => {
      const left = LEFT + (i % perRow) * (width + GAP);
      const top = Math.floor(i / perRow) * rowHeight + PANEL.title;
      return panel(
        against,
        i,
        { left, right: left + width, top, bottom: top + PANEL.height },
        i % perRow === 0,
      );
    })}
<text x="${(LEFT + WIDTH - RIGHT) / 2}" y="${height + 14}" text-anchor="middle" fill="${INK.quiet}">${down ? `${axis}, downwards` : axis}</text>`,
  );
}

function panel(against: AgainstPicture, own: number, box: Box, first: boolean): Html {
  const { covariate, curves, down, ticks } = against;
  const place = placeIn(against, box);
  const along = ticks.map((t) => ({ at: place({ value: t.value, p: 0 }), label: t.label }));
  const across = SHARES.map((p) => ({
    at: place({ value: against.from, p }),
    label: formatPercent(p),
  }));
  const [below, beside] = down ? [across, along] : [along, across];
  const clip = `against-${covariate}-${own}`;
  const curve = curves[own];
  return html`<clipPath id="${clip}"><rect x="${box.left}" y="${box.top}" width="${rounded(box.right - box.left)}" height="${PANEL.height}"/></clipPath>
${bottomAxis(
  box,
  below.map(({ at: [x], label }) => ({ at: x, label })),
  '',
)}${leftAxis(
  box,
  beside.map(({ at: [, y], label }) => ({ at: y, label: first ? label : '' })),
  '',
  true,
)}${outline(box)}
<text x="${box.left}" y="${box.top - 9}" font-weight="600">${shortened(curve.name, box.right - box.left)}</text>
<g clip-path="url(#${clip})"><polygon points="${bandOf(curve, place)}" fill="${INK.line}" fill-opacity="0.16"/>${curves.map(
    (other, i) =>
      i === own
        ? null
        : html`<polyline class="other" points="${path(other.points, place)}" fill="none" stroke="${INK.quiet}" stroke-width="0.8"/>`,
  )}<polyline class="own" points="${path(curve.points, place)}" fill="none" stroke="${INK.line}" stroke-width="2"/></g>
${curve.marks.map((at) => value(at, place(at), curve.place, box))}`;
}

function value(at: { text: string }, [x, y]: [number, number], shape: number, box: Box): Html {
  const above = y - box.top > VALUE.topOfPanel;
  const margin = 0.2 * (box.right - box.left);
  const anchor = x < box.left + margin ? 'start' : x > box.right - margin ? 'end' : 'middle';
  return html`${mark(shape, x, y)}<text x="${x}" y="${rounded(y + (above ? VALUE.above : VALUE.below))}" text-anchor="${anchor}" stroke="${INK.panel}" stroke-width="4" paint-order="stroke">${at.text}</text>`;
}

function placeIn({ down, from, to, log }: AgainstPicture, box: Box): Place {
  const scale = log ? logarithmic : linear;
  const along = down ? scale(from, to, box.top, box.bottom) : scale(from, to, box.left, box.right);
  const across = down ? linear(0, 1, box.left, box.right) : linear(0, 1, box.bottom, box.top);
  return (at) => (down ? [across(at.p), along(at.value)] : [along(at.value), across(at.p)]);
}

function bandOf({ points }: AgainstCurve, place: Place): string {
  const limits = (side: 'lower' | 'upper') => points.map((at) => ({ ...at, p: at[side] }));
  return path([...limits('lower'), ...limits('upper').toReversed()], place);
}

function path(points: readonly { value: number; p: number }[], place: Place): string {
  return points.map((at) => place(at).join(',')).join(' ');
}
