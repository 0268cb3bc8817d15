/** The report's section on density and abundance: by depth and substrate, by stratum, and where nothing was detected. */

import { gloss, label, labels, term } from '../../shared/glossary.ts';
import type { DensityTable } from '../present/density-curve.ts';
import type { ResultRead } from '../present/index.ts';
import type { LakeMap } from '../present/lake-map.ts';
import type { UpperLimits } from '../present/limits.ts';
import type { DepthRow, Strata, SubstrateRow } from '../present/strata.ts';
import { furtherDrawing } from './figures/lake-map.ts';
import { marginFigure } from './figures/margins.ts';
import { type Html, html } from './html.ts';
import { figure, numberedTable, seeFigure, seeTable } from './plates.ts';
import { NONE, type Row } from './report-table.ts';

export function densitySection(shown: ResultRead, where: string): Html {
  const { density, densities, strata, map, areaAbove, limits, ciName } = shown;
  return html`${
    density === null
      ? html`<p>There is no density curve to draw.</p>`
      : html`<p>${seeFigure('density')} on the first page draws density against depth${densities && html`; ${seeTable('densities')} has its figures at some depths`}.</p>`
  }${areaAbove && html`<p>${areaAbove.sentence}</p>`}
${densities && densityTable(densities, ciName, where)}
${map && furtherMaps(map, where)}
${strataPart(strata, ciName, where)}
${limits && limitsPart(limits, where)}`;
}

function densityTable({ names, rows }: DensityTable, ciName: string, where: string): Html | null {
  return numberedTable(
    'densities',
    `${labels('mussel')} per m² at some depths, with the ${ciName}, ${where}.`,
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

/** The bed by other numbers: the chance of a density, and how sure the density is. */
function furtherMaps(map: LakeMap, where: string): Html | null {
  const { further } = map;
  if (further.length === 0) return null;
  const seen = further.map(
    (m, i) => html`${i === 0 ? null : ' and '}${seeFigure(m.name)} (${m.title})`,
  );
  return html`<p>The same bed by other numbers: ${seen}.</p>
<div class="figures">${further.map((m) => figure(m.name, furtherDrawing(map, m), `${m.title}, ${where}.`, m.note))}</div>`;
}

/** Bars of both margins; then the tables: by depth band, and by substrate with its depth bands. */
function strataPart(strata: Strata, ciName: string, where: string): Html {
  const { substrates, depths, whole, missing, captions, basis } = strata;
  const heading = html`<h3>${label('abundance')} by ${term('stratum')}</h3>`;
  if (missing !== null) return html`${heading}<p>${missing}</p>`;
  const all: Row[] =
    whole === null
      ? []
      : [{ sum: true, cells: ['all', whole.area, ...whole.density, ...whole.mussels, '100 %'] }];
  const numbers = [
    { name: 'Area (ha)', number: true },
    { name: 'per m²', number: true },
    { name: ciName, number: true },
    { name: labels('mussel'), number: true },
    { name: ciName, number: true },
    { name: 'Share', number: true },
  ];
  const cells = (row: DepthRow | SubstrateRow) => [
    row.area,
    ...row.density,
    ...row.mussels,
    row.share?.text ?? NONE,
  ];
  const bySubstrate = substrates.flatMap((row): Row[] => [
    { sum: true, cells: [row.words, ...cells(row)] },
    ...row.strata.map((s) => ({ cells: [s.band, s.area, ...s.density, ...s.mussels, ''] })),
  ]);
  const bars = figure(
    'margins',
    marginFigure(strata),
    `${strata.title}, ${where}.`,
    html`Bars: the number; lines: its ${ciName}.`,
  );
  const byDepth = numberedTable(
    'depths',
    `${captions.depths}, ${where}.`,
    [{ name: label('depth') }, ...numbers],
    [...depths.map((d) => ({ cells: [d.band, ...cells(d)] })), ...all],
  );
  const byStratum = numberedTable(
    'strata',
    `${captions.substrates}, in bold, and each ${term('stratum')}, ${where}.`,
    [{ name: label('substrate') }, ...numbers],
    [...bySubstrate, ...all],
  );
  return html`${heading}<p>${bars && html`${seeFigure('margins')} draws the number by ${term('depth')} and by ${term('substrate')}. `}${byDepth && html`${seeTable('depths')} has it by ${term('depthBand')}. `}${byStratum && html`${seeTable('strata')} has it by ${term('substrate')} and by ${term('stratum')} (${gloss('stratum')}).`}${basis === null ? null : ` ${basis}`}</p>
<div class="pair">${bars}<div>${byDepth}</div></div>${byStratum}`;
}

/** Classes where nothing was detected: what density that still allows. */
function limitsPart(limits: UpperLimits, where: string): Html {
  return html`<p>Where nothing was detected, ${seeTable('limits')} has the density that this still allows. ${limits.note}</p>${numberedTable(
    'limits',
    `Searched, and nothing detected: the density that this still allows, ${where}.`,
    [
      { name: 'Class' },
      { name: `${labels('cluster')} per m², at most`, number: true },
      { name: `${labels('mussel')} per m², at most`, number: true },
    ],
    limits.rows.map((l) => ({ cells: [l.name, l.clusters, l.mussels] })),
  )}`;
}
