/** Precision against effort: both axes logarithmic, so that the law of the root is a straight line. */

import type { PrecisionPicture } from '../../present/precision-curve.ts';
import { type Html, html } from '../html.ts';
import {
  type Box,
  bottomAxis,
  INK,
  leftAxis,
  logarithmic,
  outline,
  picture,
  WIDTH,
} from './frame.ts';

const BOX: Box = { left: 56, right: WIDTH - 12, top: 34, bottom: 250 };

/** An SVG element. */
export function precisionFigure(read: PrecisionPicture): Html {
  const { points, plan, current, transects, cv } = read;
  const x = logarithmic(transects.from, transects.to, BOX.left, BOX.right);
  const y = logarithmic(cv.from, cv.to, BOX.bottom, BOX.top);
  const line = points.map((p) => `${x(p.transects)} ${y(p.cv)}`).join('L');
  const upper = points.map((p) => `${x(p.transects)} ${y(p.upper)}`);
  const lower = points.map((p) => `${x(p.transects)} ${y(p.lower)}`).reverse();
  return picture(
    'precision',
    BOX.bottom + 46,
    read.title,
    read.described,
    html`${bottomAxis(
      BOX,
      transects.ticks.map((t) => ({ at: x(t), label: String(t) })),
      transects.name,
    )}${leftAxis(
      BOX,
      cv.ticks.map((t) => ({ at: y(t.at), label: t.label })),
      cv.name,
      true,
    )}<path d="M${[...upper, ...lower].join('L')}Z" fill="${INK.water}"/><path d="M${line}" fill="none" stroke="${INK.line}" stroke-width="2"/>${
      current === null
        ? null
        : html`<path d="M${BOX.left} ${y(current)}H${BOX.right}" stroke="${INK.text}" stroke-width="1.4" stroke-dasharray="7 4"/>`
    }${plan && html`<circle cx="${x(plan.transects)}" cy="${y(plan.cv)}" r="5" fill="${INK.panel}" stroke="${INK.text}" stroke-width="2"/>`}${outline(BOX)}`,
  );
}
