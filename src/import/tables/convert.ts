/** Gathered rows → the rows of transects.csv, habitat.csv and detections.csv as text; cells that cannot be read are refused with their place. */

import { errorAt, type Finding } from '../../../shared/findings.ts';
import type { Ask, ImportedRow } from '../../../shared/importing.ts';
import type { Column } from '../../../shared/tables.ts';
import { formatCount } from '../../../shared/units.ts';
import { listed, quoted } from '../../../shared/words.ts';
import { askDays } from './days.ts';
import { type GatheredRow, type Given, givenOf, type SheetKind } from './gather.ts';
import type { LabelOf } from './labels.ts';
import { askListed, askPlantCover, askSubstrate, joinClasses } from './listed-values.ts';
import { readNumber, shortDecimal, type Unit } from './numbers.ts';
import { whichOf } from './people.ts';
import { partObservers } from './people-rows.ts';
import { askTimes } from './times.ts';
import { askUnits, converted, lengthUnit, TABLES } from './units.ts';
import { askWaypoints, partPairs } from './waypoints.ts';

export interface Converted {
  rows: ImportedRow[];
  findings: Finding[];
  remarks: string[];
}

/** What other tables tell. */
export interface Around {
  labelOf: LabelOf;
  /** the longest transect in metres; null where none is known */
  longestM: number | null;
  /** primary and secondary observer by transect */
  divers: ReadonlyMap<string, { primary: string; secondary: string }>;
}

/** Text of our column; null: refused. */
type Reading = (given: Given, row: GatheredRow) => string | null;

/** In whole numbers and angles a unit changes nothing. */
const NO_UNIT_NEEDED: ReadonlySet<Unit | null> = new Set([null, 'deg', '%']);

export function convertRows(
  kind: SheetKind,
  gathered: readonly GatheredRow[],
  around: Around,
  ask: Ask,
): Converted {
  const remarks: string[] = [];
  const findings: Finding[] = [];
  const rows = kind === 'transects' ? partObservers(partPairs(gathered)) : joinClasses(gathered);
  const readings = readingsOf(kind, rows, around, ask, remarks);
  const columns = TABLES[kind].columns.filter(({ name }) =>
    rows.some(({ cells }) => cells.has(name)),
  );
  const out = rows.map((row) => {
    const cells: Record<string, string> = {};
    for (const column of columns) {
      const given = row.cells.get(column.name);
      const text = given === undefined ? '' : readings(column)(given, row);
      if (text === null && given !== undefined) findings.push(refusal(given, column));
      cells[column.name] = text ?? '';
    }
    const north = northOf(row);
    if (north !== null) cells.bearing_ref = north;
    for (const [name, text] of row.own) cells[ownName(kind, name)] = text;
    return { cells, place: row.place };
  });
  return { rows: out, findings, remarks };
}

/** A column that is kept although it is called like one of ours is no longer called so. */
function ownName(kind: SheetKind, name: string): string {
  const taken = TABLES[kind].columns.some((column) => column.name === name.trim().toLowerCase());
  return taken ? `${name} (as given)` : name;
}

/** North as the header of the bearing says it, where no column does. */
function northOf({ cells }: GatheredRow): 'magnetic' | 'true' | null {
  const header = cells.get('bearing_deg')?.column.text;
  if (header === undefined || cells.has('bearing_ref')) return null;
  if (/(?<![a-z])mag/i.test(header)) return 'magnetic';
  return /(?<![a-z])true(?![a-z])|°\s*t\b/i.test(header) ? 'true' : null;
}

function readingsOf(
  kind: SheetKind,
  rows: readonly GatheredRow[],
  around: Around,
  ask: Ask,
  remarks: string[],
): (column: Column) => Reading {
  const byName = new Map<string, Reading>();
  const units = askUnits(kind, rows, around.longestM, ask);
  for (const column of TABLES[kind].columns) {
    const { name } = column;
    const given = givenOf(rows, name);
    if (given.length === 0) continue;
    const unit = lengthUnit(kind, name);
    if (unit !== null) {
      byName.set(name, (one) => lengthIn(one, unit, units[name] ?? unit));
      const told = conversionRemark(name, unit, given, units[name] ?? unit);
      if (told !== null) remarks.push(told);
    } else byName.set(name, plainReading(column));
  }
  byName.set('transect', around.labelOf);
  if (kind === 'transects') {
    const days = askDays(givenOf(rows, 'date'), ask);
    for (const remark of days.remarks) remarks.push(remark);
    byName.set('date', days.dayOf);
    for (const field of ['design', 'stop', 'bearing_ref'] as const)
      byName.set(field, askListed(kind, field, rows, ask));
    const degreesOf = askWaypoints(rows, ask);
    for (const end of ['start', 'end']) {
      byName.set(`${end}_lat`, (one) => degreesOf(one, 'lat'));
      byName.set(`${end}_lon`, (one) => degreesOf(one, 'lon'));
    }
    const minutesOf = askTimes(rows, ask);
    for (const field of ['setup_min', 'habitat_min', 'search_min']) byName.set(field, minutesOf);
    byName.set('secondary', ({ cell }) => (isNobody(cell.text) ? '' : textOf(cell)));
  }
  if (kind === 'habitat') {
    byName.set('substrate', askSubstrate(rows, ask));
    byName.set('plant_cover', askPlantCover(rows, ask));
  }
  if (kind === 'detections') byName.set('role', rolesOf(rows, around, ask, remarks));
  return (column) => byName.get(column.name)!;
}

