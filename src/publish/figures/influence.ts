/** How far the total would move without each transect: bars from the middle, the strongest first. */

import type { SurveyResult } from '../../../shared/result.ts';
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
  roundSteps,
  shortened,
  WIDTH,
} from './frame.ts';

const ROW = 20;
const TOP = 8;
/** With more transects than this the weaker ones are told in words. */
const MOST_ROWS = 15;
const MOST_LABEL = 110;
const NUMBERS = 74;

export type InfluenceView = Pick<SurveyResult, 'checks' | 'survey'>;

interface Bar {
  transect: string;
  change: number;
}

/** An SVG element; null without a total. */
export function influenceFigure(view: InfluenceView): Html | null {
  const all = barsOf(view);
  if (all.length === 0) return null;
  const bars = all.slice(0, MOST_ROWS);
  const left =
    8 +
    labelRoom(
      bars.map((b) => b.transect),
      MOST_LABEL,
    ) +
    10;
  const box: Box = { left, right: WIDTH - NUMBERS, top: TOP, bottom: TOP + bars.length * ROW };
  const reach = roundSteps(0, Math.max(Math.abs(bars[0]!.change), 0.01), 1).at(-1)!;
  const x = linear(-reach, reach, box.left, box.right);
  return picture(
    'influence',
    box.bottom + 46,
    'Change of the total without each transect',
    `${bars.map((b) => `without ${b.transect} ${percent(b.change)}`).join('; ')}.`,
    html`${bottomAxis(
      box,
      [-reach, 0, reach].map((v) => ({ at: x(v), label: percent(v, 0) })),
      'change of the total without it',
    )}${outline(box)}${bars.map((b, i) => {
      const y = TOP + i * ROW;
      const ends = [x(0), x(b.change)].sort((a, c) => a - c) as [number, number];
      return html`<text x="8" y="${y + 15}">${shortened(b.transect, box.left - 18)}</text><rect x="${ends[0]}" y="${y + 4}" width="${place(ends[1] - ends[0])}" height="${ROW - 8}" fill="${b.change < 0 ? INK.line : INK.water}" stroke="${INK.line}"/><text x="${WIDTH - 4}" y="${y + 15}" text-anchor="end">${percent(b.change)}</text>`;
    })}`,
  );
}

/** Words under the figure. */
export function influenceCaption(view: InfluenceView): string {
  const all = barsOf(view);
  const lost = view.survey.transects.length - all.length;
  const weaker = all[MOST_ROWS];
  const left = all.length - MOST_ROWS;
  return [
    'Filled bars to the left: the total would be lower without this rope. Pale bars to the right: higher.',
    weaker === undefined
      ? null
      : `The other ${left === 1 ? 'one moves' : `${left} move`} it by ${percent(Math.abs(weaker.change)).replace('+', '')} at most.`,
    lost === 0
      ? null
      : `${lost === 1 ? 'One transect cannot' : `${lost} transects cannot`} be left out: the rest would not give this model.`,
  ]
    .filter((sentence) => sentence !== null)
    .join(' ');
}

function barsOf({ checks, survey }: InfluenceView): Bar[] {
  return (checks?.influence ?? [])
    .flatMap((change, i) =>
      change === null ? [] : [{ transect: survey.transects[i]!.transect, change }],
    )
    .sort((a, b) => Math.abs(b.change) - Math.abs(a.change));
}

function percent(share: number, decimals = 1): string {
  const value = share * 100;
  const text = Math.abs(value).toFixed(Math.abs(value) < 10 ** -decimals / 2 ? 0 : decimals);
  const sign = Number(text) === 0 ? '' : share < 0 ? '−' : '+';
  return `${sign}${text} %`;
}
