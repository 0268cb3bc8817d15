/** The report's section on the checks: each with its verdict, its sentence, and the figure that shows what was computed. */

import { label, term } from '../../shared/glossary.ts';
import { type Checking, verdictOn } from '../present/checking.ts';
import type { CheckName, CheckWords } from '../present/checks.ts';
import type { ObservedTable } from '../present/observed-expected.ts';
import type { Residuals } from '../present/residuals.ts';
import { comparedFigure } from './figures/compared.ts';
import { influenceCaption, influenceFigure } from './figures/influence.ts';
import { residualCaption, residualFigures } from './figures/residuals.ts';
import { type Html, html } from './html.ts';
import { figure, seeFigure } from './plates.ts';

/** Checks with a figure in their section; the others stand as sentences. */
const DRAWN: ReadonlySet<CheckName> = new Set([
  'observer',
  'substrate',
  'depth',
  'residuals',
  'influence',
]);

/**
 * The sentences of the checks without a figure, then the figures with theirs.
 * @param hasDistances whether detections by perpendicular distance are drawn, with the check's verdict, elsewhere in the report
 */
export function checksSection(checking: Checking, hasDistances: boolean, where: string): Html {
  const { checks, sentence } = checking;
  const elsewhere = (c: CheckWords) => hasDistances && c.name === 'perpendicular-distance';
  const told = checks.filter((c) => !DRAWN.has(c.name) && !elsewhere(c));
  const drawn = checkFigures(checking, where);
  const seen = drawn.map(
    ({ name, about }, i) => html`${i === 0 ? null : ', '}${about} (${seeFigure(name)})`,
  );
  return html`<p>${sentence}${drawn.length === 0 ? null : html` Figures, each with its verdict below: ${seen}.`}${checks.some(elsewhere) ? html` The verdict on perpendicular distances stands below ${seeFigure('distances')}.` : null}</p>
${told.length === 0 ? null : html`<ul class="checks">${told.map((c) => html`<li><b>${c.title}</b>${c.gloss === null ? null : html` (${c.gloss})`}: ${verdictWords(c)}</li>`)}</ul>`}
${drawn.length === 0 ? null : html`<div class="figures">${drawn.map((d) => d.plate)}</div>`}`;
}

/** `Doubtful. χ² …`, or nothing where the check was not made. */
export function verdictOf(checking: Checking | null, name: CheckName): Html | null {
  const check = checking && verdictOn(checking, name);
  return check && html`${verdictWords(check)} `;
}

export function verdictWords({ verdict, sentence }: CheckWords): Html {
  return html`<b class="${verdict}">${verdict.charAt(0).toUpperCase()}${verdict.slice(1)}.</b> ${sentence}`;
}

interface Drawn {
  name: string;
  /** what it shows, within a list */
  about: string;
  plate: Html | null;
}

function checkFigures(checking: Checking, where: string): Drawn[] {
  const { observed, residuals, influence } = checking;
  const compared = (table: ObservedTable | null): Drawn[] =>
    table === null
      ? []
      : [
          {
            name: `by-${table.of}`,
            about: `by ${table.of}`,
            plate: figure(
              `by-${table.of}`,
              comparedFigure(table),
              `${table.title}, ${where}.`,
              html`${verdictOf(checking, table.of)}`,
            ),
          },
        ];
  return [
    ...compared(observed.observer),
    ...compared(observed.substrate),
    ...compared(observed.depth),
    ...(residuals === null ? [] : residualPlates(residuals, checking, where)),
    ...(influence === null
      ? []
      : [
          {
            name: 'influence',
            about: term('influence'),
            plate: figure(
              'influence',
              influenceFigure(influence),
              `${label('influence')}, ${where}.`,
              html`${verdictOf(checking, 'influence')}${influenceCaption(influence)}`,
            ),
          },
        ]),
  ];
}

function residualPlates(residuals: Residuals, checking: Checking, where: string): Drawn[] {
  const { depth, expected } = residualFigures(residuals);
  return [
    {
      name: 'residuals-depth',
      about: 'residuals by depth',
      plate: figure(
        'residuals-depth',
        depth,
        `Residuals of the segments against depth, ${where}.`,
        html`${verdictOf(checking, 'residuals')}${residualCaption(residuals)}`,
      ),
    },
    {
      name: 'residuals-expected',
      about: 'residuals by the expected count',
      plate: figure(
        'residuals-expected',
        expected,
        `Residuals of the segments against the expected count, ${where}.`,
        'The same residuals: a fan or a curve would say that the counts vary otherwise where more is expected.',
      ),
    },
  ];
}
