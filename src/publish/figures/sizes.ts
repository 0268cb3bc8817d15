/** Cluster sizes: how many clusters of each size were detected, and how many the fit expects. */

import { extent } from '../../../shared/extent.ts';
import { roundSteps } from '../../../shared/round-numbers.ts';
import type { SizePicture } from '../../present/cluster-sizes.ts';
import { type Html, html } from '../html.ts';
import {
  type Box,
  bottomAxis,
  INK,
  leftAxis,
  linear,
  mark,
  outline,
  picture,
  place,
  tickLabel,
  WIDTH,
} from './frame.ts';

const BOX: Box = { left: 54, right: WIDTH - 8, top: 28, bottom: 216 };
const LEGEND_Y = BOX.bottom + 62;
/** Room that the label of a class needs. */
const LABEL = 26;
/** … with both of its ends. */
const RANGE = 40;

/** An SVG element; null when nothing was detected, or single mussels only. */
export function sizeFigure(sizes: SizePicture | null): Html | null {
  if (sizes === null) return null;
  const { classes, columns } = sizes;
  const [, most] = extent([1, ...classes.flatMap((c) => [c.observed, c.expected])]);
  const steps = roundSteps(0, most, 4);
  const y = linear(0, steps.at(-1) ?? most, BOX.bottom, BOX.top);
  const each = (BOX.right - BOX.left) / classes.length;
  const middle = (i: number) => place(BOX.left + each * (i + 0.5));
  return picture(
    'sizes',
    LEGEND_Y + 12,
    sizes.title,
    sizes.described,
    html`${leftAxis(
      BOX,
      steps.map((s) => ({ at: y(s), label: tickLabel(s) })),
      columns.observed.toLowerCase(),
      true,
    )}
${classes.map((c, i) => html`<rect class="observed" x="${place(middle(i) - each * 0.38)}" y="${y(c.observed)}" width="${place(each * 0.76)}" height="${place(BOX.bottom - y(c.observed))}" fill="${INK.water}" stroke="${INK.quiet}"/>`)}
${bottomAxis(
  BOX,
  classes.map((c, i) => ({ at: middle(i), label: tick(c, i, each) })),
  sizes.axis,
  false,
)}
${outline(BOX)}
${classes.map((c, i) => mark(3, middle(i), y(c.expected), false))}
<rect x="${BOX.left}" y="${LEGEND_Y - 7}" width="22" height="12" fill="${INK.water}" stroke="${INK.quiet}"/><text x="${BOX.left + 30}" y="${LEGEND_Y + 4}">${columns.observed.toLowerCase()}</text>${mark(3, BOX.left + 106, LEGEND_Y - 1, false)}<text x="${BOX.left + 122}" y="${LEGEND_Y + 4}">${columns.expected.toLowerCase()}</text>`,
  );
}

/** Every class where there is room, else every second or third; its first size alone where both do not fit. */
function tick({ short, start }: SizePicture['classes'][number], i: number, room: number): string {
  if (i % Math.ceil(LABEL / room) !== 0) return '';
  return room < RANGE ? start : short;
}
