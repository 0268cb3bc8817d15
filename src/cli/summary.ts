/** The result as a person at a terminal reads it: searched, seen, dense where, how many, and what to mind. */

import { capital, label, labels, term } from '../../shared/glossary.ts';
import { visible } from '../../shared/words.ts';
import { sizeSentence } from '../present/cluster-sizes.ts';
import { NOTHING_DETECTED, readDetection } from '../present/detection.ts';
import type { Exclusions } from '../present/exclusions.ts';
import { HEADINGS } from '../present/headings.ts';
import { type ResultInput, type ResultRead, readResult } from '../present/index.ts';
import { NONE } from '../present/quantity.ts';
import type { StrataNumbers } from '../present/strata.ts';
import type { WhatIfRead } from '../present/what-if.ts';
import { checkLines, modelLines } from './model-summary.ts';
import { noticeLines } from './notices.ts';
import { columns, wrap } from './text.ts';
import { variantLines } from './variant-lines.ts';

/** With more strata than this the terminal shows substrates only; the strata are in strata.csv. */
const MOST_STRATA = 30;
/** `−12.5 % to +8.1 %`, and two spaces. */
const CHANGE_WIDTH = 20;
/** Room for the ends and the middle of a density curve; influence is told in its check. */
const ROOM = { depths: 3, transects: 0 };

export interface SummaryOptions {
  /** sets headings off on a screen that can */
  bold: boolean;
  /** the same screen shows the notices already: their number is enough */
  noticesPrinted?: boolean;
}

/** Text of at most 80 columns. */
export function summary(
  result: ResultInput,
  { bold, noticesPrinted = false }: SummaryOptions,
): string {
  const shown = readResult(result, ROOM);
  const { notices } = shown;
  const heading = (text: string) => (bold ? `\u001b[1m${text}\u001b[0m` : text);
  const parts: [string, string | null][] = [
    [HEADINGS.searched, shown.searchedLines.map((line) => wrap(line, '  ', '    ')).join('\n')],
    [`${HEADINGS.detection} (${shown.ciName})`, detection(result)],
    [HEADINGS.density, densityLines(shown)],
    [HEADINGS.strata, strataLines(shown)],
    [HEADINGS.treatments, treatmentLines(shown)],
    [HEADINGS.answer, answerLines(shown)],
    [HEADINGS.exclusions, exclusionLines(shown.exclusions)],
    [HEADINGS.whatIf, whatIfLines(shown.whatIf)],
    [HEADINGS.models, modelLines(shown.model)],
    [HEADINGS.checks, checkLines(shown.checking)],
    [HEADINGS.variants, variantLines(shown.variants)],
    [notices.title, noticesPrinted && notices.count > 0 ? '  As above.' : noticeLines(notices)],
  ];
  const told = parts
    .filter(([, text]) => text !== null && text !== '')
    .map(([title, text]) => `${heading(title)}\n${printable(text ?? '')}\n`);
  return `${heading(visible(shown.lake))}\n\n${told.join('\n')}`;
}

/** Names come from files: a control character in one must not reach the terminal. */
function printable(text: string): string {
  return text.split('\n').map(visible).join('\n');
}

/** Each observer with the interval, and what holds over all. */
function detection(result: ResultInput): string {
  const reading = readDetection(result);
  if (reading === null) return wrap(NOTHING_DETECTED, '  ');
  const rows = reading.groups.flatMap((g) =>
    g.observers.map((o) => [o.label, o.design, o.share, o.interval ?? '']),
  );
  const sentences = [reading.fixed, reading.mean, reading.planted, sizeSentence(result)].filter(
    (s) => s !== null,
  );
  return [
    ...(rows.length === 0 ? [] : [columns(rows, ['left', 'left', 'right', 'left'], '  ')]),
    ...sentences.map((s) => wrap(s, '  ')),
  ].join('\n');
}

