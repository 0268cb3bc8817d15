/** report-short.html: two pages for whoever decides, from the same parts as the report; every word in one language. */

import { densityPicture } from '../present/density-curve.ts';
import { reportWords } from '../present/front-page.ts';
import type { ResultInput } from '../present/index.ts';
import { lakeMap } from '../present/lake-map.ts';
import { readShortReport, type ShortReport, type ShortTable } from '../present/short-report.ts';
import { captionPlace } from '../present/source.ts';
import { type Html, html } from './html.ts';
import { htmlPage } from './html-page.ts';
import { numbered, numberedTable, seeTable, withReferences } from './plates.ts';
import { plateWords, type ReportOptions } from './report.ts';
import { frontPage } from './report-front.ts';
import { pageStyle, STYLE } from './report-style.ts';

/** A whole HTML document. */
export function shortReportHtml(
  result: ResultInput,
  { language = 'en', held = null }: ReportOptions = {},
): string {
  const words = reportWords(language);
  const { title, where, areas, outside, cautions, madeBy } = readShortReport(result, words, held);
  const map = lakeMap(result, words);
  const body = html`<main class="short">
${frontPage(result, { map, density: densityPicture(result), signed: false }, words)}
<div class="second" lang="${words.tag}">
${where && wherePart(where)}
${areas && areasPart(areas)}
${outside && html`<section><h2>${outside.heading}</h2><p>${outside.text}</p></section>`}
<section><h2>${cautions.heading}</h2><ul>${cautions.list.map((c) => html`<li>${c}</li>`)}</ul></section>
<p class="note">${madeBy}</p>
</div>
</main>`;
  const style = STYLE + pageStyle(captionPlace(result));
  return htmlPage(title, style, numbered(body, plateWords(words)), { lang: words.tag });
}

function wherePart({
  heading,
  text,
  byDepth,
  bySubstrate,
}: NonNullable<ShortReport['where']>): Html {
  const told = withReferences(text, {
    table: seeTable('depths'),
    otherTable: seeTable('substrates'),
  });
  return html`<section><h2>${heading}</h2><p>${told}</p>${shortTable('depths', byDepth)}${shortTable('substrates', bySubstrate)}</section>`;
}

function areasPart({ heading, text, table }: NonNullable<ShortReport['areas']>): Html {
  const told = withReferences(text, { table: seeTable('areas') });
  return html`<section><h2>${heading}</h2><p>${told}</p>${shortTable('areas', table)}</section>`;
}

const shortTable = (name: string, { title, columns, rows }: ShortTable): Html | null =>
  numberedTable(name, title, columns, rows);
