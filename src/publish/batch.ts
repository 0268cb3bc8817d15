/** The files of a batch: numbers as JSON and CSV, and a page with a line and a link a lake. */

import type { BatchFile, LakeNumbers } from '../../shared/batch.ts';
import { term } from '../../shared/glossary.ts';
import { type BatchRead, readBatch } from '../present/batch.ts';
import { CAUTIONS } from './cautions.ts';
import { type Cell, quantityCells, quantityColumns, toCsv } from './csv.ts';
import { lakesByDensity, lakesMap } from './figures/lakes.ts';
import { finiteJson } from './finite-json.ts';
import { type Html, html } from './html.ts';
import { htmlPage } from './html-page.ts';
import { STYLE, WIDE } from './report-style.ts';
import { table } from './report-table.ts';

/** Every name that `batchFiles` gives a file. */
export const BATCH_FILES = ['batch.json', 'lakes.csv', 'lakes.html'] as const;

/** Where the results of the lakes lie, beside these files. */
export const LAKES_FOLDER = 'lakes';

/** File name → text. Throws on a figure that is not finite. */
export function batchFiles(file: BatchFile): Map<string, string> {
  return new Map([
    ['batch.json', finiteJson(file)],
    ['lakes.csv', lakesCsv(file)],
    ['lakes.html', lakesHtml(readBatch(file))],
  ]);
}

const HEAD = [
  'name',
  'folder',
  'lake',
  'status',
  'first_dive',
  'last_dive',
  'transects',
  'detections',
  'depth_from_m',
  'depth_to_m',
  'surveyed_m2',
  ...quantityColumns('mussels'),
  ...quantityColumns('mussels_per_m2'),
  ...quantityColumns('clusters'),
  'notices',
  'longitude',
  'latitude',
  'first_error',
];

function lakesCsv({ lakes }: BatchFile): string {
  return toCsv(
    HEAD,
    lakes.map(({ name, folder, numbers: n, errors }): Cell[] => [
      name,
      folder,
      n?.lake ?? null,
      statusOf(n),
      n?.from ?? null,
      n?.to ?? null,
      n?.transects ?? null,
      n?.detections ?? null,
      n?.depth_from_m ?? null,
      n?.depth_to_m ?? null,
      n?.surveyed_m2 ?? null,
      ...quantityCells(n?.mussels ?? null),
      ...quantityCells(n?.mussels_per_m2 ?? null),
      ...quantityCells(n?.clusters ?? null),
      n?.notices ?? null,
      n?.middle?.[0] ?? null,
      n?.middle?.[1] ?? null,
      errors[0] ?? null,
    ]),
  );
}

/** As in the page: what has results may lack a number for the whole lake. */
function statusOf(n: LakeNumbers | null): string {
  if (n === null) return 'errors';
  if (n.detections === 0) return 'none detected';
  return n.mussels === null ? 'no number' : 'estimated';
}

const OWN_STYLE = `
figure > svg { display: block; width: 100%; max-width: 640px; height: auto; font-family: inherit; }
`;

function lakesHtml(read: BatchRead): string {
  const body = html`<main>
<h1>${read.title}</h1>
<p class="answer">${read.opening}</p>
${read.notes.map((note) => html`<p>${note}</p>`)}
${section(`By ${term('density')}`, lakesByDensity(read.bars, `Lakes by ${term('density')}`))}
${section('Where they lie', read.map && lakesMap(read.map, 'Where the lakes lie'))}
<section><h2>A line a lake</h2>${lakeTable(read.rows)}</section>
${read.errors.length === 0 ? null : html`<section><h2>What must be fixed</h2>${read.errors.map(({ name, lines }) => html`<h3>${name}</h3><ul>${lines.map((line) => html`<li>${line}</li>`)}</ul>`)}</section>`}
<section><h2>Cautions</h2><ul>${CAUTIONS.map((c) => html`<li>${c}</li>`)}</ul></section>
</main>`;
  return htmlPage(read.title, STYLE + WIDE + OWN_STYLE, body);
}

function section(title: string, figure: Html | null): Html | null {
  return figure === null
    ? null
    : html`<section><h2>${title}</h2><figure>${figure}</figure></section>`;
}

/** Each lake's name leads to its own page, where it has one. */
function lakeTable([head, ...rows]: BatchRead['rows']): Html | null {
  return table(
    null,
    head.cells.map((name, i) => ({ name, number: i > 1, whole: i === 1 })),
    rows.map(({ name, faulty, cells: [first, ...cells] }) => ({
      cells: [
        faulty
          ? first
          : html`<a href="${LAKES_FOLDER}/${encodeURIComponent(name ?? '')}/report.html">${first}</a>`,
        ...cells,
      ],
    })),
  );
}
