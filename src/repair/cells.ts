/** Cells that hold no number, no date or no listed value: what they were meant to be, or why that cannot be known. */

import type { Finding } from '../../shared/findings.ts';
import { WHOLE_ROW } from '../../shared/repairs.ts';
import { ALL_TABLES, type Column } from '../../shared/tables.ts';
import { M_PER_FOOT } from '../../shared/units.ts';
import { nearest, plain, quoted } from '../../shared/words.ts';
import { D, type Desk, made, numberOf, type Proposal, unknown } from './desk.ts';

/** Letters that are typed for digits. */
const LIKE_DIGITS: Record<string, string> = {
  o: '0',
  O: '0',
  l: '1',
  I: '1',
  i: '1',
  S: '5',
  s: '5',
  B: '8',
};

export function cellSlips(desk: Desk): Proposal[] {
  return [
    ...desk.told('not-a-number').map((finding) => notNumber(desk, finding)),
    ...desk.told('invalid-date').map((finding) => date(desk, finding)),
    ...desk
      .told('not-listed', 'unknown-substrate')
      .flatMap((finding) => listedValue(desk, finding)),
    ...desk.told('out-of-range').flatMap((finding) => countOfNothing(desk, finding)),
    ...desk.told('out-of-range').flatMap((finding) => fullTurn(desk, finding)),
    ...desk.told('half-an-end-point', 'no-direction').map((finding) => position(desk, finding)),
    ...desk.told('no-habitat').map((finding) => nothingWritten(desk, finding)),
  ];
}

