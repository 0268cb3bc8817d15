/** Detection probability of each observer, with its interval: a row an observer, told apart by shape, a part a design. */

import { formatPercent } from '../../../shared/units.ts';
import type { DetectionGroup, DetectionReading, DetectionRow } from '../../present/detection.ts';
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

const ROW = 26;
const TOP = 8;
/** Room for `100 % (100 % to 100 %)`. */
const NUMBERS = 150;
const MOST_LABEL = 120;

/** An SVG element; null when no observer's probability was estimated. */
export function detectionFigure(reading: DetectionReading | null): Html | null {
  const groups = reading?.groups ?? [];
  if (reading === null || !groups.some((g) => g.estimated)) return null;
  const rows = groups.flatMap((g) => g.observers);
  const left =
    8 +
    labelRoom(
      rows.map((o) => o.label),
      MOST_LABEL,
    ) +
    14;
  const height = TOP + (rows.length + groups.length) * ROW;
  const box: Box = { left, right: WIDTH - NUMBERS - 14, top: TOP, bottom: height };
  const x = linear(0, 1, box.left, box.right);
  return picture(
    'detection',
    height + 46,
    reading.title,
    reading.described,
    html`${bottomAxis(
      box,
      [0, 0.5, 1].map((p) => ({ at: x(p), label: formatPercent(p) })),
      reading.columns.p,
    )}${placed(groups).map(({ group, at }) => [
      heading(group.heading, at - 8),
      ...group.observers.map((o, i) => row(o, at + (i + 0.5) * ROW, x, box)),
    ])}`,
  );
}

/** Each group with the place below its heading. */
function placed(groups: DetectionGroup[]): { group: DetectionGroup; at: number }[] {
  let at = TOP;
  return groups.map((group) => {
    const own = { group, at: at + ROW };
    at += (group.observers.length + 1) * ROW;
    return own;
  });
}

function row(o: DetectionRow, y: number, x: (p: number) => number, box: Box): Html {
  const whisker =
    o.lower === null || o.upper === null
      ? null
      : html`<line x1="${x(o.lower)}" x2="${x(o.upper)}" y1="${y}" y2="${y}" stroke="${INK.line}" stroke-width="2"/>`;
  return html`<text x="8" y="${y + 5}">${shortened(o.label, box.left - 22)}</text>${whisker}${mark(o.observers[0]?.place ?? 0, x(o.p), y)}<text x="${WIDTH - 4}" y="${y + 5}" text-anchor="end">${numbers(o)}</text>`;
}

function numbers({ share, interval, taken }: DetectionRow): string {
  if (taken) return `${share}, taken`;
  return interval === null ? share : `${share} (${interval})`;
}
