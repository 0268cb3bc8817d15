/** The report's section on the assumptions that no interval covers. */

import { labels } from '../../shared/glossary.ts';
import type { WhatIfRead } from '../present/what-if.ts';
import { type Html, html } from './html.ts';
import { table } from './report-table.ts';

export function whatIfSection({ opening, interval, lines, missing }: WhatIfRead): Html {
  const sheet = table(
    'One assumption changed at a time; not in the interval',
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
  return html`<p>${opening}</p>${sheet}${missing.map((m) => html`<p class="note">${m}</p>`)}`;
}
