/**
 * sheets.html: sheets to print on waterproof paper and fill in with a pencil. Black lines, no fills (they take no pencil),
 * lines 12 mm apart for gloved hands, nothing below 9 pt; a page holds what fits A4 and US Letter alike.
 */

import { label, labels, term } from '../../shared/glossary.ts';
import { en as words } from '../../shared/strings/report/en.ts';
import type {
  FieldSheets,
  SheetColumn,
  SheetField,
  TransectSheet,
} from '../present/field-sheets.ts';
import { type Html, html } from './html.ts';
import { htmlPage } from './html-page.ts';

export type Paper = 'a4' | 'letter';

/** Says in the file's beginning what it is. */
export const SHEETS_MARK = 'Shoalwise, sheets for the dives';

/** Height of a line, mm, and the lines of a page: 255 mm of both papers lie within their margins of 12 mm. */
const LINES = { habitat: 9, detections: 17 };
const LINE_MM = 12;

const style = (paper: Paper): string => `
@page { size: ${paper === 'a4' ? 'A4' : 'letter'}; margin: 12mm; }
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0; background: #fff; color: #000; font: 10pt/1.25 system-ui, "Segoe UI", "Helvetica Neue", Arial, sans-serif; }
.page { width: 186mm; height: 254mm; margin: 0 auto; display: flex; flex-direction: column; break-after: page; overflow: hidden; }
.page:last-child { break-after: auto; }
header { display: flex; justify-content: space-between; align-items: baseline; border-bottom: 0.6mm solid #000; padding-bottom: 1mm; margin-bottom: 2mm; }
h1 { margin: 0; font-size: 15pt; font-weight: 600; }
header p { margin: 0; font-size: 11pt; }
.blank { display: inline-block; width: 34mm; border-bottom: 0.3mm solid #000; }
h2 { margin: 3mm 0 1mm; font-size: 11pt; font-weight: 600; }
.codes { margin: 0 0 1mm; font-size: 9pt; }
.fields { border-top: 0.3mm solid #000; border-left: 0.3mm solid #000; }
.fields > div { display: flex; }
.field { flex: 1 1 0; height: ${LINE_MM + 1}mm; padding: 0.6mm 1.5mm; border-right: 0.3mm solid #000; border-bottom: 0.3mm solid #000; overflow: hidden; }
.field.wide { flex-grow: 2.2; }
.field > :first-child { display: block; font-size: 9pt; }
.field b { display: block; margin-top: 1mm; font-size: 14pt; font-weight: 500; white-space: nowrap; }
.ticks { display: flex; flex-wrap: wrap; gap: 0 3.5mm; margin-top: 1.4mm; font-size: 10pt; white-space: nowrap; }
.tick { display: inline-flex; align-items: center; gap: 1.2mm; }
.box { width: 4.6mm; height: 4.6mm; border: 0.35mm solid #000; font-size: 13pt; line-height: 4mm; text-align: center; }
table { width: 100%; border-collapse: collapse; table-layout: fixed; }
th, td { border: 0.3mm solid #000; padding: 0 1.5mm; text-align: left; font-weight: 400; font-size: 9pt; vertical-align: middle; }
td { height: ${LINE_MM}mm; }
td .ticks { margin: 0; flex-wrap: nowrap; gap: 2.5mm; font-size: 9pt; }
td.said { font-size: 13pt; }
th.no, td.no { width: 9mm; text-align: center; font-size: 9pt; }
th.ticked { width: 47mm; }
.none { display: flex; gap: 8mm; height: 9mm; align-items: center; font-size: 10pt; }
.caution { margin: auto 0 0; padding-top: 2mm; font-size: 9pt; }
.key { height: auto; overflow: visible; }
.key table { margin-bottom: 3mm; break-inside: avoid; }
.key h2 { break-after: avoid; }
.key th:nth-child(1) { width: 36mm; }
.key th:nth-child(2) { width: 36mm; }
.key th:nth-child(3) { width: 40mm; }
.key td { height: auto; padding: 0.8mm 1.5mm; vertical-align: top; }
.key tr { break-inside: avoid; }
code { font: 9pt ui-monospace, Menlo, Consolas, monospace; }
@media screen {
  body { background: #f7f5ef; padding: 8mm 0; }
  .page { background: #fff; margin-bottom: 8mm; padding: 0; outline: 12mm solid #fff; outline-offset: 0; margin: 20mm auto 32mm; }
}
`;

