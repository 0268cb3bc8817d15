/** The report's table of densities: some depths on each substrate, with the interval. */

import { label } from '../../shared/glossary.ts';
import type { DensityTable } from '../present/density-curve.ts';
import { type Html, html } from './html.ts';
import { NONE, table } from './report-table.ts';

export function densityTable({ names, rows }: DensityTable): Html | null {
  return table(
    'Mussels per m² at some depths, with the confidence interval',
    [{ name: label('substrate') }, ...rows.map((r) => ({ name: r.depth, number: true }))],
    names.map((name, i) => ({
      cells: [
        name,
        ...rows.map((r) => {
          const cell = r.cells[i] ?? null;
          if (cell === null) return NONE;
          return html`${cell.estimate}${cell.interval === null ? null : html`<br><span class="note">${cell.interval}</span>`}`;
        }),
      ],
    })),
  );
}
