/** The report's sections on what the number is about: the surveyed habitat with what lies outside of it, treatment areas. */

import { label, labels, term, terms } from '../../shared/glossary.ts';
import type { Exclusions } from '../present/exclusions.ts';
import { NONE } from '../present/quantity.ts';
import type { TogetherRead, TreatmentAreas } from '../present/treatments.ts';
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
  const { interpolated } = exclusions;
  const made = interpolated === null ? null : html`<p>${interpolated}</p>`;
  if (exclusions.rows.length === 0) return html`${definition}${made}<p>${exclusions.text}</p>`;
  return html`${definition}${made}<p>${seeTable('exclusions')} has the bed that the number leaves out, by reason; mussels may live there too.</p>${numberedTable(
    'exclusions',
    `Bed outside the ${term('surveyedHabitat')}, ${where}; mussels may live there.`,
    [{ name: 'Why' }, { name: 'ha', number: true }, { name: 'acres', number: true }],
    exclusions.rows.map((r) => ({ cells: [r.words, r.areaBare, r.acresBare] })),
  )}`;
}

export interface TreatmentParts {
  areas: TreatmentAreas;
  /** null where they are not known together */
  together: TogetherRead | null;
  caution: string;
  ciName: string;
  hasMap: boolean;
}

/** Candidate areas side by side: what they hold, their water, and how sure their order is. */
export function treatmentSection(parts: TreatmentParts, where: string): Html {
  const { areas, together, caution, hasMap } = parts;
  const order = together && orderTable(together, where);
  return html`<p>${caution}</p>
<p>${seeTable('treatments')} sets the areas that might be treated side by side${hasMap ? html`; ${seeFigure('map')} draws them` : null}.${together && html` ${seeTable('water')} has their water.`}${order && html` ${seeTable('order')} has the chance that one holds more than the next.`} ${areas.note}${together?.leftOut == null ? null : ` ${together.leftOut}`}</p>
${heldTable(parts, where)}
${together && waterTable(together, where)}
${order}`;
}

function heldTable(
  { areas: { rows }, together, ciName }: TreatmentParts,
  where: string,
): Html | null {
  const outside = rows.some((r) => r.outside !== null);
  return numberedTable(
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
      ...(together === null ? [] : [{ name: ciName, number: true }]),
    ],
    rows.map((r, i) => ({
      cells: [
        r.name,
        r.area,
        r.acres,
        ...(outside ? [r.outside ?? NONE] : []),
        ...r.mussels,
        r.share,
        ...(together === null ? [] : [together.shareLimits[i] ?? NONE]),
      ],
    })),
  );
}

function waterTable({ water }: TogetherRead, where: string): Html | null {
  return numberedTable(
    'water',
    `Water of the ${terms('treatmentArea')}, ${where}: all of it, also outside the ${term('surveyedHabitat')}; volume of the whole column.`,
    [
      { name: 'Area' },
      ...['ha', 'acres', 'Mean depth', label('greatestDepth'), 'm³', 'acre-feet', 'Searched'].map(
        (name) => ({ name, number: true }),
      ),
    ],
    water.map((cells) => ({ cells })),
  );
}

function orderTable({ order }: TogetherRead, where: string): Html | null {
  return numberedTable(
    'order',
    `${labels('treatmentArea')} by their ${terms('mussel')}, ${where}: the chance that one holds more than the next.`,
    [{ name: 'Which' }, { name: 'Chance', number: true }],
    order.map((cells) => ({ cells })),
  );
}
