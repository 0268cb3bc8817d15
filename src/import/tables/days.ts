/** The day of each dive: the order of day and month is read from all rows together, and asked where both orders are possible. */

import type { Ask } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { quoted } from '../../../shared/words.ts';
import { type DateOrder, inOrder, orderOf, readDate } from './dates.ts';
import type { Given } from './gather.ts';

/** ISO 8601; null where the cell is no day. */
export type DayOf = (given: Given) => string | null;

export function askDays(given: readonly Given[], ask: Ask): { dayOf: DayOf; remarks: string[] } {
  const typed = given.filter(({ cell }) => cell.kind !== 'date');
  const serials = typed.filter(({ cell }) => /^\d{5}(\.\d+)?$/.test(cell.text)).length;
  const told =
    serials === 0
      ? []
      : [
          `Dates: ${formatCount(serials)} ${serials === 1 ? 'number was' : 'numbers were'} read as days that a spreadsheet counts from 1900.`,
        ];
  const either = typed.filter(({ cell }) => readDate(cell.text)?.kind === 'either');
  if (either.length === 0) return { dayOf: (one) => dayIn(one, 'day-first'), remarks: told };
  const orders = typed.flatMap(({ cell }) => orderOf(cell.text) ?? []);
  const dayFirst = orders.filter((order) => order === 'day-first').length;
  const monthFirst = orders.length - dayFirst;
  if (orders.length > 0 && (dayFirst === 0 || monthFirst === 0)) {
    const order = orders[0];
    const words = order === 'day-first' ? 'day before month' : 'month before day';
    return {
      dayOf: (one) => dayIn(one, order),
      remarks: [
        ...told,
        `Dates: ${words}, as ${formatCount(orders.length)} of ${formatCount(typed.length)} can be read in no other way.`,
      ],
    };
  }
  const spans = (['day-first', 'month-first'] as const).map((order) => spanOf(given, order));
  const shorter: DateOrder = spans[1].days < spans[0].days ? 'month-first' : 'day-first';
  const example = either[0].cell.text;
  const answer = ask({
    kind: 'choice',
    id: 'transects.date-order',
    about: `${given[0].spot.table}, ${quoted(given[0].column.text)}`,
    ask: `In which order were the dates typed: does ${quoted(example)} begin with the day or with the month?`,
    evidence: [
      `${formatCount(either.length)} of ${formatCount(typed.length)} dates can be read both ways.`,
      `Day first, the dives lie between ${spans[0].words}; month first, between ${spans[1].words}.`,
    ],
    certain: false,
    pictures: [],
    options: [
      {
        value: 'day-first',
        label: `day first: ${quoted(example)} is ${inOrder(readDate(example)!, 'day-first')}`,
      },
      {
        value: 'month-first',
        label: `month first: ${quoted(example)} is ${inOrder(readDate(example)!, 'month-first')}`,
      },
    ],
    proposal: shorter,
  });
  const order: DateOrder = answer === 'month-first' ? 'month-first' : 'day-first';
  return { dayOf: (one) => dayIn(one, order), remarks: told };
}

function dayIn({ cell }: Given, order: DateOrder): string | null {
  if (cell.kind === 'date') return /^\d{4}-\d{2}-\d{2}/.exec(cell.text)?.[0] ?? null;
  const read = readDate(cell.text);
  return read === null ? null : inOrder(read, order);
}

function spanOf(given: readonly Given[], order: DateOrder): { days: number; words: string } {
  const days = given.flatMap((one) => dayIn(one, order) ?? []).sort();
  const [first, last] = [days[0], days.at(-1)!];
  const length = Math.round((Date.parse(last) - Date.parse(first)) / 86_400_000);
  return { days: length, words: `${first} and ${last} (${formatCount(length)} days)` };
}
