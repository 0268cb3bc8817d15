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

/** A table that scrolls in itself on a narrow screen, also by keyboard; null when it has no rows. */
export function table(caption: string | null, columns: Column[], rows: Row[]): Html | null {
  if (rows.length === 0) return null;
  const classOf = (i: number): Html | null => (columns[i].number ? html` class="n"` : null);
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
