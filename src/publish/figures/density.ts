/**
 * Density against depth, a panel a substrate: depth runs down, density on a log axis, the interval as a band, the other
 * substrates thin behind for comparison, what nobody sampled hatched.
 */

import type { DensityCurve } from '../../../shared/result.ts';
import type { Domain } from '../../../shared/survey.ts';
import { formatDigits } from '../../../shared/units.ts';
import { type Html, html } from '../html.ts';
import {
  type Box,
  bottomAxis,
  INK,
  leftAxis,
  linear,
  logarithmic,
  outline,
  picture,
  shortened,
  strokeOf,
  WIDTH,
} from './frame.ts';

const LEFT = 36;
const RIGHT = 14;
const GAP = 30;
const PANEL = { title: 30, height: 176, below: 26 };
/** Bands may widen the axis by this many decades beyond the curves; a wilder band runs off the edge. */
const BAND_DECADES = 1;
/** An axis of more decades than this would press all that matters into a corner. */
const MAX_DECADES = 8;
/** With fewer decades there is room for a mark at 3 × 10ⁿ too. */
const MARKED_BETWEEN = 2;
const MOST_DEPTH_MARKS = 5;

interface Axes {
  /** decades of density */
  from: number;
  to: number;
  depthMarksM: number[];
  bottomM: number;
}

interface Panel extends Axes {
  box: Box;
  x: (density: number) => number;
  y: (depthM: number) => number;
}

/** An SVG element; null when no curve has a density above 0. */
export function densityFigure(curves: DensityCurve[], domain: Domain): Html | null {
  const drawn = curves.filter((c) => c.musselsPerM2.some((d) => d > 0));
  if (drawn.length === 0) return null;
  const axes = axesFor(drawn, domain);
  const perRow = Math.min(2, drawn.length);
  const rowHeight = PANEL.title + PANEL.height + PANEL.below;
  const rows = Math.ceil(drawn.length / perRow);
  return picture(
    'density',
    rows * rowHeight + 22,
    'Density of mussels against depth, by substrate',
    described(drawn),
    html`<defs><pattern id="hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="7" stroke="${INK.rule}" stroke-width="2"/></pattern></defs>
${drawn.map((_, i) => {
  const column = i % perRow;
  const top = Math.floor(i / perRow) * rowHeight + PANEL.title;
  const width = (WIDTH - LEFT - RIGHT - GAP * (perRow - 1)) / perRow;
  const left = LEFT + column * (width + GAP);
  const box = { left, right: left + width, top, bottom: top + PANEL.height };
  return panel(drawn, i, panelOf(box, axes), domain, column === 0);
})}
<text x="${(LEFT + WIDTH - RIGHT) / 2}" y="${rows * rowHeight + 14}" text-anchor="middle" fill="${INK.quiet}">mussels per m², log scale</text>`,
  );
}

function panelOf(box: Box, axes: Axes): Panel {
  return {
    ...axes,
    box,
    x: logarithmic(10 ** axes.from, 10 ** axes.to, box.left, box.right),
    y: linear(0, axes.bottomM, box.top, box.bottom),
  };
}

function panel(
  curves: DensityCurve[],
  own: number,
  place: Panel,
  domain: Domain,
  withDepths: boolean,
): Html {
  const { box, x, y } = place;
  const clip = `density-panel-${own}`;
  const name = curves[own]!.substrate.join('+');
  const depths = place.depthMarksM.map((m) => ({ at: y(m), label: withDepths ? String(m) : '' }));
  return html`<clipPath id="${clip}"><rect x="${box.left}" y="${box.top}" width="${box.right - box.left}" height="${PANEL.height}"/></clipPath>
${hatched(place, domain)}
${bottomAxis(
  box,
  densityMarks(place).map((d) => ({ at: x(d), label: formatDigits(d, 1) })),
  '',
)}${leftAxis(box, depths, withDepths ? 'm' : '')}${outline(box)}
<text x="${box.left}" y="${box.top - 10}" font-weight="600">${shortened(name, box.right - box.left)}</text>
<g clip-path="url(#${clip})">${band(curves[own]!, place)}${curves.map((c, i) =>
    i === own ? null : line(c, place, html`class="other" stroke="${INK.quiet}" stroke-width="0.8"`),
  )}${line(curves[own]!, place, html`class="own" stroke="${INK.line}" ${strokeOf(own)}`)}</g>
`;
}

