/** Times spent: whether a spreadsheet has made hours of minutes that were typed is asked. */

import type { Ask } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { quoted } from '../../../shared/words.ts';
import { readDuration } from './durations.ts';
import { type GatheredRow, type Given, givenOf } from './gather.ts';

/** Decimal minutes or mm:ss; null where it is no time. */
export type MinutesOf = (given: Given) => string | null;

const FIELDS = ['setup_min', 'habitat_min', 'search_min'];

export function askTimes(rows: readonly GatheredRow[], ask: Ask): MinutesOf {
  const given = FIELDS.flatMap((field) => givenOf(rows, field));
  const doubtful = given.filter((one) => minutesIn(one, true)?.doubtful === true);
  if (doubtful.length === 0) return (one) => minutesIn(one, true)?.text ?? null;
  const exact = given.filter(({ cell }) => /^\d+:[0-5]\d:(?!00)[0-5]\d$/.test(cell.text)).length;
  const text = doubtful[0].cell.text;
  const [first, second] = text.replace(/^.*T/, '').split(':').map(Number);
  const answer = ask({
    kind: 'choice',
    id: 'transects.times',
    about: `${doubtful[0].spot.table}, ${quoted(doubtful[0].column.text)}`,
    ask: `Spreadsheets read 3:10 as hours and minutes. Is ${quoted(text)} a time of ${first} minutes and ${second} seconds?`,
    evidence: [
      `${formatCount(doubtful.length)} of ${formatCount(given.length)} times have hours and no seconds; ${formatCount(exact)} have seconds.`,
      `Read as hours, the first of them would be ${first} h ${second} min spent on one transect.`,
    ],
    certain: false,
    pictures: [],
    options: [
      { value: 'minutes', label: `minutes and seconds: ${first} min ${second} s` },
      { value: 'hours', label: `hours and minutes: ${first} h ${second} min` },
    ],
    proposal: 'minutes',
  });
  return (one) => minutesIn(one, answer !== 'hours')?.text ?? null;
}

function minutesIn({ cell, column, decimalComma }: Given, asMinutes: boolean) {
  if (cell.kind === 'error') return null;
  const { unit } = column;
  const said = unit === 's' || unit === 'h' ? unit : 'min';
  return readDuration(cell.text, said, decimalComma, asMinutes);
}
