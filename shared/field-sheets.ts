/** What is known of a survey before its dives: the rows of transects.csv that have no date yet, and what goes on every sheet. */

import type { Design } from './survey.ts';

/** Two observers in their roles on one transect. */
export interface Roles {
  primary: string;
  secondary: string;
}

export interface PlannedTransect {
  /** spreadsheet row */
  row: number;
  design: Design | null;
  /** what the row has already, by column of transects.csv, as it is written on a sheet */
  cells: Readonly<Record<string, string>>;
}

export interface PlannedSurvey {
  lake: string;
  substrates: readonly string[];
  planned: readonly PlannedTransect[];
  /** who had which role on the last transect that was dived; null = none was, or by one observer */
  lastRoles: Roles | null;
}
