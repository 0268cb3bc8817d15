/**
 * The one definition of every column of the survey's tables, three that each has and one that some have: the parser, the checks,
 * the Table Schema, entry forms, printed sheets and the manual are derived from it.
 */

import { term } from './glossary.ts';
import { HISTORY_FILE } from './history.ts';

export type TableName = 'transects' | 'habitat' | 'detections' | 'planted_shells' | 'history';

/**
 * `classes`: substrate classes joined by `+`, judged against the analysis' list. `minutes`: decimal minutes
 * or `mm:ss`. `choice`: one of `choices`, without regard to case. `time`: ISO 8601 in UTC.
 */
export type ColumnType =
  | 'text'
  | 'date'
  | 'time'
  | 'choice'
  | 'classes'
  | 'number'
  | 'whole'
  | 'minutes';

export interface Column {
  name: string;
  /** as on a sheet of paper, lower case, without the unit */
  label: string;
  type: ColumnType;
  /** plural, as said in messages: `metres` */
  unit: string | null;
  /** `always`, or the condition in words; null = may be left blank */
  required: 'always' | string | null;
  /** lowest and highest allowed value */
  min?: number;
  max?: number;
  /** the value must lie above, or below, this one */
  above?: number;
  below?: number;
  choices?: readonly string[];
  /** most characters of a text */
  longest?: number;
  /** how a value beyond the limits is told, when there is a better word for it */
  beyond?: string;
  /** the header must have this column although a cell of it may be blank */
  mustExist?: true;
  /** what a blank stands for, in words; null = not recorded */
  blankMeans: string | null;
  meaning: string;
  example: string;
}

export interface Table {
  name: TableName;
  file: string;
  /** what one row is */
  row: string;
  columns: readonly Column[];
  /** column whose values are unique */
  key: string | null;
  /** column that names a transect of transects.csv */
  refersBy: string | null;
}

/** Longer than any rope that is laid for a search: a length above it is a typing error. */
export const MAX_ROPE_M = 1000;
/** More mussels than a diver counts in one cluster: a count above it is a typing error. */
export const MAX_COUNT = 100_000;
/** The depth of the deepest lake, Baikal: what lies deeper is in another unit, or no depth at all. */
export const DEEPEST_LAKE_M = 1642;
/** Wider than any strip that two divers search, farther than one sees in the clearest lake, larger than any cluster. */
const MAX_WIDTH_M = 100;
const MAX_CLARITY_M = 100;
const MAX_CLUSTER_CM = 1000;
const MINUTES_A_DAY = 1440;
/** Characters of a label, a name or the name of a class. */
export const LONGEST_LABEL = 100;
/** Width searched when the sheet says nothing: two ropes 1 m apart; one rope with 1 m either side. */
export const DEFAULT_WIDTH_M = { belt: 1, distance: 2 } as const;

const latitude = {
  type: 'number',
  unit: 'degrees',
  min: -90,
  max: 90,
  beyond: 'off the globe',
  blankMeans: null,
} as const;
const longitude = { ...latitude, min: -180, max: 180 } as const;
const minutes = {
  type: 'minutes',
  unit: 'minutes',
  required: null,
  min: 0,
  max: MINUTES_A_DAY,
  blankMeans: null,
} as const;
const text = { type: 'text', unit: null, blankMeans: null } as const;
const name = { ...text, longest: LONGEST_LABEL } as const;
const metres = { type: 'number', unit: 'metres', blankMeans: null } as const;

