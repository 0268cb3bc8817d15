/**
 * Fine patterns that tell substrates apart without colour, and the hatch of bed that nobody searched. A pattern is a
 * tile of small marks; the same marks are rasterised for the map and drawn as SVG in legends and tables.
 */

import { type PatternName, patternName } from './substrate-style.ts';

export type Mark =
  | { kind: 'dot'; x: number; y: number; r: number }
  | { kind: 'ring'; x: number; y: number; r: number }
  | { kind: 'line'; x1: number; y1: number; x2: number; y2: number };

/** Marks on a square tile that repeats; lengths in CSS pixels. */
export interface Pattern {
  size: number;
  strokeWidth: number;
  marks: Mark[];
}

const TILE = 20;
const STROKE = 1;

const dot = (x: number, y: number, r = 0.9): Mark => ({ kind: 'dot', x, y, r });
const ring = (x: number, y: number, r: number): Mark => ({ kind: 'ring', x, y, r });
const line = (x1: number, y1: number, x2: number, y2: number): Mark => ({
  kind: 'line',
  x1,
  y1,
  x2,
  y2,
});
/** A mark twice on the tile, the second half a tile on: a staggered row. */
const staggered = (make: (x: number, y: number) => Mark[]): Mark[] => [
  ...make(5, 5),
  ...make(15, 15),
];

/** In the manner of geological maps: dashes for fine sediment, dots for sand, rings for stones, courses for rock. */
const MARKS: Record<PatternName, Mark[]> = {
  dashes: staggered((x, y) => [line(x - 3.5, y, x + 3.5, y)]),
  specks: staggered((x, y) => [line(x - 4, y, x, y), dot(x + 3.5, y)]),
  dots: [3, 13].flatMap((y) => [dot(3, y), dot(13, y), dot(8, y + 5), dot(18, y + 5)]),
  rings: staggered((x, y) => [ring(x, y, 1.6), dot(x + 5, y)]),
  pebbles: staggered((x, y) => [ring(x, y, 2.8)]),
  blocks: [line(0, 0, 20, 0), line(0, 10, 20, 10), line(5, 0, 5, 10), line(15, 10, 15, 20)],
  crosses: staggered((x, y) => [
    line(x - 2, y - 2, x + 2, y + 2),
    line(x - 2, y + 2, x + 2, y - 2),
  ]),
  waves: staggered((x, y) => [
    line(x - 4, y + 1, x - 2, y - 1),
    line(x - 2, y - 1, x + 2, y + 1),
    line(x + 2, y + 1, x + 4, y - 1),
  ]),
  ticks: staggered((x, y) => [line(x, y - 2.5, x, y + 2.5)]),
  plain: [],
};

/** Mapped, not searched: diagonal lines, on no substrate. */
export const HATCH: Pattern = {
  size: 7,
  strokeWidth: 0.9,
  marks: [line(-3.5, 3.5, 3.5, -3.5), line(0, 7, 7, 0), line(3.5, 10.5, 10.5, 3.5)],
};

/**
 * The pattern of a substrate label. A mixture shows the marks of all of its classes: the first in place, the others
 * moved aside.
 * @param label classes of one patch
 * @param classes all classes of the survey, which give those without a pattern of their own their place
 */
export function patternFor(label: readonly string[], classes: readonly string[]): Pattern {
  const marks = label.flatMap((name, i) =>
    MARKS[patternName(name, classes)].map((m) => moved(m, i * 10, i * 3)),
  );
  return { size: TILE, strokeWidth: STROKE, marks };
}

function moved(m: Mark, dx: number, dy: number): Mark {
  if (m.kind === 'line')
    return { ...m, x1: m.x1 + dx, y1: m.y1 + dy, x2: m.x2 + dx, y2: m.y2 + dy };
  return { ...m, x: m.x + dx, y: m.y + dy };
}

export interface Pixels {
  width: number;
  height: number;
  data: Uint8Array;
}

/**
 * The tile as RGBA pixels with soft edges, marks that cross its edge going on at the other side.
 * @param rgb 0–255 each
 * @param alpha of a fully covered pixel, 0–1
 * @param scale device pixels per CSS pixel
 */
export function rasterise(
  pattern: Pattern,
  rgb: readonly [number, number, number],
  alpha: number,
  scale: number,
): Pixels {
  const n = Math.round(pattern.size * scale);
  const data = new Uint8Array(n * n * 4);
  const step = pattern.size / n;
  const half = pattern.strokeWidth / 2;
  const marks = copies(pattern, half + step);
  for (let row = 0; row < n; row++) {
    for (let column = 0; column < n; column++) {
      const cover = coverage(marks, half, (column + 0.5) * step, (row + 0.5) * step, step);
      const at = (row * n + column) * 4;
      data[at] = rgb[0];
      data[at + 1] = rgb[1];
      data[at + 2] = rgb[2];
      data[at + 3] = Math.round(255 * alpha * cover);
    }
  }
  return { width: n, height: n, data };
}

/** The marks of the tile and of its neighbours, as far as they come within `reach` of the tile. */
function copies({ marks, size }: Pattern, reach: number): Mark[] {
  const shifts = [-size, 0, size];
  return marks
    .flatMap((mark) => shifts.flatMap((dx) => shifts.map((dy) => moved(mark, dx, dy))))
    .filter((mark) => {
      const [left, right, top, bottom] = extent(mark);
      return right > -reach && left < size + reach && bottom > -reach && top < size + reach;
    });
}

/** Left, right, top, bottom, without the width of the stroke. */
function extent(m: Mark): [number, number, number, number] {
  if (m.kind !== 'line') return [m.x - m.r, m.x + m.r, m.y - m.r, m.y + m.r];
  return [Math.min(m.x1, m.x2), Math.max(m.x1, m.x2), Math.min(m.y1, m.y2), Math.max(m.y1, m.y2)];
}

/** How much of a pixel of side `pixel` at x, y the marks cover, 0 to 1. */
function coverage(marks: Mark[], half: number, x: number, y: number, pixel: number): number {
  let deepest = Number.NEGATIVE_INFINITY;
  for (const mark of marks) deepest = Math.max(deepest, depthInside(mark, x, y, half));
  return Math.min(1, Math.max(0, deepest / pixel + 0.5));
}

/** Distance to the mark's edge, positive inside. */
function depthInside(m: Mark, x: number, y: number, half: number): number {
  if (m.kind === 'dot') return m.r - Math.hypot(x - m.x, y - m.y);
  if (m.kind === 'ring') return half - Math.abs(Math.hypot(x - m.x, y - m.y) - m.r);
  const dx = m.x2 - m.x1;
  const dy = m.y2 - m.y1;
  const along = ((x - m.x1) * dx + (y - m.y1) * dy) / (dx * dx + dy * dy);
  const t = Math.min(1, Math.max(0, along));
  return half - Math.hypot(x - m.x1 - t * dx, y - m.y1 - t * dy);
}
