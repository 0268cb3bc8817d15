/** The report's section on the assumptions that no interval covers. */

import { labels } from '../../shared/glossary.ts';
import type { WhatIfRead } from '../present/what-if.ts';
import { type Html, html } from './html.ts';
import { numberedTable, seeTable } from './plates.ts';

export function whatIfSection(
  { opening, interval, lines, missing }: WhatIfRead,
  where: string,
): Html {
  const sheet = numberedTable(
    'what-if',
    `The number with one assumption changed at a time, which no interval covers, ${where}.`,
    [
      { name: 'What is assumed, and what if not' },
      { name: labels('mussel'), number: true },
      { name: 'Change', number: true },
    ],
    [
      ...(interval === null
        ? []
        : [
            {
              sum: true,
              cells: [
                `For scale: the number and its ${interval.name}`,
                interval.text,
                interval.change,
              ],
            },
          ]),
      ...lines.map((l) => ({
        cells: [
          html`${l.assumed}; ${l.otherwise}<br><span class="note">${l.how}</span>`,
          l.total,
          l.change,
        ],
      })),
    ],
  );
  return html`<p>${opening}${sheet && html` ${seeTable('what-if')} has them line by line.`}</p>${sheet}${missing.map((m) => html`<p class="note">${m}</p>`)}`;
}
