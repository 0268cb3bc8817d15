/** Lengths of other people's sheets → metres, or centimetres for the size of a cluster. What the header does not say is asked, one question a table. */

import type { Ask, Option } from '../../../shared/importing.ts';
import { DETECTIONS, HABITAT, PLANTED_SHELLS, TRANSECTS } from '../../../shared/tables.ts';
import { listed, plain, quoted } from '../../../shared/words.ts';
import { sourcesTold } from './blocks.ts';
import { type GatheredRow, type Given, givenOf, type SheetKind } from './gather.ts';
import { METRES, readNumber, type Unit } from './numbers.ts';

export const TABLES = {
  transects: TRANSECTS,
  habitat: HABITAT,
  detections: DETECTIONS,
  planted_shells: PLANTED_SHELLS,
};

/** Our columns that hold lengths, with the unit that they are kept in. */
const LENGTHS: Record<SheetKind, Record<string, 'm' | 'cm'>> = {
  transects: { length_m: 'm', width_m: 'm', clarity_m: 'm' },
  habitat: { distance_m: 'm', depth_m: 'm' },
  detections: { distance_m: 'm', offset_m: 'm', cluster_length_cm: 'cm', cluster_width_cm: 'cm' },
  planted_shells: {},
};
const UNITS: Option[] = [
  { value: 'm', label: 'metres' },
  { value: 'ft', label: 'feet' },
  { value: 'cm', label: 'centimetres' },
  { value: 'in', label: 'inches' },
  { value: 'mm', label: 'millimetres' },
];
/** A rope laid by two divers is some 30 m long; nobody measures across it farther than this. */
const FARTHEST_ACROSS_M = 5;
/** Feet taken for metres are this many times too large; so near the ratio has to be. */
const FEET_A_METRE = 1 / 0.3048;
const RATIO_TOLERANCE = 0.12;

export function lengthUnit(kind: SheetKind, field: string): 'm' | 'cm' | null {
  return LENGTHS[kind][field] ?? null;
}

/** The unit of each length whose header says none. @param longestM the longest transect, where that is known */
export function askUnits(
  kind: SheetKind,
  rows: readonly GatheredRow[],
  longestM: number | null,
  ask: Ask,
): { [field: string]: Unit } {
  const unsaid = Object.keys(LENGTHS[kind]).filter((field) =>
    givenOf(rows, field).some(saysNoUnit),
  );
  if (unsaid.length === 0) return {};
  const said = Object.keys(LENGTHS[kind]).flatMap((field) =>
    givenOf(rows, field).flatMap(({ column }) => column.unit ?? []),
  );
  const looked = unsaid.map((field) => look(kind, field, rows, said, longestM));
  const answer = ask({
    kind: 'matching',
    id: `${kind}.units`,
    about: sourcesTold(rows.map(({ spot }) => spot.table)),
    ask: 'Which unit are these columns in?',
    evidence: looked.flatMap(({ evidence }) => evidence),
    certain: false,
    pictures: [],
    keys: looked.map(({ field, label }) => ({ key: field, label })),
    options: UNITS,
    proposal: Object.fromEntries(looked.map(({ field, unit }) => [field, unit])),
  });
  return (answer ?? {}) as { [field: string]: Unit };
}

function saysNoUnit({ column, cell, decimalComma }: Given): boolean {
  return column.unit === null && (readNumber(cell.text, decimalComma)?.unit ?? null) === null;
}

function look(
  kind: SheetKind,
  field: string,
  rows: readonly GatheredRow[],
  said: readonly Unit[],
  longestM: number | null,
) {
  const given = givenOf(rows, field);
  const values = given.flatMap(
    ({ cell, decimalComma }) => readNumber(cell.text, decimalComma)?.value ?? [],
  );
  const [least, most] = values.reduce(
    ([a, b], v) => [Math.min(a, v), Math.max(b, v)],
    [Infinity, -Infinity],
  );
  const headers = [...new Set(given.map(({ column }) => column.text))];
  const name = `${listed(
    headers.map((text) => quoted(text)),
    'and',
  )}`;
  const known = TABLES[kind].columns.find((column) => column.name === field)!;
  const evidence = [
    values.length === 0
      ? `${name}: no number stands there.`
      : `${name}: ${values.length} numbers from ${plain(least)} to ${plain(most)}; the header names no unit.`,
  ];
  let unit: Unit = LENGTHS[kind][field];
  const feet = said.filter((u) => u === 'ft' || u === 'in').length;
  if (feet > said.length / 2) {
    unit = unit === 'cm' ? 'in' : 'ft';
    evidence.push('Other columns of the table are in feet or inches.');
  }
  if (field === 'distance_m' && longestM !== null && values.length > 0) {
    const ratio = most / longestM;
    if (Math.abs(ratio / FEET_A_METRE - 1) < RATIO_TOLERANCE) unit = 'ft';
    else if (ratio <= 1 + RATIO_TOLERANCE) unit = 'm';
    evidence.push(
      `The greatest of them is ${plain(Number(ratio.toPrecision(3)))} times the longest transect (${plain(longestM)} m).`,
    );
  }
  if (field === 'offset_m' && most > FARTHEST_ACROSS_M && unit === 'm') {
    unit = 'cm';
    evidence.push(`Nobody searches ${plain(most)} m to the side of a transect.`);
  }
  return { field, label: `${name}: ${known.label}`, unit, evidence };
}

/** In the unit of our column; null where the unit is none of length. */
export function converted(value: number, from: Unit, to: 'm' | 'cm'): number | null {
  const [a, b] = [METRES[from], METRES[to]];
  return a === undefined || b === undefined ? null : (value * a) / b;
}
