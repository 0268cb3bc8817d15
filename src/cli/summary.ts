/** The result as a person at a terminal reads it: searched, seen, dense where, how many, and what to mind. */

import { label, labels, term } from '../../shared/glossary.ts';
import type { DensityCurve, SurveyResult } from '../../shared/result.ts';
import { formatDepth } from '../../shared/units.ts';
import { visible } from '../../shared/words.ts';
import type { Answer } from '../present/answer.ts';
import { checkOf } from '../present/checks.ts';
import { sizeSentence } from '../present/cluster-sizes.ts';
import { NOTHING_DETECTED, readDetection } from '../present/detection.ts';
import type { Exclusions } from '../present/exclusions.ts';
import { HEADINGS } from '../present/headings.ts';
import { type ResultRead, readResult } from '../present/index.ts';
import { NONE, quantityCells } from '../present/quantity.ts';
import { bootstrapSentence, designSentence } from '../present/sureness.ts';
import { checkLines, modelLines } from './model-summary.ts';
import { noticeLines } from './notices.ts';
import { columns, wrap } from './text.ts';

/** With more strata than this the terminal shows substrates only; the strata are in strata.csv. */
const MOST_STRATA = 30;

export interface SummaryOptions {
  /** sets headings off on a screen that can */
  bold: boolean;
  /** the same screen shows the notices already: their number is enough */
  noticesPrinted?: boolean;
}

/** Text of at most 80 columns. */
export function summary(
  result: SurveyResult,
  { bold, noticesPrinted = false }: SummaryOptions,
): string {
  const shown = readResult(result);
  const { notices } = shown;
  const heading = (text: string) => (bold ? `\u001b[1m${text}\u001b[0m` : text);
  const parts: [string, string | null][] = [
    [HEADINGS.searched, shown.searchedLines.map((line) => wrap(line, '  ', '    ')).join('\n')],
    [`${HEADINGS.detection} (${shown.ciName})`, detection(result)],
    [HEADINGS.density, density(result, shown.ciName)],
    [HEADINGS.strata, strataLines(shown)],
    [HEADINGS.treatments, treatmentLines(shown)],
    [HEADINGS.answer, answerLines(result, shown.answer)],
    [HEADINGS.exclusions, exclusionLines(shown.exclusions)],
    [HEADINGS.models, modelLines(result)],
    [HEADINGS.checks, checkLines(result)],
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
function detection(result: SurveyResult): string {
  const reading = readDetection(result);
  if (reading === null) return wrap(NOTHING_DETECTED, '  ');
  const rows = reading.groups.flatMap((g) =>
    g.observers.map((o) => [o.label, o.design, o.share, o.interval ?? '']),
  );
  const sentences = [reading.fixed, reading.mean, sizeSentence(result)].filter((s) => s !== null);
  return [
    ...(rows.length === 0 ? [] : [columns(rows, ['left', 'left', 'right', 'left'], '  ')]),
    ...sentences.map((s) => wrap(s, '  ')),
  ].join('\n');
}

/** Some points of the density curves, where there is no lake whose strata say more. */
function density({ estimate, curves }: SurveyResult, ciName: string): string | null {
  if (estimate.data.detections === 0 || (estimate.strata?.length ?? 0) > 0) return null;
  return curves.length === 0 ? null : curvePoints(curves, ciName);
}

/** By substrate, with the strata of each unless there are very many. */
function strataLines({ strata, ciName }: ResultRead): string | null {
  const { substrates, count, whole } = strata;
  if (substrates.length === 0) return null;
  const each = count <= MOST_STRATA;
  const rows = [[label('substrate'), 'ha', 'per m²', ciName, labels('mussel'), ciName]];
  for (const s of substrates) {
    rows.push([s.words, s.area, s.density, '', s.mussels, '']);
    if (each)
      for (const { band, area, density: perM2, mussels } of s.strata)
        rows.push([`  ${band}`, area, ...perM2, ...mussels]);
  }
  if (whole !== null) rows.push(['all', whole.area, '', '', ...whole.mussels]);
  const text = columns(rows, ['left', 'right', 'right', 'right', 'right', 'right'], '  ');
  return each ? text : `${text}\n  (by ${term('stratum')}, with intervals: strata.csv)`;
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

/** Density at the shallow end, the middle and the deep end of each curve. */
function curvePoints(curves: DensityCurve[], ciName: string): string {
  const rows = [[label('substrate'), label('depth'), `${labels('mussel')} per m²`, ciName]];
  for (const c of curves) {
    const last = c.depthM.length - 1;
    for (const i of new Set([0, Math.round(last / 2), last])) {
      const limit = (x: number | undefined) => (x !== undefined && Number.isFinite(x) ? x : null);
      const q = {
        estimate: c.musselsPerM2[i]!,
        se: null,
        cv: null,
        lower: limit(c.lower[i]),
        upper: limit(c.upper[i]),
      };
      rows.push([c.substrate.join('+'), formatDepth(c.depthM[i]!), ...quantityCells(q)]);
    }
  }
  return columns(rows, ['left', 'right', 'right', 'right'], '  ');
}

/** The answer, then other ways to the same number: from bootstrap replicates, and without a habitat model. */
function answerLines(result: SurveyResult, { text, habitat }: Answer): string {
  const design = checkOf(result, 'design-based');
  // without a lake-wide number the answer itself gives the density along the transects
  const told = result.estimate.abundance === null && design?.verdict === 'holds';
  return [text, bootstrapSentence(result), told ? null : designSentence(result), habitat]
    .filter((sentence) => sentence !== null)
    .map((sentence) => wrap(sentence, '  '))
    .join('\n');
}

function exclusionLines(exclusions: Exclusions | null): string | null {
  if (exclusions === null || exclusions.rows.length === 0) return null;
  const rows = exclusions.rows.map(({ area, words }) => [area, words]);
  return columns(rows, ['right', 'left'], '  ');
}
