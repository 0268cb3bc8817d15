/** The analysis and its variants, for the terminal. */

import { term, terms } from '../../shared/glossary.ts';
import { NONE } from '../present/quantity.ts';
import type { VariantLine, VariantsCompared } from '../present/variants.ts';
import { wrap } from './text.ts';

/** A paragraph each; null without a variant. */
export function variantLines(compared: VariantsCompared | null): string | null {
  if (compared === null) return null;
  return [
    wrap(compared.sentence, '  '),
    ...compared.lines.map(paragraph),
    wrap(compared.note, '  '),
  ].join('\n');
}

function paragraph(line: VariantLine): string {
  const { name, isAnalysis, choices, remark, delta, change, checks, model } = line;
  const figures = [
    totalWords(line),
    change === NONE ? null : change,
    delta === NONE ? null : `${term('deltaAicc')} ${delta}`,
  ].filter((said) => said !== null);
  const beneath = [figures.join(', '), choices, model === NONE ? null : model, remark];
  const said = [
    `${isAnalysis ? '* ' : '- '}${name}${isAnalysis ? ' (the analysis)' : ''}`,
    ...beneath.flatMap((text) => (text === null || text === '' ? [] : [text])),
    ...(checks === NONE ? [] : [`checks: ${checks}`]),
  ];
  return said.map((text, i) => wrap(text, i === 0 ? '  ' : '    ', '      ')).join('\n');
}

function totalWords({ total, interval, ciName }: VariantLine): string | null {
  if (total === NONE) return null;
  const counted = total.endsWith(terms('cluster')) ? total : `${total} ${terms('mussel')}`;
  return interval === NONE ? counted : `${counted} (${ciName} ${interval})`;
}
