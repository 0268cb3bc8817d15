/** The report's sections on what the number is about: the surveyed habitat with what lies outside of it, treatment areas. */

import { capital, gloss, labels, term } from '../../shared/glossary.ts';
import type { Exclusions } from '../present/exclusions.ts';
import { NONE } from '../present/quantity.ts';
import type { TreatmentAreas } from '../present/treatments.ts';
import { type Html, html } from './html.ts';
import { numberedTable, seeFigure, seeTable } from './plates.ts';

/** What the number holds for; the bed outside of the surveyed habitat by reason, and what was never mapped. */
export function habitatSection(
  exclusions: Exclusions | null,
  habitat: string | null,
  where: string,
): Html {
  const definition = habitat === null ? null : html`<p>${habitat}</p>`;
  if (exclusions === null)
    return html`${definition}<p>Without a map of the lake it cannot be said how much of its bed was not searched.</p>`;
  if (exclusions.rows.length === 0) return html`${definition}<p>${exclusions.text}</p>`;
  return html`${definition}<p>${seeTable('exclusions')} has the bed that the number leaves out, by reason; mussels may live there too.</p>${numberedTable(
    'exclusions',
    `Bed outside the ${term('surveyedHabitat')}, ${where}; mussels may live there.`,
    [{ name: 'Why' }, { name: 'ha', number: true }, { name: 'acres', number: true }],
    exclusions.rows.map((r) => ({ cells: [r.words, r.areaBare, r.acresBare] })),
  )}`;
}

/** Candidate areas side by side. */
export function treatmentSection(
  { rows, note }: TreatmentAreas,
  {
    caution,
    ciName,
    hasMap,
    where,
  }: { caution: string; ciName: string; hasMap: boolean; where: string },
): Html {
  const outside = rows.some((r) => r.outside !== null);
  return html`<p>${capital(gloss('treatmentArea') ?? '')}: ${seeTable('treatments')} sets them side by side${hasMap ? html`, ${seeFigure('map')} draws them` : null}. ${note}</p>
<p>${caution}</p>${numberedTable(
    'treatments',
    `${labels('treatmentArea')}, ${where}: what lies within their part of the ${term('surveyedHabitat')}.`,
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
  )}`;
}
