/** Labels of transects, among them those that a spreadsheet has turned into dates: 3-4 typed becomes 4 March or 3 April. */

import type { Ask, RawCell } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { listed, quoted } from '../../../shared/words.ts';
import { sourcesTold } from './blocks.ts';
import { type GatheredRow, type Given, givenOf } from './gather.ts';

/** null: the label is refused. */
export type LabelOf = (given: Given) => string | null;

interface DayMonth {
  day: number;
  month: number;
}

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

/** @param rows of all kinds together: what one sheet has lost may stand in another */
export function askLabels(rows: readonly GatheredRow[], ask: Ask): LabelOf {
  const given = givenOf(rows, 'transect');
  const spoilt = given.flatMap((one) => dayMonthIn(one.cell) ?? []);
  const sound = new Set(
    given.flatMap(({ cell }) => (dayMonthIn(cell) === null ? [cell.text] : [])),
  );
  // labels that are dates throughout were meant as dates
  if (spoilt.length === 0 || sound.size === 0) return ({ cell }) => cell.text;
  const sign = [...sound].some((text) => /^\d+\/\d+$/.test(text)) ? '/' : '-';
  const monthFirst = support(spoilt, sound, ({ day, month }) => [month, day], sign);
  const dayFirst = support(spoilt, sound, ({ day, month }) => [day, month], sign);
  const example = spoilt[0];
  const [asMonth, asDay] = [
    `${example.month}${sign}${example.day}`,
    `${example.day}${sign}${example.month}`,
  ];
  const first = given.find(({ cell }) => dayMonthIn(cell) !== null)!;
  const answer = ask({
    kind: 'choice',
    id: 'transects.labels',
    about: sourcesTold(
      given.filter(({ cell }) => dayMonthIn(cell) !== null).map(({ spot }) => spot.table),
    ),
    ask: `A spreadsheet has turned labels into dates (${quoted(first.cell.text)} in row ${first.spot.row}): what was typed?`,
    evidence: [
      `${formatCount(spoilt.length)} of ${formatCount(given.length)} labels are dates, the others are not (${listed(
        [...sound].slice(0, 3).map((text) => quoted(text)),
        'and',
      )}).`,
      `As month and day, ${formatCount(monthFirst)} of them begin with a number or are labels that also stand elsewhere; as day and month, ${formatCount(dayFirst)}.`,
    ],
    certain: false,
    pictures: [],
    options: [
      {
        value: 'month-day',
        label: `month, then day: ${quoted(first.cell.text)} was ${quoted(asMonth)}`,
      },
      {
        value: 'day-month',
        label: `day, then month: ${quoted(first.cell.text)} was ${quoted(asDay)}`,
      },
      { value: 'refuse', label: 'neither: I correct the file' },
    ],
    proposal: dayFirst > monthFirst ? 'day-month' : 'month-day',
  });
  return ({ cell }) => {
    const date = dayMonthIn(cell);
    if (date === null) return cell.text;
    if (answer === 'month-day') return `${date.month}${sign}${date.day}`;
    return answer === 'day-month' ? `${date.day}${sign}${date.month}` : null;
  };
}

/** A date cell, or the text that a spreadsheet shows of one: 3-Apr, Apr-03. */
function dayMonthIn({ kind, text }: RawCell): DayMonth | null {
  const iso =
    kind === 'date' || kind === 'text'
      ? /^(?:19|20)\d\d-(\d\d)-(\d\d)(?:T00:00:00)?$/.exec(text)
      : null;
  if (iso !== null) return { day: Number(iso[2]), month: Number(iso[1]) };
  if (kind !== 'text') return null;
  const shown =
    /^(\d{1,2})[- ]([a-z]{3})(?:[- ](?:\d{2}|\d{4}))?$/i.exec(text) ??
    swapped(/^([a-z]{3})[- ](\d{1,2})$/i.exec(text));
  const month = shown === null ? 0 : MONTHS.indexOf(shown[2].toLowerCase()) + 1;
  const day = Number(shown?.[1]);
  return month > 0 && day >= 1 && day <= 31 ? { day, month } : null;
}

function swapped(found: RegExpExecArray | null): string[] | null {
  return found === null ? null : [found[0], found[2], found[1]];
}

/** How many repaired labels stand elsewhere as they are, or share their first number with labels that were not spoilt. */
function support(
  spoilt: readonly DayMonth[],
  sound: ReadonlySet<string>,
  order: (date: DayMonth) => [number, number],
  sign: string,
): number {
  const firsts = new Set(
    [...sound].flatMap((text) => /^(\d+)[-/]\d+$/.exec(text)?.[1] ?? []).map(Number),
  );
  return spoilt.filter((date) => {
    const [a, b] = order(date);
    return sound.has(`${a}${sign}${b}`) || firsts.has(a);
  }).length;
}
