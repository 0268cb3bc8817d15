/** Detected clusters against what the model expects, a row a class: a disc for detected, a diamond for expected. */

import { extent } from '../../../shared/extent.ts';
import { terms } from '../../../shared/glossary.ts';
import { roundSteps } from '../../../shared/round-numbers.ts';
import type { ObservedRow, ObservedTable } from '../../present/observed-expected.ts';
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
  textWidth,
  tickLabel,
  WIDTH,
} from './frame.ts';

const ROW = 24;
const TOP = 30;
/** Columns of figures end here. */
const EXPECTED_X = WIDTH - 4;
const DETECTED_X = EXPECTED_X - textWidth('expected') - 40;
const MOST_LABEL = 130;

/** An SVG element, named after what the classes are. */
export function comparedFigure({ of, title, groups, described }: ObservedTable): Html {
  const all = groups.flatMap((g) => g.rows);
  const labels = all.map((r) => r.label);
  const lines = groups.flatMap((g) => [...(g.heading === null ? [] : [g.heading]), ...g.rows]);
  const left = 8 + labelRoom(labels, MOST_LABEL) + 14;
  const right = DETECTED_X - textWidth('detected') - 34;
  const box: Box = { left, right, top: TOP, bottom: TOP + lines.length * ROW };
  const [, most] = extent([1, ...all.flatMap((r) => [r.observed, r.expected])]);
  const steps = roundSteps(0, most, 2).filter((s) => s <= most);
  const x = linear(0, most, box.left, box.right);
  return picture(
    `by-${of}`,
    box.bottom + 46,
    title,
    described,
    html`${columnHeads()}${bottomAxis(
      box,
      steps.map((s) => ({ at: x(s), label: tickLabel(s) })),
      terms('cluster'),
    )}
${lines.map((l, i) => {
  const y = TOP + (i + 0.5) * ROW;
  return typeof l === 'string' ? heading(l, y + 5) : row(l, y, x, box);
})}`,
  );
}

function columnHeads(): Html {
  const y = TOP - 10;
  return html`<g fill="${INK.quiet}">${mark(0, DETECTED_X - textWidth('detected') - 16, y - 5)}<text x="${DETECTED_X}" y="${y}" text-anchor="end">detected</text>${mark(3, EXPECTED_X - textWidth('expected') - 16, y - 5, false)}<text x="${EXPECTED_X}" y="${y}" text-anchor="end">expected</text></g>`;
}

function row(r: ObservedRow, y: number, x: (n: number) => number, box: Box): Html {
  return html`<text x="8" y="${y + 5}">${shortened(r.label, box.left - 22)}</text><line x1="${x(r.observed)}" x2="${x(r.expected)}" y1="${y}" y2="${y}" stroke="${INK.line}" stroke-width="2"/>${mark(0, x(r.observed), y)}${mark(3, x(r.expected), y, false)}<text x="${DETECTED_X}" y="${y + 5}" text-anchor="end">${r.observedText}</text><text x="${EXPECTED_X}" y="${y + 5}" text-anchor="end">${r.expectedText}</text>`;
}
