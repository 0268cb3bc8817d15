/** Changes between two surveys: a mark and its interval a row, on a log axis about no change. */

import { extent } from '../../../shared/extent.ts';
import type { Series } from '../../present/change.ts';
import { type ChangeBar, reachOf } from '../../present/change-bars.ts';
import { type Html, html } from '../html.ts';
import {
  type Box,
  bottomAxis,
  INK,
  labelRoom,
  leftAxis,
  logarithmic,
  mark,
  picture,
  place,
  shortened,
  tickLabel,
  WIDTH,
} from './frame.ts';

const ROW = 22;
const TOP = 6;
const MOST_LABEL = 140;
/** Ratios beyond are drawn at the edge. */
const WIDEST = 1000;
const STEPS = [1, 2, 5];
const MOST_TICKS = 5;
const SHAPES: Record<ChangeBar['kind'], number> = { total: 3, substrate: 1, depth: 0, area: 2 };

/** An SVG element; null without a row. */
export function changeFigure(name: string, title: string, bars: readonly ChangeBar[]): Html | null {
  if (bars.length === 0) return null;
  const within = (x: number): number => Math.min(WIDEST, Math.max(1 / WIDEST, x));
  const [least, most] = extent([...bars.flatMap((b) => reachOf(b).map(within)), 0.5, 2]);
  const left =
    8 +
    labelRoom(
      bars.map((b) => b.name),
      MOST_LABEL,
    ) +
    10;
  const height = TOP + bars.length * ROW;
  const box: Box = { left, right: WIDTH - 12, top: TOP, bottom: height };
  const x = logarithmic(least, most, box.left, box.right);
  const none = x(1);
  return picture(
    name,
    height + 46,
    title,
    bars.map((b) => b.words).join('; '),
    html`${bottomAxis(
      box,
      ratioSteps(least, most).map((s) => ({ at: x(s), label: tickLabel(s) })),
      'times as many',
    )}<line x1="${none}" x2="${none}" y1="${box.top}" y2="${box.bottom}" stroke="${INK.text}" stroke-width="1.5" stroke-dasharray="5 3"/>${bars.map(
      (b, i) => {
        const y = TOP + (i + 0.5) * ROW;
        return html`<text x="8" y="${y + 5}">${shortened(b.name, box.left - 18)}</text><line x1="${x(within(b.lower ?? least))}" x2="${x(within(b.upper ?? most))}" y1="${y}" y2="${y}" stroke="${INK.line}" stroke-width="2"/>${b.ratio === null ? stop(x(within(b.lower ?? b.upper ?? 1)), y) : mark(SHAPES[b.kind], x(within(b.ratio)), y)}`;
      },
    )}`,
  );
}

/** Where a line without a mark ends: the limit. */
const stop = (x: number, y: number): Html =>
  html`<line x1="${x}" x2="${x}" y1="${y - 6}" y2="${y + 6}" stroke="${INK.line}" stroke-width="2"/>`;

/** 1, 2 and 5 times powers of ten within the range, thinned. */
function ratioSteps(least: number, most: number): number[] {
  const steps: number[] = [];
  for (let decade = -3; decade <= 3; decade++)
    for (const step of STEPS) {
      const at = step * 10 ** decade;
      if (at >= least && at <= most) steps.push(at);
    }
  if (steps.length <= MOST_TICKS) return steps;
  return steps.filter((s) => Math.abs(Math.log10(s) % 1) < 1e-9 || steps.length <= MOST_TICKS * 2);
}

const PLOT = { right: WIDTH - 20, top: 30, bottom: 190 };
/** More steps than this are thinned to powers of ten. */
const MOST_STEPS = 7;
const MS_A_DAY = 86_400_000;

/** Totals in time with their intervals on a log axis; null with fewer than two. */
export function seriesFigure({ points, described }: Series, title: string): Html | null {
  if (points.length < 2) return null;
  const days = points.map((p) => Date.parse(p.date) / MS_A_DAY);
  const [first, last] = extent(days);
  const room = Math.max(1, last - first) * 0.1;
  const [least, most] = extent(
    points.flatMap((p) => [p.lower ?? p.estimate, p.upper ?? p.estimate].filter((v) => v > 0)),
  );
  const steps = stepsAround(least, most);
  const labels = steps.map((v) => v.toLocaleString('en'));
  const box: Box = { ...PLOT, left: 12 + labelRoom(labels, MOST_LABEL) };
  const x = (day: number): number =>
    place(box.left + ((day - first + room) / (last - first + 2 * room)) * (box.right - box.left));
  const y = logarithmic(steps[0], steps.at(-1) ?? steps[0] * 10, box.bottom, box.top);
  return picture(
    'series',
    PLOT.bottom + 46,
    title,
    described,
    html`${leftAxis(
      box,
      steps.map((v, i) => ({ at: y(v), label: labels[i] })),
      'mussels',
      true,
    )}${points.map((p, i) =>
      i > 0 && p.joined
        ? html`<line x1="${x(days[i - 1])}" y1="${y(points[i - 1].estimate)}" x2="${x(days[i])}" y2="${y(p.estimate)}" stroke="${INK.quiet}" stroke-dasharray="4 3"/>`
        : null,
    )}${points.map(
      (p, i) =>
        html`<line x1="${x(days[i])}" x2="${x(days[i])}" y1="${y(p.lower ?? p.estimate)}" y2="${y(p.upper ?? p.estimate)}" stroke="${INK.line}" stroke-width="2"/>${mark(0, x(days[i]), y(p.estimate))}<text x="${x(days[i])}" y="${PLOT.bottom + 19}" text-anchor="middle" fill="${INK.quiet}">${p.date.slice(0, 7)}</text>`,
    )}`,
  );
}

/** 1, 2 and 5 times powers of ten from the last below the range to the first above it; powers of ten alone where those are many. */
function stepsAround(least: number, most: number): number[] {
  const [from, to] = [Math.floor(Math.log10(least)), Math.ceil(Math.log10(most))];
  const decades = Array.from({ length: Math.max(1, to - from) + 1 }, (_, i) => 10 ** (from + i));
  const fine = decades.flatMap((d) => STEPS.map((s) => s * d));
  const start = fine.findLastIndex((v) => v <= least);
  const end = fine.findIndex((v) => v >= most && v > least);
  const steps = fine.slice(Math.max(0, start), end + 1);
  return steps.length >= 2 && steps.length <= MOST_STEPS ? steps : decades;
}
