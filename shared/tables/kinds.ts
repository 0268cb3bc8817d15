/** What a column of a table may be: its types, limits, and the kinds that several tables have. */

import { term } from '../glossary.ts';

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
export const MAX_WIDTH_M = 100;
export const MAX_CLARITY_M = 100;
export const MAX_CLUSTER_CM = 1000;
export const MINUTES_A_DAY = 1440;
/** Characters of a label, a name or the name of a class. */
export const LONGEST_LABEL = 100;
/** Width searched when the sheet says nothing: two ropes 1 m apart; one rope with 1 m either side. */
export const DEFAULT_WIDTH_M = { belt: 1, distance: 2 } as const;

export const latitude = {
  type: 'number',
  unit: 'degrees',
  min: -90,
  max: 90,
  beyond: 'off the globe',
  blankMeans: null,
} as const;
export const longitude = { ...latitude, min: -180, max: 180 } as const;
export const minutes = {
  type: 'minutes',
  unit: 'minutes',
  required: null,
  min: 0,
  max: MINUTES_A_DAY,
  blankMeans: null,
} as const;
export const text = { type: 'text', unit: null, blankMeans: null } as const;
export const name = { ...text, longest: LONGEST_LABEL } as const;
export const metres = { type: 'number', unit: 'metres', blankMeans: null } as const;

/** The column by which a row of another table belongs to a transect. */
export const OF_TRANSECT: Column = {
  name: 'transect',
  label: term('transect'),
  ...name,
  required: 'always',
  meaning: 'Label of the transect, as in transects.csv.',
  example: 'T01',
};
