/** The report's section on the checks: each with its verdict, its sentence, and the figure that shows what it saw. */

import type { ObservedExpected } from '../../shared/estimate.ts';
import type { CheckResult, SurveyResult } from '../../shared/result.ts';
import { type ComparedGroup, comparedFigure } from './figures/compared.ts';
import { captioned } from './figures/frame.ts';
import { influenceCaption, influenceFigure } from './figures/influence.ts';
import { residualCaption, residualFigures } from './figures/residuals.ts';
import { type Html, html } from './html.ts';
import { byVerdict, checksSentence } from './sureness.ts';

export type CheckedResult = Pick<SurveyResult, 'checks' | 'estimate' | 'segments' | 'survey'>;

/** Checks with a figure of their own; the others stand as sentences. */
const DRAWN = new Set(['diver', 'substrate', 'depth', 'residuals', 'influence', 'offset']);

/** The sentences of the checks without a figure, then the figures with theirs. */
export function checksSection(result: CheckedResult): Html {
  const { checks, estimate } = result;
  if (checks === null)
    return html`<p>${
      estimate.data.detections === 0
        ? 'Nothing was found, so there is no model to check.'
        : 'The model was not checked.'
    }</p>`;
  const told = byVerdict(checks.checks.filter((c) => !DRAWN.has(c.name)));
  return html`<p>${checksSentence(checks)} Each figure has its verdict below it.</p>
${told.length === 0 ? null : html`<ul class="checks">${told.map((c) => html`<li><b>${c.title}</b>: ${verdictWords(c)}</li>`)}</ul>`}
<div class="figures">${checkFigures(result)}</div>`;
}

/** `Doubtful. χ² …`, or nothing where the check was not made. */
export function verdictOf(checks: SurveyResult['checks'], name: string): Html | null {
  const check = checks?.checks.find((c) => c.name === name);
  return check === undefined ? null : html`${verdictWords(check)} `;
}

export function verdictWords({ verdict, sentence }: CheckResult): Html {
  return html`<b class="${verdict}">${verdict.charAt(0).toUpperCase()}${verdict.slice(1)}.</b> ${sentence}`;
}

function checkFigures(result: CheckedResult): (Html | null)[] {
  const { checks, estimate } = result;
  const compared = (name: string, title: string, rows: typeof estimate.checks.by_diver) =>
    captioned(
      `Found and expected, by ${title}`,
      comparedFigure(`by-${name}`, title, groupsOf(rows)),
      html`${verdictOf(checks, name)}`,
    );
  const residuals = residualFigures(result);
  return [
    compared('diver', 'diver', estimate.checks.by_diver),
    html`<div>${compared('substrate', 'substrate', estimate.checks.by_substrate)}${compared('depth', 'depth', estimate.checks.by_depth)}</div>`,
    residuals &&
      captioned(
        'Residuals against depth',
        residuals.depth,
        html`${verdictOf(checks, 'residuals')}${residualCaption(result)}`,
      ),
    residuals &&
      captioned(
        'Residuals against the expected count',
        residuals.expected,
        'The same residuals: a fan or a bend would say that the counts scatter otherwise where more is expected.',
      ),
    captioned(
      'Which rope carries the answer',
      influenceFigure(result),
      html`${verdictOf(checks, 'influence')}${influenceCaption(result)}`,
    ),
  ];
}

/** Rows whose labels end in a design, under a heading each; the designs are named so where a survey has both. */
function groupsOf(rows: ObservedExpected[]): ComparedGroup[] {
  const ends = { belt: 'on belts', distance: 'on distance transects' };
  const groups = Object.entries(ends).map(([design, heading]) => ({
    heading,
    rows: rows
      .filter((r) => r.label.endsWith(`, ${design}`))
      .map((r) => ({ ...r, label: r.label.slice(0, -design.length - 2) })),
  }));
  const grouped = groups.reduce((sum, g) => sum + g.rows.length, 0);
  return grouped === rows.length
    ? groups.filter((g) => g.rows.length > 0)
    : [{ heading: null, rows }];
}
