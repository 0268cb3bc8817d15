/** Two copies of one survey, held against each other cell by cell: entered twice, or changed apart from a common ancestor. */

import type { Change } from './history.ts';
import type { TextTable } from './repairs.ts';

/** A copy of a survey: its tables as text, and what was changed in it. */
export interface Copy {
  tables: readonly TextTable[];
  /** the first change first */
  history: readonly Change[];
}

/** One cell, or one row, in which the copies differ; "here" is the first copy. */
export interface Difference {
  table: string;
  /** what the row is about, as it stands here, or there where it is not here: `T1`, `T1, 12 m` */
  about: string;
  /** spreadsheet rows; null where that copy has no such row */
  here: number | null;
  there: number | null;
  /** `*` for a whole row */
  column: string;
  /** as they stand; of a whole row its cells as a JSON list, blank where it is not there */
  values: { here: string; there: string };
  /** of a whole row: the names of its cells */
  names?: readonly string[];
  /** the one copy that changed it since the common ancestor; null where both did, or no ancestor is known */
  changedBy: 'here' | 'there' | null;
}

export interface Differences {
  differences: Difference[];
  /** both histories lead back to the same tables */
  ancestor: boolean;
  /** who made the last change of each; blank where that was not told */
  by: { here: string; there: string };
  /** files that are not compared cell by cell and are not the same, or are in one copy alone */
  files: string[];
}
