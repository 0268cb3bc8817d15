/** The report's section on the checks: each with its verdict, its sentence, and the figure that shows what was computed. */

import { label } from '../../shared/glossary.ts';
import { type Checking, verdictOn } from '../present/checking.ts';
import type { CheckName, CheckWords } from '../present/checks.ts';
import type { ObservedTable } from '../present/observed-expected.ts';
import { comparedFigure } from './figures/compared.ts';
import { captioned } from './figures/frame.ts';
import { influenceCaption, influenceFigure } from './figures/influence.ts';
import { residualCaption, residualFigures } from './figures/residuals.ts';
import { type Html, html } from './html.ts';

/** Checks with a figure of their own; the others stand as sentences. */
const DRAWN: ReadonlySet<CheckName> = new Set([
  'observer',
  'substrate',
  'depth',
  'residuals',
  'influence',
  'perpendicular-distance',
]);

/** The sentences of the checks without a figure, then the figures with theirs. */
export function checksSection(checking: Checking): Html {
  const told = checking.checks.filter((c) => !DRAWN.has(c.name));
  return html`<p>${checking.sentence} Each figure has its verdict below it.</p>
${told.length === 0 ? null : html`<ul class="checks">${told.map((c) => html`<li><b>${c.title}</b>${c.gloss === null ? null : html` (${c.gloss})`}: ${verdictWords(c)}</li>`)}</ul>`}
<div class="figures">${checkFigures(checking)}</div>`;
}

/** `Doubtful. χ² …`, or nothing where the check was not made. */
export function verdictOf(checking: Checking | null, name: CheckName): Html | null {
  const check = checking && verdictOn(checking, name);
  return check && html`${verdictWords(check)} `;
}

export function verdictWords({ verdict, sentence }: CheckWords): Html {
  return html`<b class="${verdict}">${verdict.charAt(0).toUpperCase()}${verdict.slice(1)}.</b> ${sentence}`;
}

function checkFigures(checking: Checking): (Html | null)[] {
  const { observed, residuals, influence } = checking;
  const compared = (table: ObservedTable | null) =>
    table && captioned(table.title, comparedFigure(table), html`${verdictOf(checking, table.of)}`);
  const drawn = residuals && residualFigures(residuals);
  return [
    compared(observed.observer),
    html`<div>${compared(observed.substrate)}${compared(observed.depth)}</div>`,
    residuals &&
      drawn &&
      captioned(
        'Residuals against depth',
        drawn.depth,
        html`${verdictOf(checking, 'residuals')}${residualCaption(residuals)}`,
      ),
    drawn &&
      captioned(
        'Residuals against the expected count',
        drawn.expected,
        'The same residuals: a fan or a curve would say that the counts vary otherwise where more is expected.',
      ),
    influence &&
      captioned(
        label('influence'),
        influenceFigure(influence),
        html`${verdictOf(checking, 'influence')}${influenceCaption(influence)}`,
      ),
  ];
}