function axesFor(curves: DensityCurve[], domain: Domain): Axes {
  const positive = (values: number[]) => values.filter((v) => v > 0 && Number.isFinite(v));
  const centre = curves.flatMap((c) => positive(c.musselsPerM2)).map(Math.log10);
  const edges = curves.flatMap((c) => [...positive(c.lower), ...positive(c.upper)]).map(Math.log10);
  const least = Math.min(...centre);
  const most = Math.max(...centre);
  let from = Math.floor(Math.max(Math.min(least, ...edges), least - BAND_DECADES) + 1e-9);
  let to = Math.ceil(Math.min(Math.max(most, ...edges), most + BAND_DECADES) - 1e-9);
  to = Math.max(to, from + 1);
  from = Math.max(from, to - MAX_DECADES);

  const bottomM = Math.max(1, Math.ceil(domain.depthToM + 0.5));
  const stepM = [1, 2, 5, 10, 20, 50, 100].find((s) => bottomM / s <= MOST_DEPTH_MARKS) ?? 200;
  return {
    from,
    to,
    depthMarksM: Array.from({ length: Math.floor(bottomM / stepM) + 1 }, (_, i) => i * stepM),
    bottomM,
  };
}

function densityMarks({ from, to }: Axes): number[] {
  const every = Math.ceil((to - from) / 4);
  const marks: number[] = [];
  for (let d = from; d <= to; d++) {
    if ((d - from) % every === 0) marks.push(10 ** d);
    if (to - from <= MARKED_BETWEEN && d < to) marks.push(3 * 10 ** d);
  }
  return marks;
}

/** Above and below the depths that the survey speaks for. */
function hatched({ box, y, bottomM }: Panel, domain: Domain): Html[] {
  const strips: [number, number][] = [
    [0, Math.max(0, domain.depthFromM)],
    [Math.min(domain.depthToM, bottomM), bottomM],
  ];
  return strips
    .filter(([from, to]) => to > from)
    .map(
      ([from, to]) =>
        html`<rect x="${box.left}" y="${y(from)}" width="${box.right - box.left}" height="${(y(to) - y(from)).toFixed(1)}" fill="url(#hatch)"/>`,
    );
}

/** The interval as an area; depths without limits are skipped. */
function band(curve: DensityCurve, { x, y }: Panel): Html | null {
  const known = curve.depthM
    .map((_, i) => i)
    .filter((i) => curve.upper[i]! > 0 && Number.isFinite(curve.upper[i]!) && curve.lower[i]! >= 0);
  if (known.length < 2) return null;
  const edge = (values: number[], order: number[]) =>
    order.map((i) => `${x(values[i]!)},${y(curve.depthM[i]!)}`).join(' ');
  return html`<polygon points="${edge(curve.lower, known)} ${edge(curve.upper, known.toReversed())}" fill="${INK.line}" fill-opacity="0.16"/>`;
}

function line(curve: DensityCurve, { x, y }: Panel, style: Html): Html {
  const points = curve.depthM
    .map((depthM, i) => [depthM, curve.musselsPerM2[i]!] as const)
    .filter(([, density]) => density > 0)
    .map(([depthM, density]) => `${x(density)},${y(depthM)}`);
  return html`<polyline points="${points.join(' ')}" fill="none" ${style}/>`;
}

function described(curves: DensityCurve[]): string {
  const names = curves.map((c) => c.substrate.join('+')).join(', ');
  return `Depth runs downwards, density to the right on a logarithmic scale; a panel each for ${names}, with the interval as a band. The figures are in the table below.`;
}
