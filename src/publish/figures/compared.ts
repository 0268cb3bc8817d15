/** Clusters found against what the model expects, a row a class: a disc for found, a diamond for expected. */

import type { ObservedExpected } from '../../../shared/estimate.ts';
import { formatCount } from '../../../shared/units.ts';
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
  roundSteps,
  shortened,
  textWidth,
  tickLabel,
  WIDTH,
} from './frame.ts';

const ROW = 24;
const TOP = 30;
/** Columns of figures end here. */
const EXPECTED_X = WIDTH - 4;
const FOUND_X = EXPECTED_X - textWidth('expected') - 32;
const MOST_LABEL = 130;

export interface ComparedGroup {
  /** null = none, where there is one group only */
  heading: string | null;
  rows: ObservedExpected[];
}

/**
 * An SVG element; null without rows.
 * @param name unique within the report
 * @param title what the classes are
 */
export function comparedFigure(name: string, title: string, groups: ComparedGroup[]): Html | null {
  const all = groups.flatMap((g) => g.rows);
  if (all.length === 0) return null;
  const labels = all.map((r) => r.label);
  const lines = groups.flatMap((g) => [...(g.heading === null ? [] : [g.heading]), ...g.rows]);
  const left = 8 + labelRoom(labels, MOST_LABEL) + 14;
  const right = FOUND_X - textWidth('found') - 26;
  const box: Box = { left, right, top: TOP, bottom: TOP + lines.length * ROW };
  const most = Math.max(...all.map((r) => Math.max(r.observed, r.expected)), 1);
  const steps = roundSteps(0, most, 2).filter((s) => s <= most);
  const x = linear(0, most, box.left, box.right);
  return picture(
    name,
    box.bottom + 46,
    `Clusters found and expected, by ${title}`,
    described(groups),
    html`${columnHeads()}${bottomAxis(
      box,
      steps.map((s) => ({ at: x(s), label: tickLabel(s) })),
      'clusters',
    )}
${lines.map((l, i) => {
  const y = TOP + (i + 0.5) * ROW;
  return typeof l === 'string' ? heading(l, y + 5) : row(l, y, x, box);
})}`,
  );
}

function columnHeads(): Html {
  const y = TOP - 10;
  return html`<g fill="${INK.quiet}">${mark(0, FOUND_X - textWidth('found') - 11, y - 5)}<text x="${FOUND_X}" y="${y}" text-anchor="end">found</text>${mark(3, EXPECTED_X - textWidth('expected') - 11, y - 5, false)}<text x="${EXPECTED_X}" y="${y}" text-anchor="end">expected</text></g>`;
}

function row(r: ObservedExpected, y: number, x: (n: number) => number, box: Box): Html {
  return html`<text x="8" y="${y + 5}">${shortened(r.label, box.left - 22)}</text><line x1="${x(r.observed)}" x2="${x(r.expected)}" y1="${y}" y2="${y}" stroke="${INK.line}" stroke-width="2"/>${mark(0, x(r.observed), y)}${mark(3, x(r.expected), y, false)}<text x="${FOUND_X}" y="${y + 5}" text-anchor="end">${formatCount(r.observed)}</text><text x="${EXPECTED_X}" y="${y + 5}" text-anchor="end">${expected(r)}</text>`;
}

/** One decimal below 100: a comparison of whole counts needs no more. */
function expected(r: ObservedExpected): string {
  return r.expected < 99.95 ? r.expected.toFixed(1) : formatCount(r.expected);
}

function described(groups: ComparedGroup[]): string {
  const told = groups.map(({ heading: of, rows }) => {
    const each = rows.map(
      (r) => `${r.label}: ${formatCount(r.observed)} found, ${expected(r)} expected`,
    );
    return `${of === null ? '' : `${of}: `}${each.join('; ')}`;
  });
  return `${told.join('. ')}.`;
}
