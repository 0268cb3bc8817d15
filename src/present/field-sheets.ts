/** Sheets for the dives: what stands on each, from the one definition of the tables and what is planned already. */

import type { PlannedSurvey, PlannedTransect, Roles } from '../../shared/field-sheets.ts';
import { capital } from '../../shared/glossary.ts';
import {
  type Column,
  DEFAULT_WIDTH_M,
  DETECTIONS,
  HABITAT,
  TRANSECTS,
} from '../../shared/tables.ts';

export interface SheetsAsked {
  /** swapped from sheet to sheet; null = names are written by hand where no row has them */
  observers: Roles | null;
  /** sheets without a planned transect, after those of the planned ones */
  blank: number;
  /** pages for detections, of each transect */
  detectionPages: number;
}

/** A box to write into, or to tick. */
export interface SheetField {
  label: string;
  /** `m`, `YYYY-MM-DD` */
  hint: string | null;
  /** null = blank */
  value: string | null;
  /** boxes to tick instead of a line; `value` is the one that is ticked */
  choices: readonly string[] | null;
}

export interface SheetColumn {
  name: string;
  label: string;
  hint: string | null;
  choices: readonly string[] | null;
}

/** The pages of one transect. */
export interface TransectSheet {
  /** null = not planned, a blank one */
  transect: string | null;
  /** rows of fields, in the order in which a crew has the answers */
  fields: readonly (readonly SheetField[])[];
  detections: readonly SheetColumn[];
}

export interface FieldSheets {
  lake: string;
  /** `mud, silt, sand`: what may stand under substrate */
  substrates: string;
  sheets: readonly TransectSheet[];
  habitat: readonly SheetColumn[];
  detectionPages: number;
  /** every column of the three tables, for those who type the sheets in */
  key: readonly { file: string; row: string; columns: readonly KeyColumn[] }[];
}

export interface KeyColumn {
  label: string;
  name: string;
  meaning: string;
  /** `always`, or when it must be filled in; blank = it may be left out */
  required: string;
}

/** As a crew has the answers: on the boat, at the waypoints, along the line, at the end. Holds every column of transects.csv. */
export const FIELD_ROWS: readonly (readonly string[])[] = [
  ['transect', 'date', 'design'],
  ['primary', 'secondary', 'clarity_m'],
  ['start_lat', 'start_lon', 'bearing_deg'],
  ['end_lat', 'end_lon', 'bearing_ref'],
  ['length_m', 'width_m', 'stop'],
  ['setup_min', 'habitat_min', 'search_min'],
  ['notes'],
];

const UNITS: Record<string, string> = {
  metres: 'm',
  degrees: '°',
  minutes: 'min',
  centimetres: 'cm',
};

/** @throws RangeError when no sheet is asked for */
export function fieldSheets(survey: PlannedSurvey, asked: SheetsAsked): FieldSheets {
  const { planned, lake, substrates } = survey;
  if (planned.length + asked.blank === 0)
    throw new RangeError('got no planned transect and no blank sheet, expected a sheet to print');
  const all = [...planned, ...Array.from({ length: asked.blank }, () => null)];
  const roles = swapped(all, survey.lastRoles, asked.observers);
  return {
    lake,
    substrates: substrates.join(', '),
    sheets: all.map((one, i) => transectSheet(one, roles[i] ?? null)),
    habitat: columnsOf(HABITAT.columns),
    detectionPages: asked.detectionPages,
    key: [TRANSECTS, HABITAT, DETECTIONS].map(({ file, row, columns }) => ({
      file,
      row,
      columns: columns.map(keyColumn),
    })),
  };
}

/**
 * The roles of each sheet: as planned, else as asked, else those of the transect before with the observers exchanged. Without a swap,
 * detection probabilities of two observers could not be told apart.
 */
function swapped(
  all: readonly (PlannedTransect | null)[],
  last: Roles | null,
  observers: Roles | null,
): (Roles | null)[] {
  let before = observers ? exchanged(observers) : last;
  return all.map((one) => {
    const { primary, secondary } = one?.cells ?? {};
    if (primary !== undefined && secondary !== undefined) before = { primary, secondary };
    else if (primary !== undefined || secondary !== undefined) return null;
    else before = before && exchanged(before);
    return before;
  });
}

const exchanged = ({ primary, secondary }: Roles): Roles => ({
  primary: secondary,
  secondary: primary,
});

function transectSheet(one: PlannedTransect | null, roles: Roles | null): TransectSheet {
  const usualWidth = one?.design ? { width_m: String(DEFAULT_WIDTH_M[one.design]) } : {};
  const known: Record<string, string> = { ...usualWidth, ...roles, ...one?.cells };
  const field = (name: string): SheetField => {
    const { choices, ...rest } = head(columnOf(name));
    const value = known[name] ?? null;
    return { ...rest, choices, value: choices === null ? value : value && inWords(value) };
  };
  return {
    transect: known.transect ?? null,
    fields: FIELD_ROWS.map((row) => row.map(field)),
    detections: columnsOf(
      DETECTIONS.columns.filter((c) => c.name !== 'offset_m' || one?.design !== 'belt'),
    ),
  };
}

function columnOf(name: string): Column {
  const column = TRANSECTS.columns.find((c) => c.name === name);
  if (column === undefined)
    throw new Error(`got the column ${name}, expected one of transects.csv`);
  return column;
}

/** Of a table that is filled in along one transect: its label stands at the head of the page. */
function columnsOf(columns: readonly Column[]): SheetColumn[] {
  return columns
    .filter(({ name }) => name !== TRANSECTS.key)
    .map((column) => ({ name: column.name, ...head(column) }));
}

function head(column: Column): Pick<SheetColumn, 'label' | 'hint' | 'choices'> {
  return {
    label: capital(column.label),
    hint: column.type === 'date' ? 'YYYY-MM-DD' : (UNITS[column.unit ?? ''] ?? null),
    choices: column.choices?.map(inWords) ?? null,
  };
}

const inWords = (choice: string): string => choice.replaceAll('_', ' ');

function keyColumn({ label, name, meaning, required, blankMeans }: Column): KeyColumn {
  const blank = blankMeans === null ? '' : ` Blank: ${blankMeans}.`;
  const when = required?.startsWith('but ') ? `always ${required}` : (required ?? '');
  return { label: capital(label), name, meaning: `${meaning}${blank}`, required: when };
}
