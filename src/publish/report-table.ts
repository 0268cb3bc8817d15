/** Tables of the report: a caption, a header, rows of ready cells. */

import type { Quantity } from '../../shared/estimate.ts';
import { formatToStep, roundingStep } from '../../shared/units.ts';
import { type Html, html } from './html.ts';

export interface Column {
  name: string;
  /** figures stand to the right */
  number?: boolean;
}

export interface Row {
  cells: (string | Html)[];
  sum?: boolean;
}

export const NONE = '–';

/** A table that scrolls in itself on a narrow screen, also by keyboard; null when it has no rows. */
export function table(caption: string | null, columns: Column[], rows: Row[]): Html | null {
  if (rows.length === 0) return null;
  const classOf = (i: number): Html | null => (columns[i]!.number ? html` class="n"` : null);
  const head = columns.map((c, i) => html`<th scope="col"${classOf(i)}>${c.name}</th>`);
  const body = rows.map(
    (row) =>
      html`<tr${row.sum ? html` class="sum"` : null}>${row.cells.map((cell, i) =>
        i === 0 ? html`<th scope="row">${cell}</th>` : html`<td${classOf(i)}>${cell}</td>`,
      )}</tr>\n`,
  );
  return html`<div class="scroll" tabindex="0" role="group" aria-label="${caption ?? 'table'}"><table>${caption === null ? null : html`<caption>${caption}</caption>`}
<thead><tr>${head}</tr></thead>
<tbody>
${body}</tbody></table></div>`;
}

/** An estimate and its interval as two cells, rounded to what the interval supports. */
export function quantityCells(q: Quantity | null): [string, string] {
  if (q === null) return [NONE, NONE];
  const step = roundingStep(q);
  const interval =
    q.upper === null
      ? NONE
      : q.lower === null || (q.lower === 0 && q.estimate === 0)
        ? `up to ${formatToStep(q.upper, step)}`
        : `${formatToStep(q.lower, step)} to ${formatToStep(q.upper, step)}`;
  return [formatToStep(q.estimate, step), interval];
}