export const TRANSECTS: Table = {
  name: 'transects',
  file: 'transects.csv',
  row: 'a transect',
  key: 'transect',
  refersBy: null,
  columns: [
    {
      name: 'transect',
      label: term('transect'),
      ...name,
      required: 'always',
      meaning: 'Label of the transect, unique in the survey.',
      example: 'T01',
    },
    {
      name: 'date',
      label: 'date',
      type: 'date',
      unit: null,
      required: 'always',
      blankMeans: null,
      meaning: 'Day of the dive; it sets the magnetic declination.',
      example: '2025-07-14',
    },
    {
      name: 'design',
      label: term('design'),
      type: 'choice',
      unit: null,
      required: 'always',
      choices: ['belt', 'distance'],
      blankMeans: null,
      meaning:
        'belt: the strip between two ropes is searched whole. distance: one rope, the offset of each cluster from it is measured.',
      example: 'belt',
    },
    {
      name: 'primary',
      label: term('primaryObserver'),
      ...name,
      required: 'always',
      meaning: 'Diver who searched first and marked what was found.',
      example: 'Ann',
    },
    {
      name: 'secondary',
      label: term('secondaryObserver'),
      ...name,
      required: null,
      blankMeans: 'a single pass: nobody followed',
      meaning: 'Diver who followed and looked for what the first had missed.',
      example: 'Ben',
    },
    {
      name: 'start_lat',
      label: 'start, latitude',
      ...latitude,
      required: 'always',
      meaning: 'Latitude of the waypoint at the shallow end, decimal degrees, WGS 84.',
      example: '45.000810',
    },
    {
      name: 'start_lon',
      label: 'start, longitude',
      ...longitude,
      required: 'always',
      meaning:
        'Longitude of the waypoint at the shallow end, decimal degrees, WGS 84; west is negative.',
      example: '-92.999899',
    },
    {
      name: 'end_lat',
      label: 'end, latitude',
      ...latitude,
      required: 'where end_lon is given',
      meaning: 'Latitude of the waypoint at the deep end.',
      example: '45.000810',
    },
    {
      name: 'end_lon',
      label: 'end, longitude',
      ...longitude,
      required: 'where end_lat is given',
      meaning: 'Longitude of the waypoint at the deep end.',
      example: '-92.999520',
    },
    {
      name: 'bearing_deg',
      label: 'bearing, start to end',
      type: 'number',
      unit: 'degrees',
      required: 'where there is no end waypoint',
      min: 0,
      below: 360,
      blankMeans: null,
      meaning: 'Compass bearing from start to end, clockwise from north.',
      example: '137',
    },
    {
      name: 'bearing_ref',
      label: 'bearing counted from',
      type: 'choice',
      unit: null,
      required: null,
      choices: ['magnetic', 'true'],
      blankMeans: 'magnetic',
      meaning: 'North that the bearing is counted from.',
      example: 'magnetic',
    },
    {
      name: 'length_m',
      label: 'length searched',
      ...metres,
      required: 'always',
      above: 0,
      max: MAX_ROPE_M,
      meaning: 'Length of rope searched, measured along the bed.',
      example: '30',
    },
    {
      name: 'width_m',
      label: 'width searched',
      ...metres,
      required: null,
      above: 0,
      max: MAX_WIDTH_M,
      blankMeans: '1 for belt, 2 for distance (1 m either side)',
      meaning: 'Whole width searched.',
      example: '1',
    },
    {
      name: 'clarity_m',
      label: term('visibility'),
      ...metres,
      required: 'where the detection uses clarity',
      min: 0,
      max: MAX_CLARITY_M,
      meaning: 'Farthest mark on the rope that could be read.',
      example: '4.5',
    },
    {
      name: 'stop',
      label: 'why it ended',
      type: 'choice',
      unit: null,
      required: null,
      choices: ['rope_end', 'thermocline', 'obstacle'],
      blankMeans: null,
      meaning: 'Why the transect ended.',
      example: 'rope_end',
    },
    {
      name: 'setup_min',
      label: 'time to lay it',
      ...minutes,
      meaning: 'Time spent laying the rope: decimal minutes or mm:ss.',
      example: '4:30',
    },
    {
      name: 'habitat_min',
      label: 'time to record habitat',
      ...minutes,
      meaning: 'Time spent recording habitat.',
      example: '6.5',
    },
    {
      name: 'search_min',
      label: 'time to search',
      ...minutes,
      meaning: 'Time spent searching.',
      example: '18.5',
    },
    {
      name: 'notes',
      label: 'notes',
      ...text,
      required: null,
      meaning: 'Anything else.',
      example: 'light chop',
    },
  ],
};

export const HABITAT: Table = {
  name: 'habitat',
  file: 'habitat.csv',
  row: 'a place along a transect where a habitat begins',
  key: null,
  refersBy: 'transect',
  columns: [
    {
      name: 'transect',
      label: term('transect'),
      ...name,
      required: 'always',
      meaning: 'Label of the transect, as in transects.csv.',
      example: 'T01',
    },
    {
      name: 'distance_m',
      label: 'distance along',
      ...metres,
      required: 'always',
      min: 0,
      meaning:
        'Distance along the rope where this habitat begins; the first row of a transect is at 0. A row at length_m is the end row: it gives the depth at the end.',
      example: '12.5',
    },
    {
      name: 'substrate',
      label: term('substrate'),
      type: 'classes',
      unit: null,
      required: 'but on the end row',
      mustExist: true,
      blankMeans: null,
      meaning: 'Class of the bed, or several joined by +, the dominant one first.',
      example: 'sand+gravel',
    },
    {
      name: 'plant_cover',
      label: term('plantCover'),
      type: 'whole',
      unit: null,
      required: 'but on the end row',
      mustExist: true,
      min: 0,
      max: 4,
      beyond: 'off the scale',
      blankMeans: null,
      meaning: 'Plant cover from 0 (none) to 4.',
      example: '2',
    },
    {
      name: 'depth_m',
      label: term('depth'),
      ...metres,
      required: 'always',
      min: 0,
      max: DEEPEST_LAKE_M,
      meaning: 'Water depth at this distance.',
      example: '2.4',
    },
  ],
};

