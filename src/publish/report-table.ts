/** Tables of the report: a caption, a header, rows of ready cells. */

import { type Html, html } from './html.ts';

export { NONE } from '../present/quantity.ts';

export interface Column {
  name: string;
  /** figures stand to the right */
  number?: boolean;
}

export interface Row {
  cells: (string | Html)[];
  sum?: boolean;
}

/** More columns than this do not fit a phone: there each row becomes lines of names and values. */
const FITS_PHONE = 3;

/** A table, null when it has no rows. What is still too wide for the screen scrolls in itself, also by keyboard. */
export function table(caption: string | null, columns: Column[], rows: Row[]): Html | null {
  if (rows.length === 0) return null;
  const many = columns.length > FITS_PHONE;
  const classOf = (i: number): Html | null => (columns[i].number ? html` class="n"` : null);
  const head = columns.map((c, i) => html`<th scope="col"${classOf(i)}>${c.name}</th>`);
  const body = rows.map(
    (row) =>
      html`<tr${row.sum ? html` class="sum"` : null}>${row.cells.map((cell, i) =>
        i === 0
          ? html`<th scope="row">${cell}</th>`
          : html`<td${classOf(i)}${many ? html` data-label="${columns[i].name}"` : null}>${cell}</td>`,
      )}</tr>\n`,
  );
  return html`<div class="scroll" tabindex="0" role="group" aria-label="${caption ?? 'table'}"><table${many ? html` class="many"` : null}>${caption === null ? null : html`<caption>${caption}</caption>`}
<thead><tr>${head}</tr></thead>
<tbody>
${body}</tbody></table></div>`;
}
