/**
 * A survey folder as read, faults and all. The drafts keep every row with null for what could not be read,
 * so that a fault in one cell hides no other fault and is not told twice.
 */

import type { Analysis } from './analysis.ts';
import type { Finding } from './findings.ts';
import type { Change } from './history.ts';
import type { Design, Lake, Role, Survey, Transect } from './survey.ts';
import type { Variant } from './variants.ts';

/** Cells of a row of transects.csv under their column names; null = blank or unreadable (then also in `bad`). */
export interface TransectCells {
  transect: string | null;
  date: string | null;
  design: Design | null;
  primary: string | null;
  secondary: string | null;
  start_lat: number | null;
  start_lon: number | null;
  end_lat: number | null;
  end_lon: number | null;
  bearing_deg: number | null;
  bearing_ref: 'magnetic' | 'true' | null;
  length_m: number | null;
  width_m: number | null;
  clarity_m: number | null;
  stop: Transect['stop'];
  setup_min: number | null;
  habitat_min: number | null;
  search_min: number | null;
  notes: string | null;
}

export interface HabitatCells {
  transect: string | null;
  distance_m: number | null;
  substrate: string[] | null;
  plant_cover: number | null;
  depth_m: number | null;
}

export interface DetectionCells {
  transect: string | null;
  role: Role | null;
  distance_m: number | null;
  offset_m: number | null;
  count: number | null;
  cluster_length_cm: number | null;
  cluster_width_cm: number | null;
}

export interface PlantedCells {
  transect: string | null;
  planted: number | null;
  found_first: number | null;
  found_second_only: number | null;
}

export interface DraftRow<Cells> {
  /** spreadsheet row */
  row: number;
  cells: Cells;
  /** columns whose fault has been told already: unreadable, off limits, or blank where a value must be */
  bad: ReadonlySet<string>;
  extra: Record<string, string>;
}

export interface DraftTable<Cells> {
  file: string;
  /** false: no such file, or not to be read as a table at all */
  readable: boolean;
  /** false: rows were lost, so that absence from this table proves nothing */
  complete: boolean;
  /** known columns that the header has */
  columns: ReadonlySet<string>;
  rows: DraftRow<Cells>[];
}

/** What the reader hands to the checks and to the rest. */
export interface Reading {
  /** name of the folder */
  name: string;
  /** names of the folder's files */
  fileNames: string[];
  /** the rows without a fault; complete only when no finding is an error */
  survey: Survey;
  lake: Lake;
  analysis: Analysis;
  /** other choices kept beside the analysis */
  variants: Variant[];
  /** changes of earlier sessions, the first one first */
  history: Change[];
  /** of the survey's files, choices and variants aside */
  fingerprint: string;
  drafts: {
    transects: DraftTable<TransectCells>;
    habitat: DraftTable<HabitatCells>;
    detections: DraftTable<DetectionCells>;
    /** not readable where the folder has no such file */
    planted: DraftTable<PlantedCells>;
  };
  /** rows of transects.csv without a date: planned transects, in no table of the drafts */
  planned: DraftRow<TransectCells>[];
  findings: Finding[];
}
