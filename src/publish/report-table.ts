/** Tables of the report: a caption, a header, rows of ready cells. */

import { type Html, html } from './html.ts';

export { NONE } from '../present/quantity.ts';

export interface Column {
  name: string;
  /** figures stand to the right */
  number?: boolean;
  /** a line is not broken within it, where the page has room */
  whole?: boolean;
}

export interface Row {
  cells: (string | Html)[];
  sum?: boolean;
}

/** More columns than this do not fit a phone: there each row becomes lines of names and values. */
const FITS_PHONE = 3;
/** A table of so many rows at most is kept on one page. */
const FITS_PAGE = 24;

/** A table, null when it has no rows. What is still too wide for the screen scrolls in itself, also by keyboard. */
export function table(caption: string | null, columns: Column[], rows: Row[]): Html | null {
  if (rows.length === 0) return null;
  return tableUnder(
    caption === null ? null : html`<caption>${caption}</caption>`,
    html`aria-label="${caption ?? 'table'}"`,
    columns,
    rows,
  );
}

/** The same under a caption that was made before. @param name the attribute that names it to those who do not see it */
export function tableUnder(caption: Html | null, name: Html, columns: Column[], rows: Row[]): Html {
  const many = columns.length > FITS_PHONE;
  const classOf = (i: number): Html | null =>
    columns[i].number ? html` class="n"` : columns[i].whole ? html` class="whole"` : null;
  const head = columns.map((c, i) => html`<th scope="col"${classOf(i)}>${c.name}</th>`);
  const body = rows.map(
    (row) =>
      html`<tr${row.sum ? html` class="sum"` : null}>${row.cells.map((cell, i) =>
        i === 0
          ? html`<th scope="row">${cell}</th>`
          : html`<td${classOf(i)}${many ? html` data-label="${columns[i].name}"` : null}>${cell}</td>`,
      )}</tr>\n`,
  );
  const classes = [many ? 'many' : null, rows.length > FITS_PAGE ? 'long' : null].filter(
    (c) => c !== null,
  );
  return html`<div class="scroll" tabindex="0" role="group" ${name}><table${classes.length === 0 ? null : html` class="${classes.join(' ')}"`}>${caption}
<thead><tr>${head}</tr></thead>
<tbody>
${body}</tbody></table></div>`;
}