export const DETECTIONS: Table = {
  name: 'detections',
  file: 'detections.csv',
  row: 'a cluster of mussels (a single mussel is a cluster of 1)',
  key: null,
  refersBy: 'transect',
  columns: [
    {
      name: 'transect',
      label: term('transect'),
      ...name,
      required: 'always',
      meaning: 'Label of the transect, as in transects.csv.',
      example: 'T01',
    },
    {
      name: 'role',
      label: 'seen by',
      type: 'choice',
      unit: null,
      required: 'always',
      choices: ['primary', 'secondary'],
      blankMeans: null,
      meaning: 'Who found it; secondary = missed by the primary.',
      example: 'primary',
    },
    {
      name: 'distance_m',
      label: 'distance along',
      ...metres,
      required: 'always',
      min: 0,
      meaning: 'Distance along the rope, to 0.01 m.',
      example: '14.20',
    },
    {
      name: 'offset_m',
      label: term('perpendicularDistance'),
      ...metres,
      required: 'on distance transects; blank on belts',
      min: 0,
      meaning: 'Perpendicular distance from the rope.',
      example: '0.35',
    },
    {
      name: 'count',
      label: 'mussels',
      type: 'whole',
      unit: 'mussels',
      required: 'always',
      min: 1,
      max: MAX_COUNT,
      blankMeans: null,
      meaning: 'Mussels in the cluster.',
      example: '3',
    },
    {
      name: 'cluster_length_cm',
      label: 'length of the cluster',
      type: 'number',
      unit: 'centimetres',
      required: null,
      min: 0,
      max: MAX_CLUSTER_CM,
      blankMeans: null,
      meaning: 'Longest extent of the cluster.',
      example: '4.5',
    },
    {
      name: 'cluster_width_cm',
      label: 'width of the cluster',
      type: 'number',
      unit: 'centimetres',
      required: null,
      min: 0,
      max: MAX_CLUSTER_CM,
      blankMeans: null,
      meaning: 'Extent of the cluster across its length.',
      example: '2',
    },
  ],
};

const shells = { type: 'whole', unit: 'shells', max: MAX_COUNT, blankMeans: null } as const;

export const PLANTED_SHELLS: Table = {
  name: 'planted_shells',
  file: 'planted_shells.csv',
  row: 'a transect on which shells of known number were planted before it was searched',
  key: 'transect',
  refersBy: 'transect',
  columns: [
    {
      name: 'transect',
      label: term('transect'),
      ...name,
      required: 'always',
      meaning: 'Transect of transects.csv into whose strip the shells were put.',
      example: 'T01',
    },
    {
      name: 'planted',
      label: 'planted',
      ...shells,
      required: 'always',
      min: 1,
      meaning:
        'Shells that a third person put into the strip, singly, where live mussels sit; the observers know neither number nor place.',
      example: '20',
    },
    {
      name: 'found_first',
      label: 'found by the primary',
      ...shells,
      required: 'always',
      min: 0,
      meaning: 'Of these, the ones that the primary observer found; not among the detections.',
      example: '13',
    },
    {
      name: 'found_second_only',
      label: 'found by the secondary only',
      ...shells,
      required: 'always',
      min: 0,
      meaning:
        'Of these, the ones that the secondary observer found after the primary had missed them.',
      example: '3',
    },
  ],
};

/** Longer than any table of a survey. */
const MOST_ROWS = 2_000_000;

/** What was changed in the survey: written by the program, read to show it and to merge copies; no number depends on it. */
export const HISTORY: Table = {
  name: 'history',
  file: HISTORY_FILE,
  row: 'a change of one cell, one row, one choice or one file',
  key: null,
  refersBy: null,
  columns: [
    {
      name: 'when',
      label: 'when',
      ...text,
      type: 'time',
      required: 'always',
      meaning: 'Time of the change, ISO 8601 in UTC.',
      example: '2026-07-01T10:00:00.000Z',
    },
    {
      name: 'who',
      label: 'who',
      ...name,
      required: null,
      blankMeans: 'not told',
      meaning: 'Who made it.',
      example: 'Ann',
    },
    {
      name: 'table',
      label: 'file',
      ...text,
      required: 'always',
      meaning: 'File of the survey.',
      example: 'transects.csv',
    },
    {
      name: 'row',
      label: 'row',
      type: 'whole',
      unit: null,
      required: null,
      min: 0,
      max: MOST_ROWS,
      blankMeans: 'a change of no row',
      meaning: 'Row as a spreadsheet shows it; in lists of areas and variants the place, from 0.',
      example: '7',
    },
    {
      name: 'column',
      label: 'column',
      ...text,
      required: 'always',
      meaning: 'Column, * for a whole row or file, or key of analysis.json.',
      example: 'length_m',
    },
    {
      name: 'old',
      label: 'old',
      ...text,
      required: null,
      meaning:
        'What stood there; of a whole row its cells as a JSON list, blank where it was added.',
      example: '3O',
    },
    {
      name: 'new',
      label: 'new',
      ...text,
      required: null,
      meaning: 'What stands there since; blank where a row was left out.',
      example: '30',
    },
    {
      name: 'why',
      label: 'why',
      ...text,
      required: null,
      meaning: 'Reason of the change.',
      example: 'typing error',
    },
  ],
};

/** Tables that every survey has. */
export const TABLES: readonly Table[] = [TRANSECTS, HABITAT, DETECTIONS];
/** Those that some have besides. */
export const OPTIONAL_TABLES: readonly Table[] = [PLANTED_SHELLS];
export const ALL_TABLES: readonly Table[] = [...TABLES, ...OPTIONAL_TABLES];