function notNumber(desk: Desk, finding: Finding): Proposal {
  const text = textAt(desk, finding);
  const column = columnOf(finding);
  const to = (value: string, why: string, certain: boolean): Proposal => ({
    title: `Set ${finding.column} to ${value} (row ${finding.row})`,
    why,
    edits: made([desk.change(finding.table, finding.row ?? 0, finding.column ?? '', value)]),
    certain,
    answers: [finding],
  });
  if (/^[+-]?\d+,\d{1,2}$/.test(text) || /^[+-]?\d+,\d{4,}$/.test(text))
    return to(text.replace(',', '.'), 'a comma in place of the decimal point', true);
  const digits = [...text].map((letter) => LIKE_DIGITS[letter] ?? letter).join('');
  if (/\d/.test(text) && digits !== text && numberOf(digits) !== null)
    return to(digits, `a letter in place of a digit in ${quoted(text)}`, false);
  const measured = /^([+-]?\d+(?:\.\d+)?)\s*(m|ft|feet|'|′|cm|min|°|deg)$/i.exec(text);
  if (measured !== null && column !== null) {
    const [, value = '', unit = ''] = measured;
    const own: Record<string, RegExp> = {
      metres: /^m$/i,
      centimetres: /^cm$/i,
      degrees: /^(°|deg)$/i,
      minutes: /^min$/i,
    };
    if (own[column.unit ?? '']?.test(unit)) return to(value, 'the unit stands in the cell', true);
    if (column.unit === 'metres' && /^(ft|feet|'|′)$/i.test(unit))
      return to(
        plain(Number((Number(value) * M_PER_FOOT).toFixed(2))),
        `${quoted(text)} is in feet`,
        true,
      );
    if (column.unit === 'metres' && /^cm$/i.test(unit))
      return to(plain(Number(value) / 100), `${quoted(text)} is in centimetres`, true);
  }
  if (/^(\d+\s*\+|[<>~≈]\s*\d+|\d+\s*[-–]\s*\d+)$/.test(text))
    return unknown(
      [finding],
      `${quoted(text)} says a limit or a range, not a number: take it from a photo or the divers' notes, or type the best that is known with that as the reason`,
    );
  return unknown(
    [finding],
    `${quoted(text)} holds no number, and none can be made of words: the sheet, a photo or the divers must tell`,
  );
}

/** Day, month and year in another order, where only one reading is a day of the calendar near the others. */
function date(desk: Desk, finding: Finding): Proposal {
  const text = textAt(desk, finding);
  const parts = /^(\d{1,4})[-./ ](\d{1,2})[-./ ](\d{1,4})$/.exec(text)?.slice(1).map(Number);
  const days = desk
    .column(finding.table, 'date')
    .map((cell) => cell.text)
    .filter((day) => /^\d{4}-\d\d-\d\d$/.test(day));
  const years = new Set(days.map((day) => day.slice(0, 4)));
  const orders = parts === undefined ? [] : ordersOf(parts as [number, number, number]);
  const real = [...new Set(orders.filter(isDay))];
  const likely = real.filter((day) => years.size === 0 || years.has(day.slice(0, 4)));
  const [only] = likely;
  if (only === undefined || likely.length > 1)
    return unknown(
      [finding],
      likely.length > 1
        ? `${quoted(text)} may be ${likely.join(' or ')}: the sheet must tell which comes first, day or month`
        : `${quoted(text)} is no day in any order: the sheet must tell`,
    );
  return {
    title: `Set date to ${only} (row ${finding.row})`,
    why: `only so read is ${quoted(text)} a day${years.size > 0 ? ` of ${[...years].join(', ')}, as the others are` : ''}`,
    edits: made([desk.change(finding.table, finding.row ?? 0, 'date', only)]),
    answers: [finding],
  };
}

function ordersOf([a, b, c]: [number, number, number]): string[] {
  const year = (y: number) => (y < 100 ? 2000 + y : y);
  const iso = (y: number, m: number, d: number) =>
    `${String(year(y)).padStart(4, '0')}-${String(m).padStart(2, '0')}-${String(d).padStart(2, '0')}`;
  // where the year comes first, the month is the next, unless there is no such month
  if (a > 31) return [b > 12 ? iso(a, c, b) : iso(a, b, c)];
  return [iso(c, b, a), iso(c, a, b)];
}

function isDay(text: string): boolean {
  const at = Date.parse(`${text}T00:00:00Z`);
  // days beyond the month's last run over into the next
  return !Number.isNaN(at) && new Date(at).toISOString().startsWith(text);
}

/** The listed value, or the class, that a slip of the finger explains. */
function listedValue(desk: Desk, finding: Finding): Proposal[] {
  const text = textAt(desk, finding);
  const listed =
    finding.code === 'unknown-substrate'
      ? desk.reading.analysis.substrates
      : (columnOf(finding)?.choices ?? []);
  const parts = text.split('+').map((part) => part.trim());
  const meant = parts.map(
    (part) =>
      listed.find((one) => one.toLowerCase() === part.toLowerCase()) ??
      begins(part, listed) ??
      nearest(part, listed),
  );
  const value = meant.join('+');
  if (meant.includes(null) || value === text)
    return [
      unknown(
        [finding],
        `${quoted(text)} resembles none of the values that may stand here${finding.code === 'unknown-substrate' ? '; where it is a class of its own, add it to substrates in analysis.json' : ''}`,
      ),
    ];
  return [
    {
      title: `Set ${finding.column} to ${value} (row ${finding.row})`,
      why: `the listed value nearest to ${quoted(text)}`,
      edits: made([desk.change(finding.table, finding.row ?? 0, finding.column ?? '', value)]),
      answers: [finding],
    },
  ];
}

/** `P` for primary: an abbreviation that only one value begins with. */
function begins(part: string, listed: readonly string[]): string | null {
  const fitting = listed.filter((one) => one.toLowerCase().startsWith(part.toLowerCase()));
  return part !== '' && fitting.length === 1 ? (fitting[0] ?? null) : null;
}

/** A cluster of 0: the only row of its transect says that nothing was found; among others nobody knows what it says. */
function countOfNothing(desk: Desk, finding: Finding): Proposal[] {
  if (finding.table !== D || finding.column !== 'count' || numberOf(textAt(desk, finding)) !== 0)
    return [];
  const row = finding.row ?? 0;
  const label = desk.text(D, row, 'transect');
  const rows = label === null ? [] : (desk.detectionsOf.get(label) ?? []);
  const cells = desk.row(D, row) ?? [];
  if (rows.length > 1)
    return [
      unknown(
        [finding],
        `a cluster of 0 among ${rows.length - 1} other rows of the transect: a count that was not read, or a row that says nothing was found there; the sheet must tell`,
      ),
    ];
  return [
    {
      title: `Leave row ${row} out`,
      why: 'it is the only row of its transect and counts 0: searched, and nothing found, which a transect without a row says',
      edits: [{ table: D, row, column: WHOLE_ROW, old: JSON.stringify(cells), new: '' }],
      answers: [finding],
    },
  ];
}

/** A compass card has 360 and 0 at one place. */
function fullTurn(desk: Desk, finding: Finding): Proposal[] {
  if (finding.column !== 'bearing_deg' || numberOf(textAt(desk, finding)) !== 360) return [];
  return [
    {
      title: `Set bearing_deg to 0 (row ${finding.row})`,
      why: '360° and 0° are the same way: north',
      edits: made([desk.change(finding.table, finding.row ?? 0, 'bearing_deg', '0')]),
      certain: true,
      answers: [finding],
    },
  ];
}

function position(desk: Desk, finding: Finding): Proposal {
  const row = finding.row ?? 0;
  if (finding.code === 'no-direction')
    return unknown(
      [finding],
      'neither bearing nor end waypoint is there: they must come from the sheet or the GPS; an end waypoint alone is enough, and so is a bearing',
    );
  const bearing = desk.text(finding.table, row, 'bearing_deg') ?? '';
  const half = finding.column === 'end_lat' ? 'end_lon' : 'end_lat';
  if (numberOf(bearing) === null)
    return unknown(
      [finding],
      `there is no bearing from which the end could be inferred: ${finding.column} must come from the sheet or the GPS`,
    );
  return {
    title: `Leave the half of an end waypoint out (row ${row})`,
    why: `the bearing (${bearing}°) and the length then give the end, which is marked as inferred; the other half, if the GPS has it, is better`,
    edits: made([desk.change(finding.table, row, half, '')]),
    answers: [finding],
  };
}

function nothingWritten(desk: Desk, finding: Finding): Proposal {
  const label = desk.text(finding.table, finding.row ?? 0, 'transect') ?? '';
  return unknown(
    [finding],
    `${quoted(label)} has no row in any table but this one: what lies along it stands on its habitat sheet, at least the row at 0 m; a transect that was planned and not searched is left out by its row`,
  );
}

function textAt(desk: Desk, { table, row, column }: Finding): string {
  return desk.text(table, row ?? 0, column ?? '') ?? '';
}

function columnOf({ table, column }: Finding): Column | null {
  return (
    ALL_TABLES.find(({ file }) => file === table)?.columns.find(({ name }) => name === column) ??
    null
  );
}
