/** The report's section on methods: what was done, in words, with every choice of the analysis and what is cited. */

import type { ChosenGroup, ChosenValue } from '../present/choices.ts';
import type { MethodsRead } from '../present/methods-paragraph.ts';
import { type Html, html } from './html.ts';
import { numberedTable, seeSection, seeTable } from './plates.ts';

export function methodsSection(
  { paragraph, references }: MethodsRead,
  chosen: readonly ChosenGroup[],
  where: string,
): Html {
  return html`<p>${paragraph}</p>
<p>${seeTable('choices')} has every choice that this analysis rests on; ${seeSection('models')} has the models compared, ${seeSection('checks')} how well the one used fits.</p>
${numberedTable(
  'choices',
  `Choices of the analysis, ${where}; in bold those that are not the default.`,
  [{ name: 'About' }, { name: 'Choices' }],
  chosen.map(({ title, choices }) => ({
    cells: [title, html`${choices.map((c, i) => html`${i === 0 ? null : '; '}${choice(c)}`)}`],
  })),
)}
${references.length === 0 ? null : html`<h3>Sources</h3><ul class="note sources">${references.map((r) => html`<li>${r}</li>`)}</ul>`}`;
}

function choice({ name, value, insteadOf }: ChosenValue): Html {
  if (insteadOf === null) return html`${name}: ${value}`;
  return html`<b>${name}: ${value}</b> (default: ${insteadOf})`;
}
