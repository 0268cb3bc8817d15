/** The report's section on the checks: each with its verdict, its sentence, and the figure that shows what it saw. */

import { label } from '../../shared/glossary.ts';
import type { CheckName, SurveyResult } from '../../shared/result.ts';
import { type CheckWords, checkOf, checksSentence, readChecks } from '../present/checks.ts';
import {
  type ObservedTable,
  observedByDepth,
  observedByObserver,
  observedBySubstrate,
} from '../present/observed-expected.ts';
import { comparedFigure } from './figures/compared.ts';
import { captioned } from './figures/frame.ts';
import { influenceCaption, influenceFigure } from './figures/influence.ts';
import { residualCaption, residualFigures } from './figures/residuals.ts';
import { type Html, html } from './html.ts';

export type CheckedResult = Pick<SurveyResult, 'checks' | 'estimate' | 'segments' | 'survey'>;

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
export function checksSection(result: CheckedResult): Html {
  const checks = readChecks(result);
  if (checks === null)
    return html`<p>${
      result.estimate.data.detections === 0
        ? 'Nothing was detected, so there is no model to check.'
        : 'The model was not checked.'
    }</p>`;
  const told = checks.filter((c) => !DRAWN.has(c.name));
  return html`<p>${checksSentence(checks)} Each figure has its verdict below it.</p>
${told.length === 0 ? null : html`<ul class="checks">${told.map((c) => html`<li><b>${c.title}</b>${c.gloss === null ? null : html` (${c.gloss})`}: ${verdictWords(c)}</li>`)}</ul>`}
<div class="figures">${checkFigures(result)}</div>`;
}

/** `Doubtful. χ² …`, or nothing where the check was not made. */
export function verdictOf(
  result: Pick<SurveyResult, 'checks' | 'survey'>,
  name: CheckName,
): Html | null {
  const check = checkOf(result, name);
  return check === null ? null : html`${verdictWords(check)} `;
}

export function verdictWords({ verdict, sentence }: CheckWords): Html {
  return html`<b class="${verdict}">${verdict.charAt(0).toUpperCase()}${verdict.slice(1)}.</b> ${sentence}`;
}

function checkFigures(result: CheckedResult): (Html | null)[] {
  const { checks } = result.estimate;
  const compared = (table: ObservedTable | null) =>
    table === null
      ? null
      : captioned(table.title, comparedFigure(table), html`${verdictOf(result, table.of)}`);
  const residuals = residualFigures(result);
  return [
    compared(observedByObserver(checks)),
    html`<div>${compared(observedBySubstrate(checks))}${compared(observedByDepth(checks))}</div>`,
    residuals &&
      captioned(
        'Residuals against depth',
        residuals.depth,
        html`${verdictOf(result, 'residuals')}${residualCaption(result)}`,
      ),
    residuals &&
      captioned(
        'Residuals against the expected count',
        residuals.expected,
        'The same residuals: a fan or a curve would say that the counts vary otherwise where more is expected.',
      ),
    captioned(
      label('influence'),
      influenceFigure(result),
      html`${verdictOf(result, 'influence')}${influenceCaption(result)}`,
    ),
  ];
}
