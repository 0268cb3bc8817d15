/** A plan on its lake as SVG, with scale, north and a key. */

import type { XY } from '../../../shared/survey.ts';
import type { PlanPicture } from '../../present/plan-picture.ts';
import { type Html, html } from '../html.ts';
import { INK, place } from './frame.ts';

const FOOT = 34;
const RING = 4;
/** Letters of names, and the room of one with its margin. */
const FONT = 12;
const LETTER = 7.2;

export function planMap(read: PlanPicture): Html {
  const { width, height, words, scale, scalePx, northDeg } = read;
  const y = height + 14;
  const x = width - 26;
  return html`<svg viewBox="0 0 ${width} ${height + FOOT}" role="img" aria-labelledby="plan-title plan-desc" font-size="13" fill="${INK.text}">
<title id="plan-title">${read.title}</title>
<desc id="plan-desc">${read.described}</desc>
<defs><pattern id="no-dive" width="7" height="7" patternUnits="userSpaceOnUse"><path d="M0 7L7 0M0 0L7 7" stroke="${INK.quiet}" stroke-width="0.8"/></pattern></defs>
<path d="${rings(read.shore)}" fill="${INK.water}" stroke="${INK.quiet}" fill-rule="evenodd"/>
${read.noDive.length === 0 ? null : html`<path d="${rings(read.noDive)}" fill="url(#no-dive)" stroke="${INK.text}" stroke-dasharray="5 3" fill-rule="evenodd"/>`}
<g stroke="${INK.quiet}" stroke-width="1.2">${read.dived.map(([a, b]) => html`<path d="${line(a, b)}"/>`)}</g>
${read.planned.map(({ from, to }) => planned(from, to))}
${names(read.planned)}
<path d="M24 ${y - 4}V${y + 4}H${place(24 + scalePx)}V${y - 4}" fill="none" stroke="${INK.text}"/><text x="${place(32 + scalePx)}" y="${y + 5}">${scale.label}</text>
<g transform="rotate(${place(northDeg)} ${x} ${y})"><path d="M${x} ${y - 12}l6 22l-6 -5l-6 5Z"/></g><text x="${x - 12}" y="${y + 5}" text-anchor="end">${words.north}</text>
</svg>
<ul class="key">${keyLine(planned([4, 12], [24, 4]), words.planned)}${
    read.dived.length === 0
      ? null
      : keyLine(html`<path d="M3 12L25 4" stroke="${INK.quiet}" stroke-width="1.2"/>`, words.dived)
  }${
    read.noDive.length === 0
      ? null
      : keyLine(
          html`<rect x="1" y="1" width="26" height="14" fill="url(#no-dive)" stroke="${INK.text}" stroke-dasharray="5 3"/>`,
          words.noDive,
        )
  }</ul>`;
}

function keyLine(drawing: Html, words: string): Html {
  return html`<li><svg width="28" height="16" viewBox="0 0 28 16" aria-hidden="true">${drawing}</svg>${words}</li>`;
}

function planned(from: XY, to: XY): Html {
  return html`<path d="${line(from, to)}" stroke="${INK.line}" stroke-width="2.4"/><circle cx="${place(from[0])}" cy="${place(from[1])}" r="${RING}" fill="${INK.panel}" stroke="${INK.line}" stroke-width="1.6"/>`;
}

/** Names beside their rings, on the first of four sides where no ring and no other name is; where dives lie close, some are left to the table. */
function names(all: PlanPicture['planned']): Html[] {
  const taken = all.map(({ from: [x, y] }) => ({ x: x - RING, y: y + RING, width: 2 * RING }));
  return all.flatMap(({ name, from: [fx, fy] }) => {
    const width = name.length * LETTER;
    const side = [
      { x: fx + 6, y: fy - 5 },
      { x: fx + 6, y: fy + 13 },
      { x: fx - 6 - width, y: fy - 5 },
      { x: fx - 6 - width, y: fy + 13 },
    ].find(({ x, y }) =>
      taken.every((t) => x > t.x + t.width || t.x > x + width || Math.abs(y - t.y) > FONT),
    );
    if (side === undefined) return [];
    taken.push({ ...side, width });
    return html`<text x="${place(side.x)}" y="${place(side.y)}" font-size="${FONT}" stroke="${INK.panel}" stroke-width="3" paint-order="stroke">${name}</text>`;
  });
}

const line = (a: XY, b: XY): string =>
  `M${place(a[0])} ${place(a[1])}L${place(b[0])} ${place(b[1])}`;

function rings(all: readonly XY[][]): string {
  return all.map((r) => `M${r.map((p) => `${place(p[0])} ${place(p[1])}`).join('L')}Z`).join('');
}
