/** Treatment areas as a person at a terminal reads them: proposals, areas of the survey, which holds more, what to mind. */

import { label, labels } from '../../shared/glossary.ts';
import { visible } from '../../shared/words.ts';
import type { AreaRow } from '../present/area-facts.ts';
import type { HeldRead } from '../present/areas.ts';
import { HEADINGS } from '../present/headings.ts';
import type { ProposalRow, ProposedRead } from '../present/proposals.ts';
import { TREATMENT_CAUTION } from '../present/treatment-caution.ts';
import { columns, wrap } from './text.ts';

/** Text of at most 80 columns, as far as the names of the areas leave room. */
export function areasText(read: HeldRead, proposed: ProposedRead, bold: boolean): string {
  const heading = (text: string) => (bold ? `\u001b[1m${text}\u001b[0m` : text);
  const parts: [string, string | null][] = [
    [HEADINGS.answer, wrap(read.opening, '  ')],
    ['Proposals', proposals(proposed, read.ciName)],
    ['Other budgets', proposed.curve.length < 2 ? null : columns(proposed.curve, RIGHT, '  ')],
    ['Areas of treatments.geojson', candidates(read)],
    ['Which holds more mussels', chances(read.order)],
    [HEADINGS.cautions, wrap(TREATMENT_CAUTION, '  ')],
  ];
  const told = parts
    .filter(([, text]) => text !== null)
    .map(([title, text]) => `${heading(title)}\n${printable(text ?? '')}\n`);
  return `${heading(visible(read.lake))}\n\n${told.join('\n')}`;
}

const RIGHT: ('left' | 'right')[] = ['right', 'right', 'right'];
const AFTER_NAME = (n: number): ('left' | 'right')[] => ['left', ...new Array(n).fill('right')];

function proposals(
  { asked, proposals: rows, compact, notes }: ProposedRead,
  ciName: string,
): string {
  const head = ['Area', 'ha', 'm³', labels('mussel'), 'Share', 'corrected', ciName];
  const cells = (r: AreaRow): string[] => [r.name, r.land, r.volume, r.mussels[0], r.share[0]];
  const lines = rows.map((r: ProposalRow) => [...cells(r), ...r.corrected]);
  if (compact !== null) lines.push([...cells(compact), '', '']);
  return [
    wrap(asked, '  '),
    ...(rows.length === 0 ? [] : [columns([head, ...lines], AFTER_NAME(6), '  ')]),
    ...notes.map((note) => wrap(note, '  ')),
  ].join('\n');
}

function candidates({ candidates: rows, leftOut, ciName }: HeldRead): string | null {
  if (rows.length === 0) return null;
  const head = ['Area', 'ha', label('depth'), 'm³', labels('mussel'), ciName, 'Share'];
  const lines = rows.map((r) => [r.name, r.land, r.meanDepth, r.volume, ...r.mussels, r.share[0]]);
  const table = columns([head, ...lines], AFTER_NAME(6), '  ');
  return leftOut === null ? table : `${table}\n${wrap(leftOut, '  ')}`;
}

function chances(order: HeldRead['order']): string | null {
  return order.length === 0 ? null : columns(order, ['left', 'right'], '  ');
}

/** Names come from files: a control character in one must not reach the terminal. */
function printable(text: string): string {
  return text.split('\n').map(visible).join('\n');
}