function plainReading(column: Column): Reading {
  if (column.type === 'number' || column.type === 'whole') return numberIn;
  return ({ cell }) => textOf(cell);
}

function textOf({ kind, text }: Given['cell']): string | null {
  return kind === 'error' ? null : text;
}

function numberIn({ cell, decimalComma }: Given): string | null {
  if (cell.kind === 'date' || cell.kind === 'error') return null;
  const read = readNumber(cell.text, decimalComma);
  return read !== null && NO_UNIT_NEEDED.has(read.unit) ? read.text : null;
}

function lengthIn(
  { cell, column, decimalComma }: Given,
  to: 'm' | 'cm',
  unsaid: Unit,
): string | null {
  if (cell.kind === 'date' || cell.kind === 'error') return null;
  const read = readNumber(cell.text, decimalComma);
  if (read === null) return null;
  const from = read.unit ?? column.unit ?? unsaid;
  if (from === to) return read.text;
  const value = converted(read.value, from, to);
  return value === null ? null : shortDecimal(value);
}

function conversionRemark(
  field: string,
  to: 'm' | 'cm',
  given: readonly Given[],
  unsaid: Unit,
): string | null {
  const from = new Set(
    given.map(
      ({ cell, column, decimalComma }) =>
        readNumber(cell.text, decimalComma)?.unit ?? column.unit ?? unsaid,
    ),
  );
  from.delete(to);
  if (from.size === 0) return null;
  return `${field}: turned from ${listed([...from], 'and')} into ${to} and rounded to four decimals.`;
}

function isNobody(text: string): boolean {
  return /^(?:none|nobody|no|solo|single( pass)?|alone|no second(ary)?)$/i.test(text);
}

/** The word for who found it, or the name of one of the two divers of that transect. */
function rolesOf(
  rows: readonly GatheredRow[],
  around: Around,
  ask: Ask,
  remarks: string[],
): Reading {
  const byName = (given: Given, row: GatheredRow): string | null => {
    const label = row.cells.get('transect');
    const pair = label === undefined ? undefined : around.divers.get(around.labelOf(label) ?? '');
    if (pair === undefined) return null;
    return whichOf(given.cell.text, pair);
  };
  const given = givenOf(rows, 'role');
  const named = rows.filter((row) => {
    const role = row.cells.get('role');
    return role !== undefined && byName(role, row) !== null;
  }).length;
  if (named === 0) {
    const roleOf = askListed('detections', 'role', rows, ask);
    return (one) => roleOf(one);
  }
  remarks.push(
    `Who found it: ${formatCount(named)} of ${formatCount(given.length)} cells name the primary or the secondary observer of their transect.`,
  );
  const others = rows.filter((row) => {
    const role = row.cells.get('role');
    return role !== undefined && byName(role, row) === null;
  });
  const roleOf = askListed('detections', 'role', others, ask);
  return (one, row) => byName(one, row) ?? roleOf(one);
}

/** What stands there, what was expected, and what may have been meant. */
function refusal({ cell, spot }: Given, column: Column): Finding {
  const expected = expectedOf(column);
  if (cell.kind === 'error') {
    const what = cell.text.startsWith('=')
      ? 'a formula without a kept value'
      : 'an error of the spreadsheet';
    return errorAt(spot, 'error-cell', `${quoted(cell.text)} is ${what} (${expected} expected)`);
  }
  if (cell.kind === 'date' && column.type !== 'date')
    return errorAt(
      spot,
      'turned-into-date',
      `the spreadsheet has made the date ${quoted(cell.text)} of what was typed (${expected} expected)`,
    );
  if (column.type === 'date')
    return errorAt(
      spot,
      'invalid-date',
      `${quoted(cell.text)} is no day of the calendar (${expected} expected)`,
    );
  if (column.type === 'choice' || column.type === 'classes')
    return errorAt(
      spot,
      'not-listed',
      `${quoted(cell.text)} has no meaning here (${expected} expected)`,
    );
  const inexact =
    column.type === 'whole' && /\d/.test(cell.text)
      ? '; one number is needed, the best that is known'
      : '';
  return errorAt(
    spot,
    'not-a-number',
    `${quoted(cell.text)} is not a number (${expected} expected)${inexact}`,
  );
}

function expectedOf(column: Column): string {
  switch (column.type) {
    case 'choice':
      return listed(column.choices ?? []);
    case 'classes':
      return 'classes of the bed';
    case 'date':
      return 'YYYY-MM-DD or another date with its year';
    case 'minutes':
      return 'minutes or mm:ss';
    case 'whole':
      return column.unit === null
        ? `a whole number from ${column.min} to ${column.max}`
        : `a whole number of ${column.unit}`;
    case 'number':
      return column.unit === 'degrees' && /lat|lon/.test(column.name)
        ? `${column.name.includes('lat') ? 'a latitude' : 'a longitude'} in degrees`
        : (column.unit ?? 'a number');
    default:
      return 'text';
  }
}
