/** The files of `compare`: numbers as JSON and CSV, and a page to read and print. */

import type { ChangeFile, ChangeMapInput, ChangeRow } from '../../shared/change.ts';
import { type ChangeRead, type PairRead, readChange } from '../present/change.ts';
import { type ChangeMap, changeMap } from '../present/change-map.ts';
import { LIMIT_LINE } from '../present/change-pictures.ts';
import { CAUTIONS } from './cautions.ts';
import { type Cell, quantityCells, quantityColumns, toCsv } from './csv.ts';
import { changeFigure, seriesFigure } from './figures/change.ts';
import { furtherDrawing } from './figures/lake-map.ts';
import { finiteJson } from './finite-json.ts';
import { type Html, html } from './html.ts';
import { htmlPage } from './html-page.ts';
import { STYLE, WIDE } from './report-style.ts';
import { table } from './report-table.ts';

/** Every name that `changeFiles` gives a file. */
export const CHANGE_FILES = ['change.json', 'change.csv', 'change.html'] as const;

/** File name → text. Throws on a figure that is not finite. */
/** @param maps one a pair; left out or empty: none is drawn */
export function changeFiles(
  file: ChangeFile,
  maps: readonly (ChangeMapInput | null)[] = [],
): Map<string, string> {
  const read = readChange(file);
  const drawn = maps.map((map, i) =>
    map === null ? null : changeMap(map, i, read.pairs[i].title),
  );
  return new Map([
    ['change.json', finiteJson(file)],
    ['change.csv', changeCsv(file)],
    ['change.html', changeHtml(read, drawn)],
  ]);
}

const HEAD = [
  'before',
  'after',
  'part',
  'name',
  'substrate',
  'depth_from_m',
  'depth_to_m',
  'area_m2',
  ...quantityColumns('mussels_before'),
  ...quantityColumns('mussels_after'),
  'ratio',
  'ratio_lower',
  'ratio_upper',
  'probability_of_decline',
];

function changeCsv({ pairs }: ChangeFile): string {
  const rows = pairs.flatMap((pair) => {
    const row =
      (part: string) =>
      (r: ChangeRow): Cell[] => [
        pair.before,
        pair.after,
        part,
        r.name,
        r.substrate,
        r.depth_from_m,
        r.depth_to_m,
        r.area_m2,
        ...quantityCells(r.before),
        ...quantityCells(r.after),
        ...ratio(r),
      ];
    return [
      row('total')(pair.total),
      ...pair.by_substrate.map(row('substrate')),
      ...pair.by_depth.map(row('depth')),
      ...pair.strata.map(row('stratum')),
      ...pair.areas.map(row('area')),
    ];
  });
  return toCsv(HEAD, rows);
}

/** Where one survey detected nothing there is one limit alone. */
function ratio({ change: c, limit }: ChangeRow): Cell[] {
  if (c !== null) return [c.ratio, c.lower, c.upper, c.decline];
  if (limit === null) return [null, null, null, null];
  return limit.nothing_in === 'after'
    ? [null, null, limit.ratio, null]
    : [null, limit.ratio, null, null];
}

const OWN_STYLE = `
figure > svg { display: block; width: 100%; max-width: 640px; height: auto; font-family: inherit; }
@media print { figure > svg { max-height: 10.5cm; } }
.pair { break-before: auto; }
`;

/** A whole HTML document. @param maps of the pairs; without one none is drawn */
export function changeHtml(read: ChangeRead, maps: readonly (ChangeMap | null)[] = []): string {
  const body = html`<main>
<h1>${read.title}</h1>
${read.pairs.map((pair, i) => pairSection(pair, i, maps[i] ?? null))}
<section><h2>All surveys</h2>
${tableOf(null, read.surveys)}
${figure(seriesFigure(read.series, 'Mussels on each survey’s own surveyed habitat'))}
<p class="note">${read.series.described}</p></section>
<section><h2>Cautions</h2><ul>${CAUTIONS.map((c) => html`<li>${c}</li>`)}</ul></section>
</main>`;
  return htmlPage(read.title, STYLE + WIDE + OWN_STYLE, body);
}

function pairSection(pair: PairRead, index: number, map: ChangeMap | null): Html {
  return html`<section class="pair"><h2>${pair.title}</h2>
<p class="answer">${pair.opening}</p>
${pair.sure.map((line) => html`<p>${line}</p>`)}
${pair.treated === null ? null : html`<h3>Treated against untreated</h3>${pair.treated.map((line) => html`<p>${line}</p>`)}`}
${figure(changeFigure(`change-${index + 1}`, `Change, ${pair.title}`, pair.bars))}
${pair.bars.some((b) => b.ratio === null) ? html`<p class="note">A line with a stop and no mark: ${LIMIT_LINE}.</p>` : null}
${map === null ? null : mapOf(map)}
${pair.tables.map(({ caption, rows }) => tableOf(caption, rows))}
<h3>What it rests on</h3>
${pair.basis.map((line) => html`<p class="note">${line}</p>`)}</section>`;
}

const mapOf = ({ map, drawn }: ChangeMap): Html =>
  html`<figure>${furtherDrawing(map, drawn)}<figcaption>${drawn.title}</figcaption></figure>${drawn.note === null ? null : html`<p class="note">${drawn.note}</p>`}`;

const figure = (drawn: Html | null): Html | null =>
  drawn === null ? null : html`<figure>${drawn}</figure>`;

function tableOf(caption: string | null, [head, ...rows]: string[][]): Html | null {
  return table(
    caption,
    head.map((name, i) => ({ name, number: i > 0 })),
    rows.map((cells) => ({ cells })),
  );
}
