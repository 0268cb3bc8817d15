/** areas.html: what was asked for and came out, then a page an area for the boat. One file, no request, prints well. */

import { labels, terms } from '../../shared/glossary.ts';
import type { AreaRow } from '../present/area-facts.ts';
import type { AreaPicture } from '../present/area-picture.ts';
import type { AreaSheet, HeldRead } from '../present/areas.ts';
import type { ProposalRow, ProposedRead } from '../present/proposals.ts';
import { TREATMENT_CAUTION } from '../present/treatment-caution.ts';
import { CAUTIONS } from './cautions.ts';
import { areaFigure } from './figures/area.ts';
import { type Html, html } from './html.ts';
import { htmlPage } from './html-page.ts';
import { STYLE } from './report-style.ts';
import { table } from './report-table.ts';

const OWN_STYLE = `
.sheet { break-before: page; }
:is(.sheet, .overview) figure svg { display: block; width: 100%; height: auto; max-height: 360px; font-family: inherit; }
.corners { columns: 2 300px; padding: 0; list-style: none; font-size: 13px; }
.corners li { margin: 0; break-inside: avoid; }
.corners span { color: #55616e; white-space: nowrap; }
@media screen and (min-width: 561px) {
  th[scope="row"] { white-space: nowrap; }
}
@media print {
  th[scope="row"] { white-space: nowrap; }
  .sheet figure svg { max-height: 270px; }
  .overview figure svg { max-height: 62mm; }
  .corners { font-size: 11px; }
}
.mind { padding: 8px 12px; border: 2px solid #8a4b00; font-weight: 600; }
.mind p { margin: 0; }
`;

/**
 * A whole HTML document.
 * @param proposed null where no area was proposed
 * @param overview all areas on the lake; null where there is none
 */
export function areaSheetsHtml(
  read: HeldRead,
  proposed: ProposedRead | null,
  overview: AreaPicture | null,
  sheets: readonly AreaSheet[],
): string {
  const answers = [proposed?.answer ?? null, read.answer].filter((said) => said !== null);
  const body = html`<main>
<p class="lake">${read.lake}</p>
<h1>Treatment areas</h1>
${answers.map((said) => html`<p class="answer">${said}</p>`)}
<p class="note">${read.opening}</p>
${mind()}
${overview && html`<div class="overview">${areaFigure(overview)}</div>`}
${proposed && proposals(proposed, read.ciName)}
${read.candidates.length === 0 ? null : candidates(read)}
${read.order.length === 0 ? null : order(read.order)}
<section><h2>Cautions</h2><ul>${CAUTIONS.map((c) => html`<li>${c}</li>`)}</ul></section>
${sheets.map((sheet) => sheetOf(sheet, read.lake))}
</main>`;
  return htmlPage(`${read.lake}: ${terms('treatmentArea')}`, STYLE + OWN_STYLE, body);
}

function proposals(
  { asked, proposals: rows, compact, notes, curve }: ProposedRead,
  ciName: string,
): Html {
  return html`<section><h2>Proposals</h2><p>${asked}</p>
${rows.length === 0 ? null : proposalTable(rows, compact, ciName)}
${notes.map((note) => html`<p class="note">${note}</p>`)}
${curve.length < 2 ? null : curveTable(curve)}</section>`;
}

const mind = (): Html => html`<div class="mind"><p>${TREATMENT_CAUTION}</p></div>`;

const SIZE_COLUMNS = [
  { name: 'Area' },
  { name: 'ha', number: true },
  { name: 'Mean depth', number: true },
  { name: 'm³', number: true },
];

const sizeCells = (r: AreaRow): string[] => [r.name, r.land, r.meanDepth, r.volume];

function proposalTable(
  rows: readonly ProposalRow[],
  compact: AreaRow | null,
  ciName: string,
): Html | null {
  const columns = [
    ...SIZE_COLUMNS,
    { name: labels('mussel'), number: true },
    { name: ciName, number: true },
    { name: 'Share', number: true },
    { name: 'Corrected', number: true },
    { name: ciName, number: true },
  ];
  const all = rows.map((r) => ({
    cells: [...sizeCells(r), ...r.mussels, r.share[0], ...r.corrected],
  }));
  if (compact !== null)
    all.push({ cells: [...sizeCells(compact), ...compact.mussels, compact.share[0], '', ''] });
  return table(
    'What each proposal holds, and the best single compact area beside them',
    columns,
    all,
  );
}

function candidates({ candidates: rows, leftOut, ciName }: HeldRead): Html {
  const columns = [
    ...SIZE_COLUMNS,
    { name: labels('mussel'), number: true },
    { name: ciName, number: true },
    { name: 'Share', number: true },
    { name: ciName, number: true },
  ];
  return html`<section><h2>Areas of treatments.geojson</h2>${table(
    'What each area holds',
    columns,
    rows.map((r) => ({ cells: [...sizeCells(r), ...r.mussels, ...r.share] })),
  )}${leftOut && html`<p class="note">${leftOut}</p>`}</section>`;
}

function curveTable([head, ...rows]: string[][]): Html | null {
  const columns = (head ?? []).map((name, i) => ({ name, number: i > 0 }));
  return table(
    'The best single area of other budgets',
    columns,
    rows.map((cells) => ({ cells })),
  );
}

function order(list: HeldRead['order']): Html {
  const columns = [{ name: 'Holds more mussels' }, { name: 'Chance', number: true }];
  return html`<section><h2>Which holds more</h2>${table(
    'Chance that an area holds more than the next one',
    columns,
    list.map((cells) => ({ cells: [...cells] })),
  )}</section>`;
}

function sheetOf({ name, facts, outside, picture, corners, more }: AreaSheet, lake: string): Html {
  return html`<section class="sheet"><h2>${name}, ${lake}</h2>
${mind()}
${areaFigure(picture)}
<dl>${facts.map(([what, value]) => html`<div><dt>${what}</dt><dd>${value}</dd></div>`)}</dl>
${outside.length === 0 ? null : html`<p class="note">Of its water not in the number of mussels: ${outside.join('; ')}.</p>`}
<h3>Corners (WGS 84)</h3>
<ul class="corners">${corners.map((c) => html`<li><b>${c.name}</b> ${c.minutes} <span>${c.degrees}</span></li>`)}</ul>
${more && html`<p class="note">${more}</p>`}</section>`;
}
