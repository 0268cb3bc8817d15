/**
 * What the report's figures share: one size of drawing, scales, axes, marks, and the words for readers who do not see it.
 * Nothing is told by colour alone: found against expected, divers and depths differ by shape, fill and line style.
 */

import { extent } from '../../../shared/extent.ts';
import { formatDigits } from '../../../shared/units.ts';
import { type Html, html } from '../html.ts';

export const INK = {
  line: '#0f5f6b',
  text: '#1c2733',
  quiet: '#55616e',
  rule: '#d9d4c7',
  water: '#dfe8ea',
  panel: '#fffdf8',
};

/** Drawn 340 px wide or more, on a phone and two side by side on a page: letters of FONT are then 12 px. */
export const WIDTH = 400;
export const FONT = 14;
/** Mean width of a letter of FONT in a sans-serif, rounded up, so that labels have room. */
const LETTER = 7.4;

export interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

export interface Tick {
  at: number;
  label: string;
}

/** An SVG element with its name and its description; `name` is unique within the report. */
export function picture(
  name: string,
  height: number,
  title: string,
  description: string,
  body: Html,
  { width, font }: { width: number; font: number } = { width: WIDTH, font: FONT },
): Html {
  return html`<svg class="figure${width > WIDTH ? ' wide' : ''}" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${name}-title ${name}-desc" font-size="${font}" fill="${INK.text}">
<title id="${name}-title">${title}</title>
<desc id="${name}-desc">${description}</desc>
${body}
</svg>`;
}

/** From values to places, to a tenth of a unit. */
export function linear(
  from: number,
  to: number,
  start: number,
  end: number,
): (x: number) => number {
  return (x) => place(start + ((x - from) / (to - from)) * (end - start));
}

/** The same on a log scale; `from` and `to` above 0. */
export function logarithmic(
  from: number,
  to: number,
  start: number,
  end: number,
): (x: number) => number {
  const scale = linear(Math.log10(from), Math.log10(to), start, end);
  return (x) => scale(Math.log10(Math.max(x, Number.MIN_VALUE)));
}

export function place(x: number): number {
  return Number(x.toFixed(1));
}

export function tickLabel(x: number): string {
  return formatDigits(x, 6);
}

/** `0.01`, `1`, `10,000` for −2, 0, 4. */
export function decadeLabel(decade: number): string {
  if (decade < 0) return (10 ** decade).toFixed(-decade);
  return (10 ** decade).toLocaleString('en', { maximumFractionDigits: 0 });
}

/** Ticks and their name under the box; with `rules`, lines through it. */
export function bottomAxis(box: Box, ticks: Tick[], name: string, rules = true): Html {
  const y = box.bottom;
  return html`<g fill="${INK.quiet}" text-anchor="middle">${ticks.map(
    ({ at, label }) =>
      html`<line x1="${at}" x2="${at}" y1="${rules ? box.top : y}" y2="${y + 4}" stroke="${INK.rule}"/><text x="${at}" y="${y + 19}">${label}</text>`,
  )}${name === '' ? null : html`<text x="${place((box.left + box.right) / 2)}" y="${y + 38}">${name}</text>`}</g>`;
}

/** Ticks left of the box, and the name of the axis above it; with `rules`, lines through it. */
export function leftAxis(box: Box, ticks: Tick[], name: string, rules = false): Html {
  return html`<g fill="${INK.quiet}">${name === '' ? null : html`<text x="4" y="${box.top - 10}">${name}</text>`}${ticks.map(
    ({ at, label }) =>
      html`<line x1="${box.left - 4}" x2="${rules ? box.right : box.left}" y1="${at}" y2="${at}" stroke="${INK.rule}"/><text x="${box.left - 7}" y="${place(at + 5)}" text-anchor="end">${label}</text>`,
  )}</g>`;
}

/** A line of its own above the rows that it names, kept readable over rules. */
export function heading(text: string, y: number): Html {
  return html`<text x="8" y="${y}" fill="${INK.quiet}" stroke="${INK.panel}" stroke-width="4" paint-order="stroke">${text}</text>`;
}

export function outline(box: Box): Html {
  return html`<rect x="${box.left}" y="${box.top}" width="${place(box.right - box.left)}" height="${place(box.bottom - box.top)}" fill="none" stroke="${INK.rule}"/>`;
}

/** Dash patterns in the order in which lines come; with more lines than patterns they get thicker. */
const DASHES = ['', '7 4', '2 3', '12 3 2 3', '14 5', '7 3 2 3 2 3', '1 5'];

export function strokeOf(index: number): Html {
  const width = 2 + Math.floor(index / DASHES.length);
  return html`stroke-width="${width}" stroke-dasharray="${DASHES[index % DASHES.length]}"`;
}

/** A disc, square, triangle or diamond about a point: the shapes by which divers are told apart. */
export function mark(shape: number, x: number, y: number, filled = true): Html {
  const paint = html`fill="${filled ? INK.line : INK.panel}" stroke="${INK.line}" stroke-width="1.6"`;
  const corners = (points: [number, number][]) =>
    html`<polygon points="${points.map(([dx, dy]) => `${place(x + dx)},${place(y + dy)}`).join(' ')}" ${paint}/>`;
  switch (shape % 4) {
    case 0:
      return html`<circle cx="${x}" cy="${y}" r="5" ${paint}/>`;
    case 1:
      return corners([
        [-4.5, -4.5],
        [4.5, -4.5],
        [4.5, 4.5],
        [-4.5, 4.5],
      ]);
    case 2:
      return corners([
        [0, -6],
        [5.5, 4.5],
        [-5.5, 4.5],
      ]);
    default:
      return corners([
        [0, -6.5],
        [6.5, 0],
        [0, 6.5],
        [-6.5, 0],
      ]);
  }
}

/** Room that a text takes. */
export function textWidth(text: string): number {
  return Math.ceil(text.length * LETTER);
}

/** Cut in the middle to the room there is: names differ at their ends. The whole text stands in the description. */
export function shortened(text: string, room: number): string {
  const letters = Math.max(3, Math.floor(room / LETTER));
  if (text.length <= letters) return text;
  const tail = Math.floor((letters - 1) / 2);
  return `${text.slice(0, letters - 1 - tail)}…${text.slice(text.length - tail)}`;
}

/** Room for the longest of these labels, within limits. */
export function labelRoom(labels: string[], most: number): number {
  return Math.min(most, extent([0, ...labels.map(textWidth)])[1]);
}
