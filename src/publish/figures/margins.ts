/** Mussels by depth band and by substrate: a bar a row, its interval as a line across the bar's end, the number behind. */

import { extent } from '../../../shared/extent.ts';
import { roundSteps } from '../../../shared/round-numbers.ts';
import { formatDigits } from '../../../shared/units.ts';
import type { DepthRow, Strata, SubstrateRow } from '../../present/strata.ts';
import { type Html, html } from '../html.ts';
import {
  type Box,
  bottomAxis,
  heading,
  INK,
  labelRoom,
  linear,
  picture,
  place,
  shortened,
  textWidth,
  WIDTH,
} from './frame.ts';

const ROW = 22;
const BAR = 12;
const TOP = 4;
const MOST_LABEL = 120;
const MOST_TICKS = 3;

type MarginRow = DepthRow | SubstrateRow;

/** An SVG element; null when no row has a number above 0. */
export function marginFigure({
  depths,
  substrates,
  axis,
  title,
  described,
  captions,
}: Strata): Html | null {
  if (axis === null) return null;
  const groups: [string, [string, MarginRow][]][] = [
    [captions.depths, depths.map((d) => [d.band, d])],
    [captions.substrates, substrates.map((s) => [s.words, s])],
  ];
  const rows = groups.flatMap(([, own]) => own);
  const left =
    8 +
    labelRoom(
      rows.map(([name]) => name),
      MOST_LABEL,
    ) +
    10;
  const [, numbers] = extent(rows.map(([, { mussels }]) => textWidth(mussels[0])));
  const height = TOP + (rows.length + groups.length) * ROW;
  const box: Box = { left, right: WIDTH - numbers - 10, top: TOP, bottom: height };
  const steps = roundSteps(0, axis, MOST_TICKS).filter((s) => s <= axis);
  const x = linear(0, axis, box.left, box.right);
  let y = TOP;
  return picture(
    'margins',
    height + 46,
    title,
    described,
    html`${bottomAxis(
      box,
      steps.map((s) => ({ at: x(s), label: formatDigits(s, 3) })),
      'mussels',
    )}${groups.map(([caption, own]) => {
      const at = y;
      y += (own.length + 1) * ROW;
      return [
        heading(caption, at + 15),
        ...own.map(([name, row], i) => bar(name, row, at + (i + 1.5) * ROW, x, box, axis)),
      ];
    })}`,
  );
}

function bar(
  name: string,
  { value, mussels }: MarginRow,
  y: number,
  x: (n: number) => number,
  box: Box,
  axis: number,
): Html {
  const { estimate, lower, upper } = value.mussels ?? { estimate: 0, lower: null, upper: null };
  const whisker =
    upper === null
      ? null
      : html`<line x1="${x(lower ?? 0)}" x2="${x(Math.min(upper, axis))}" y1="${y}" y2="${y}" stroke="${INK.text}" stroke-width="1.5"/>`;
  return html`<text x="8" y="${y + 5}">${shortened(name, box.left - 18)}</text><rect x="${box.left}" y="${y - BAR / 2}" width="${place(x(estimate) - box.left)}" height="${BAR}" fill="${INK.line}" fill-opacity="0.45"/>${whisker}<text x="${WIDTH - 4}" y="${y + 5}" text-anchor="end">${mussels[0]}</text>`;
}
