/** The report's section on what more dives would bring. */

import type { AheadRead } from '../present/ahead.ts';
import { keptTogether } from '../present/kept-together.ts';
import { precisionFigure } from './figures/precision.ts';
import { type Html, html } from './html.ts';
import { figure, numberedTable, seeFigure, seeTable } from './plates.ts';

export function aheadSection({ lines, picture, table, note }: AheadRead, where: string): Html {
  return html`<p>${keptTogether(lines.join(' '))} ${seeFigure('precision')} draws it, ${seeTable('precision')} has its figures. ${note}</p>
<div class="pair">${figure('precision', precisionFigure(picture), `${picture.title}, ${where}.`, picture.band)}<div>${numberedTable(
    'precision',
    `${table.title}, ${where}.`,
    table.head.map((name, i) => ({ name, number: i > 0 })),
    table.rows.map((cells) => ({ cells })),
  )}</div></div>`;
}