/** Densities at some depths, where there is no lake whose strata say more. */
function densityLines({ densities, density, strata, ciName }: ResultRead): string | null {
  if (densities === null || density === null || strata.count > 0) return null;
  const rows = [[label('substrate'), label('depth'), `${labels('mussel')} per m²`, ciName]];
  densities.names.forEach((name, i) => {
    for (const { depth, cells } of densities.rows) {
      const cell = cells[i] ?? null;
      if (cell !== null) rows.push([name, depth, cell.estimate, cell.interval ?? NONE]);
    }
  });
  return columns(rows, ['left', 'right', 'right', 'right'], '  ');
}

/** By depth band, then by substrate with the strata of each unless there are very many. */
function strataLines({ strata, ciName }: ResultRead): string | null {
  const { substrates, depths, count, whole, basis } = strata;
  if (substrates.length === 0) return null;
  const each = count <= MOST_STRATA;
  const cells = ({ area, density: perM2, mussels }: StrataNumbers) => [area, ...perM2, ...mussels];
  const head = (first: string) => [first, 'ha', 'per m²', ciName, labels('mussel'), ciName];
  const rows = [head(label('depth')), ...depths.map((d) => [d.band, ...cells(d)]), []];
  rows.push(head(label('substrate')));
  for (const s of substrates) {
    rows.push([s.words, ...cells(s)]);
    if (each) for (const one of s.strata) rows.push([`  ${one.band}`, ...cells(one)]);
  }
  if (whole !== null) rows.push([], ['all', ...cells(whole)]);
  const text = columns(rows, ['left', 'right', 'right', 'right', 'right', 'right'], '  ');
  return [
    text,
    each ? null : `  (by ${term('stratum')}, with intervals: strata.csv)`,
    basis === null ? null : wrap(basis, '  '),
  ]
    .filter((line) => line !== null)
    .join('\n');
}

function treatmentLines({ treatments, ciName }: ResultRead): string | null {
  if (treatments === null) return null;
  const rows = treatments.rows.map((t) => [
    t.name,
    t.area,
    t.outside ?? NONE,
    ...t.mussels,
    t.share,
  ]);
  const head = ['Area', 'ha', 'outside', labels('mussel'), ciName, 'Share'];
  const text = columns(
    [head, ...rows],
    ['left', 'right', 'right', 'right', 'right', 'right'],
    '  ',
  );
  return `${text}\n${wrap(treatments.note, '  ')}`;
}

/** The answer, then other ways to the same number: from bootstrap replicates, and without a habitat model. */
function answerLines({ answer, bootstrap, designBased, areaAbove }: ResultRead): string {
  return [
    answer.text,
    areaAbove?.sentence ?? null,
    bootstrap,
    designBased?.sentence ?? null,
    answer.habitat,
  ]
    .filter((sentence) => sentence !== null)
    .map((sentence) => wrap(sentence, '  '))
    .join('\n');
}

/** A line an assumption; how each is computed is said in the report. */
function whatIfLines(read: WhatIfRead | null): string | null {
  if (read === null) return null;
  const hanging = ' '.repeat(2 + CHANGE_WIDTH);
  const rows = read.lines.map(({ change, otherwise, total }) => {
    const text = wrap(`${capital(otherwise)}: ${total}`, hanging);
    return `  ${change.padEnd(CHANGE_WIDTH)}${text.slice(hanging.length)}`;
  });
  return [wrap(read.opening, '  '), ...rows].join('\n');
}

function exclusionLines(exclusions: Exclusions | null): string | null {
  if (exclusions === null) return null;
  const { rows, interpolated } = exclusions;
  const table = columns(
    rows.map(({ area, words }) => [area, words]),
    ['right', 'left'],
    '  ',
  );
  const lines = [
    ...(rows.length === 0 ? [] : [table]),
    ...(interpolated === null ? [] : [wrap(interpolated, '  ')]),
  ];
  return lines.length === 0 ? null : lines.join('\n');
}
