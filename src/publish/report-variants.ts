/** The report's table of the analysis and its variants. */

import { capital, gloss, label, term, terms } from '../../shared/glossary.ts';
import type { VariantLine, VariantsCompared } from '../present/variants.ts';
import { type Html, html } from './html.ts';
import { numberedTable, seeTable } from './plates.ts';

export function variantsSection({ lines, sentence, note }: VariantsCompared, where: string): Html {
  return html`<p>${sentence} ${seeTable('variants')} sets them side by side.</p>${numberedTable(
    'variants',
    `The analysis, in bold, and its ${terms('variant')}, ${where}.`,
    [
      { name: label('variant') },
      { name: 'Model' },
      { name: label('deltaAicc'), number: true },
      { name: 'Total', number: true },
      { name: label('confidenceInterval'), number: true },
      { name: 'Change', number: true },
      { name: 'Checks' },
    ],
    lines.map((l) => ({
      sum: l.isAnalysis,
      cells: [nameCell(l), l.model, l.delta, l.total, l.interval, l.change, l.checks],
    })),
  )}<p class="note">${capital(term('variant'))}: ${gloss('variant')}. ${note}</p>`;
}

function nameCell({ name, choices, remark }: VariantLine): Html {
  const beneath = [choices, remark].filter((said) => said !== null);
  return html`${name}${beneath.map((said) => html`<br><small>${said}</small>`)}`;
}
