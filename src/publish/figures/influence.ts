/** How far the total would move without each transect: bars from the middle, the strongest first. */

import { roundSteps } from '../../../shared/round-numbers.ts';
import { changeText, type Influences } from '../../present/influence.ts';
import { type Html, html } from '../html.ts';
import {
  type Box,
  bottomAxis,
  INK,
  labelRoom,
  linear,
  outline,
  picture,
  place,
  shortened,
  WIDTH,
} from './frame.ts';

const ROW = 20;
const TOP = 8;
const MOST_LABEL = 110;
const NUMBERS = 74;

/** An SVG element. */
export function influenceFigure({ shown, reach, described }: Influences): Html {
  const left =
    8 +
    labelRoom(
      shown.map((b) => b.name),
      MOST_LABEL,
    ) +
    10;
  const box: Box = { left, right: WIDTH - NUMBERS, top: TOP, bottom: TOP + shown.length * ROW };
  const end = roundSteps(0, reach, 1).at(-1) ?? reach;
  const x = linear(-end, end, box.left, box.right);
  return picture(
    'influence',
    box.bottom + 46,
    'Change of the total without each transect',
    described,
    html`${bottomAxis(
      box,
      [-end, 0, end].map((v) => ({ at: x(v), label: changeText(v, 0) })),
      'change of the total without it',
    )}${outline(box)}${shown.map((b, i) => {
      const y = TOP + i * ROW;
      const [from, to] = [Math.min(x(0), x(b.change)), Math.max(x(0), x(b.change))];
      return html`<text x="8" y="${y + 15}">${shortened(b.name, box.left - 18)}</text><rect x="${from}" y="${y + 4}" width="${place(to - from)}" height="${ROW - 8}" fill="${b.change < 0 ? INK.line : INK.water}" stroke="${INK.line}"/><text x="${WIDTH - 4}" y="${y + 15}" text-anchor="end">${b.text}</text>`;
    })}`,
  );
}

/** Words under the figure. */
export function influenceCaption({ others }: Influences): string {
  const bars =
    'Filled bars to the left: the total would be lower without this transect. Pale bars to the right: higher.';
  return others === null ? bars : `${bars} ${others}`;
}
