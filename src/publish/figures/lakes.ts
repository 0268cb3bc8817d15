/** Lakes of a programme: in the order of their density, and where they lie. */

import { extent } from '../../../shared/extent.ts';
import type { LakeBar } from '../../present/batch.ts';
import type { LakeLook, LakesMap } from '../../present/lakes-map.ts';
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

const MAP = { side: 360, room: 14, below: 26, font: 12 };
/** Beside a mark. */
const GAP = 9;
const HIGH = 13;
const SHAPE: Record<LakeLook, { shape: number; filled: boolean }> = {
  found: { shape: 0, filled: true },
  none: { shape: 0, filled: false },
  'no-number': { shape: 1, filled: false },
};

/** Places with their names, as many as do not cover each other; scale and north below, and what the marks mean. */
export function lakesMap({ places, height, key, scale, described }: LakesMap, title: string): Html {
  const inner = MAP.side - 2 * MAP.room;
  const bottom = place(2 * MAP.room + height * inner);
  const marks = places.map((p) => ({
    ...p,
    x: place(MAP.room + p.x * inner),
    y: place(MAP.room + p.y * inner),
  }));
  const y = place(bottom + 14);
  const end = scale === null ? 0 : place(2 + scale.share * inner);
  const drawing = picture(
    'lakes-map',
    place(bottom + MAP.below),
    title,
    described,
    html`<rect x="1" y="1" width="${MAP.side - 2}" height="${place(bottom - 2)}" fill="${INK.panel}" stroke="${INK.rule}"/>${marks.map(
      (m) => markOf(m.look, m.x, m.y),
    )}${namesBeside(marks)}${scale === null ? null : html`<path d="M2 ${y - 4}V${y + 4}H${end}V${y - 4}" fill="none" stroke="${INK.text}" stroke-width="1.4"/><text x="${end + 8}" y="${y + 4}">${scale.label}</text>`}<path d="M${MAP.side - 12} ${y - 10}l5 16l-5 -3l-5 3Z" fill="${INK.text}"/><text x="${MAP.side - 22}" y="${y + 4}" text-anchor="end">N</text>`,
    { width: MAP.side, font: MAP.font },
  );
  return html`${drawing}<ul class="key">${key.map(
    ({ look, words }) =>
      html`<li><svg width="16" height="16" viewBox="0 0 16 16" aria-hidden="true">${markOf(look, 8, 8)}</svg>${words}</li>`,
  )}</ul>`;
}

const markOf = (look: LakeLook, x: number, y: number): Html =>
  mark(SHAPE[look].shape, x, y, SHAPE[look].filled);

/** Right of the mark, else left of it; left out where it would lie over a mark or another name. The table names all. */
function namesBeside(marks: readonly { name: string; x: number; y: number }[]): Html[] {
  const taken = marks.map(({ x, y }): Area => [x - 6, y - 6, x + 6, y + 6]);
  return marks.flatMap(({ name, x, y }) => {
    const text = shortened(name, MOST_LABEL);
    const wide = labelRoom([text], MOST_LABEL);
    for (const anchor of ['start', 'end'] as const) {
      const from = anchor === 'start' ? x + GAP : x - GAP - wide;
      const area: Area = [from, y - HIGH / 2, from + wide, y + HIGH / 2];
      if (area[0] < 3 || area[2] > MAP.side - 3 || taken.some((t) => overlap(t, area))) continue;
      taken.push(area);
      const at = anchor === 'start' ? x + GAP : x - GAP;
      return [
        html`<text x="${place(at)}" y="${place(y + 4)}" text-anchor="${anchor}">${text}</text>`,
      ];
    }
    return [];
  });
}

type Area = [left: number, top: number, right: number, bottom: number];

const overlap = (a: Area, b: Area): boolean =>
  a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];