/** A whole HTML document. */
export function fieldSheetsHtml(read: FieldSheets, paper: Paper): string {
  const body = html`${read.sheets.map((sheet) => transectPages(sheet, read))}${keyPage(read)}`;
  return htmlPage(`${read.lake}: sheets for the dives`, style(paper), body, { mark: SHEETS_MARK });
}

function transectPages(sheet: TransectSheet, read: FieldSheets): Html {
  const { lake, detectionPages } = read;
  const pages = Array.from({ length: detectionPages }, (_, i) => i);
  return html`<section class="page">
${pageHead(`${label('transect')} and habitat`, sheet, lake)}
<div class="fields">${sheet.fields.map((row) => html`<div>${row.map(field)}</div>`)}</div>
<h2>Habitat</h2>
<p class="codes">A line where substrate, plants or slope change, the first at 0 m; the last at the end of the transect, with its depth. Substrate: ${read.substrates}; several joined by +, the dominant one first. Plant cover: 0 none to 4 dense.</p>
${lines(read.habitat, 1, LINES.habitat, { column: 'distance_m', text: '0' })}
<p class="caution">${words.cautionDiving}</p>
</section>
${pages.map(
  (page) => html`<section class="page">
${pageHead(pages.length === 1 ? labels('cluster') : `${labels('cluster')}, page ${page + 1} of ${pages.length}`, sheet, lake)}
<div class="none"><span>Searched to the end, none found:</span>${tick('primary', false)}${tick('secondary', false)}</div>
<p class="codes">One line a cluster, also for a single mussel. The secondary observer writes down only what the primary missed. Counts are whole numbers: no “20+”.</p>
${lines(sheet.detections, page * LINES.detections + 1, LINES.detections, null)}
<p class="caution">Exchange the roles on the next transect.</p>
</section>`,
)}`;
}

function pageHead(title: string, { transect }: TransectSheet, lake: string): Html {
  const name = transect === null ? html`<span class="blank"></span>` : html`<b>${transect}</b>`;
  return html`<header><h1>${title}</h1><p>${lake}, transect ${name}</p></header>`;
}

function field({ label: name, hint, value, choices }: SheetField): Html {
  const content =
    choices === null
      ? value && html`<b>${value}</b>`
      : html`<span class="ticks">${choices.map((c) => tick(c, c === value))}</span>`;
  const wide = choices !== null && choices.length > 2 ? ' wide' : '';
  return html`<div class="field${wide}"><span>${name}${hint && ` (${hint})`}</span>${content}</div>`;
}

function tick(choice: string, ticked: boolean): Html {
  return html`<span class="tick"><span class="box">${ticked ? '×' : null}</span>${choice}</span>`;
}

/** Numbered lines under the columns' names; the first may say something already. */
function lines(
  columns: readonly SheetColumn[],
  from: number,
  count: number,
  said: { column: string; text: string } | null,
): Html {
  const cell = ({ name, choices }: SheetColumn, i: number) =>
    choices !== null
      ? html`<td><span class="ticks">${choices.map((c) => tick(c, false))}</span></td>`
      : i === 0 && name === said?.column
        ? html`<td class="said">${said.text}</td>`
        : html`<td></td>`;
  return html`<table><thead><tr><th class="no">no.</th>${columns.map(
    ({ label: name, hint, choices }) =>
      html`<th${choices === null ? null : html` class="ticked"`}>${name}${hint && ` (${hint})`}</th>`,
  )}</tr></thead><tbody>${Array.from(
    { length: count },
    (_, i) =>
      html`<tr><td class="no">${from + i}</td>${columns.map((column) => cell(column, i))}</tr>`,
  )}</tbody></table>`;
}

function keyPage({ key, lake }: FieldSheets): Html {
  return html`<section class="page key">
<header><h1>For those who type the sheets in</h1><p>${lake}</p></header>
<p class="codes">Every ${term('transect')} gets its rows, also one where nothing was found: it has no row of clusters then.</p>
${key.map(
  ({ file, row, columns }) => html`<h2>${file}: one row is ${row}</h2>
<table><thead><tr><th>On the sheet</th><th>Column</th><th>Must be filled in</th><th>Meaning</th></tr></thead><tbody>${columns.map(
    (c) =>
      html`<tr><td>${c.label}</td><td><code>${c.name}</code></td><td>${c.required}</td><td>${c.meaning}</td></tr>`,
  )}</tbody></table>`,
)}
</section>`;
}
