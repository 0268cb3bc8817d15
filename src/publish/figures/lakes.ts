/** Lakes of a programme: in the order of their density, and where they lie. */

import { extent } from '../../../shared/extent.ts';
import type { BatchRead, LakeBar } from '../../present/batch.ts';
import { type Html, html } from '../html.ts';
import {
  type Box,
  bottomAxis,
  decadeLabel,
  INK,
  labelRoom,
  logarithmic,
  mark,
  picture,
  place,
  shortened,
  WIDTH,
} from './frame.ts';

const ROW = 18;
const TOP = 6;
const MOST_LABEL = 150;
/** More lakes are drawn without their names, a line each. */
const MOST_NAMED = 60;
const THIN = 6;

/** An SVG element; null without a lake that has a density. */
export function lakesByDensity(bars: readonly LakeBar[], title: string): Html | null {
  if (bars.length === 0) return null;
  const named = bars.length <= MOST_NAMED;
  const row = named ? ROW : THIN;
  const ends = bars.flatMap((b) => [b.lower ?? b.estimate, b.estimate, b.upper ?? b.estimate]);
  const [least, most] = extent(ends.filter((v) => v > 0));
  const [from, to] = [Math.floor(Math.log10(least)), Math.ceil(Math.log10(most) + 1e-9)];
  const left = named
    ? 18 +
      labelRoom(
        bars.map((b) => b.name),
        MOST_LABEL,
      )
    : 18;
  const height = TOP + bars.length * row;
  const box: Box = { left, right: WIDTH - 14, top: TOP, bottom: height };
  const x = logarithmic(10 ** from, 10 ** Math.max(to, from + 1), box.left, box.right);
  const decades = Array.from({ length: Math.max(to, from + 1) - from + 1 }, (_, i) => from + i);
  return picture(
    'lakes-by-density',
    height + 46,
    title,
    bars.map((b) => b.words).join('; '),
    html`${bottomAxis(
      box,
      decades.map((d) => ({ at: x(10 ** d), label: decadeLabel(d) })),
      'mussels per m²',
    )}${bars.map((b, i) => {
      const y = place(TOP + (i + 0.5) * row);
      const limits =
        b.upper === null
          ? null
          : html`<line x1="${x(b.lower ?? b.estimate)}" x2="${x(b.upper)}" y1="${y}" y2="${y}" stroke="${INK.line}" stroke-width="${named ? 2 : 1}"/>`;
      const point = named
        ? mark(0, x(b.estimate), y)
        : html`<circle cx="${x(b.estimate)}" cy="${y}" r="2" fill="${INK.line}"/>`;
      return html`${named ? html`<text x="8" y="${place(y + 5)}" font-size="12">${shortened(b.name, box.left - 18)}</text>` : null}${limits}${point}`;
    })}`,
  );
}

const MAP = { side: 360, room: 14 };

/** Places as dots where mussels were found, open rings where none were; null with fewer than two, and when all are one. */
export function lakesMap(places: BatchRead['places'], title: string): Html | null {
  if (places.length < 2) return null;
  const middle = (places.reduce((sum, p) => sum + p.at[1], 0) / places.length) * (Math.PI / 180);
  const at = places.map(({ at: [lon, lat] }): [number, number] => [lon * Math.cos(middle), lat]);
  const [west, east] = extent(at.map(([x]) => x));
  const [south, north] = extent(at.map(([, y]) => y));
  const span = Math.max(east - west, north - south);
  if (span === 0) return null;
  const inner = MAP.side - 2 * MAP.room;
  const x = (v: number): number => place(MAP.room + ((v - west) / span) * inner);
  const y = (v: number): number => place(MAP.room + ((north - v) / span) * inner);
  return picture(
    'lakes-map',
    MAP.side,
    title,
    `${places.map((p) => p.name).join(', ')}. North is up; a filled dot where mussels were found, an open one where none were detected, a square where there is no number.`,
    html`<rect x="1" y="1" width="${MAP.side - 2}" height="${MAP.side - 2}" fill="${INK.panel}" stroke="${INK.rule}"/>${places.map(
      (p, i) => mark(p.look === 'no-number' ? 1 : 0, x(at[i][0]), y(at[i][1]), p.look === 'found'),
    )}`,
    { width: MAP.side, font: 12 },
  );
}
