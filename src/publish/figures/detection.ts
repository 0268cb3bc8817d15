/** What each diver sees, with its interval: a row a diver, divers told apart by shape, belts above distance transects. */

import type { Estimate } from '../../../shared/estimate.ts';
import { formatPercent } from '../../../shared/units.ts';
import { type Html, html } from '../html.ts';
import {
  type Box,
  bottomAxis,
  heading,
  INK,
  labelRoom,
  linear,
  mark,
  picture,
  shortened,
  WIDTH,
} from './frame.ts';

type Observer = NonNullable<Estimate['detection']>['observers'][number];

const ROW = 26;
const TOP = 8;
/** Room for `100 % (100 to 100)`. */
const NUMBERS = 118;
const MOST_LABEL = 120;

const WORDS = { belt: 'on belts', distance: 'at the rope of distance transects' };

/** An SVG element; null when no diver's share was estimated. */
export function detectionFigure(detection: Estimate['detection']): Html | null {
  const observers = detection?.observers ?? [];
  if (!observers.some((o) => o.lower !== null)) return null;
  const names = [...new Set(observers.map((o) => o.observer))];
  const groups = (['belt', 'distance'] as const)
    .map((design) => ({ design, rows: observers.filter((o) => o.design === design) }))
    .filter(({ rows }) => rows.length > 0);
  const left = 8 + labelRoom(names, MOST_LABEL) + 14;
  const height = TOP + (observers.length + groups.length) * ROW;
  const box: Box = { left, right: WIDTH - NUMBERS - 14, top: TOP, bottom: height };
  const x = linear(0, 1, box.left, box.right);
  let y = TOP;
  return picture(
    'detection',
    height + 46,
    'Share of the clusters in the path that each diver sees',
    described(observers),
    html`${bottomAxis(
      box,
      [0, 0.5, 1].map((p) => ({ at: x(p), label: formatPercent(p) })),
      'seen',
    )}${groups.map(({ design, rows }) => {
      y += ROW;
      return html`${heading(WORDS[design], y - 8)}${rows.map((o) => {
        y += ROW;
        return row(o, names.indexOf(o.observer), y - ROW / 2, x, box);
      })}`;
    })}`,
  );
}

function row(o: Observer, shape: number, y: number, x: (p: number) => number, box: Box): Html {
  const whisker =
    o.lower === null || o.upper === null
      ? null
      : html`<line x1="${x(o.lower)}" x2="${x(o.upper)}" y1="${y}" y2="${y}" stroke="${INK.line}" stroke-width="2"/>`;
  return html`<text x="8" y="${y + 5}">${shortened(o.observer, box.left - 22)}</text>${whisker}${mark(shape, x(o.p), y)}<text x="${WIDTH - 4}" y="${y + 5}" text-anchor="end">${numbers(o)}</text>`;
}

const percent = (p: number): string => String(Math.round(p * 100));

function numbers(o: Observer): string {
  const share = `${percent(o.p)} %`;
  return o.lower === null || o.upper === null
    ? `${share}, taken`
    : `${share} (${percent(o.lower)} to ${percent(o.upper)})`;
}

function described(observers: Observer[]): string {
  return `${observers.map((o) => `${o.observer} ${WORDS[o.design]}: ${numbers(o)}`).join('; ')}.`;
}
