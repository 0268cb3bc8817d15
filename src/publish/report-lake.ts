/** The report's tables of the lake: strata, treatment areas, and what lies outside of the surveyed habitat. */

import { capital, gloss, label, labels, term } from '../../shared/glossary.ts';
import type { Exclusions } from '../present/exclusions.ts';
import type { UpperLimits } from '../present/limits.ts';
import { NONE } from '../present/quantity.ts';
import type { DepthRow, Strata, SubstrateRow } from '../present/strata.ts';
import type { TreatmentAreas } from '../present/treatments.ts';
import { captioned } from './figures/frame.ts';
import { marginFigure } from './figures/margins.ts';
import { type Html, html } from './html.ts';
import { type Row, table } from './report-table.ts';

/** Bars of both margins; then the tables: by depth band, and by substrate with its depth bands. */
export function strataSection(strata: Strata, ciName: string): Html {
  const { substrates, depths, whole, missing, captions, basis } = strata;
  if (missing !== null) return html`<p>${missing}</p>`;
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
  return html`<div class="pair">${captioned(strata.title, marginFigure(strata), html`Lines: ${ciName}.`)}<div>${table(
    captions.depths,
    [{ name: label('depth') }, ...numbers],
    [...depths.map((d) => ({ cells: [d.band, ...cells(d)] })), ...all],
  )}</div></div>${table(
    `${captions.substrates}, in bold, and each ${term('stratum')}: ${gloss('stratum')}`,
    [{ name: label('substrate') }, ...numbers],
    [...bySubstrate, ...all],
  )}${basis === null ? null : html`<p class="note">${basis}</p>`}`;
}

/** Candidate areas side by side. */
export function treatmentTable({ rows, note }: TreatmentAreas, ciName: string): Html {
  const outside = rows.some((r) => r.outside !== null);
  return html`${table(
    `${capital(gloss('treatmentArea') ?? '')}: what lies within its part of the ${term('surveyedHabitat')}`,
    [
      { name: 'Area' },
      { name: 'ha', number: true },
      { name: 'acres', number: true },
      ...(outside ? [{ name: 'Outside (ha)', number: true }] : []),
      { name: labels('mussel'), number: true },
      { name: ciName, number: true },
      { name: 'Share', number: true },
    ],
    rows.map((r) => ({
      cells: [
        r.name,
        r.area,
        r.acres,
        ...(outside ? [r.outside ?? NONE] : []),
        ...r.mussels,
        r.share,
      ],
    })),
  )}<p class="note">${note}</p>`;
}

/** The bed outside of the surveyed habitat by reason, and what was never mapped. */
export function exclusionTable(exclusions: Exclusions | null): Html {
  if (exclusions === null)
    return html`<p>Without a map of the lake it cannot be said how much of its bed was not searched.</p>`;
  return (
    table(
      'Bed that the number leaves out; mussels may live there',
      [{ name: 'Why' }, { name: 'ha', number: true }, { name: 'acres', number: true }],
      exclusions.rows.map((r) => ({ cells: [r.words, r.areaBare, r.acresBare] })),
    ) ?? html`<p>${exclusions.text}</p>`
  );
}

/** Classes where nothing was detected: what density that still allows. */
export function upperLimitTable(limits: UpperLimits | null): Html | null {
  if (limits === null) return null;
  return html`${table(
    'Searched, and nothing detected: the density that this still allows',
    [
      { name: 'Class' },
      { name: `${labels('cluster')} per m², at most`, number: true },
      { name: `${labels('mussel')} per m², at most`, number: true },
    ],
    limits.rows.map((l) => ({ cells: [l.name, l.clusters, l.mussels] })),
  )}<p class="note">${limits.note}</p>`;
}
