/** Many lakes: what is kept of each (lake.json), and what is said of all (batch.json). A number that does not exist is null. */

import type { Quantity } from './estimate.ts';
import type { LngLat } from './survey.ts';

/** One lake of a list, as it was given. */
export interface ListedLake {
  /** name of its results: unique, fit for a folder */
  name: string;
  /** as written in the list */
  folder: string;
}

export interface LakeNumbers {
  lake: string;
  /** of its dives; null without a transect */
  from: string | null;
  to: string | null;
  transects: number;
  detections: number;
  depth_from_m: number;
  depth_to_m: number;
  /** null without a lake-wide number */
  surveyed_m2: number | null;
  clusters: Quantity | null;
  mussels: Quantity | null;
  mussels_per_m2: Quantity | null;
  notices: number;
  /** middle of the outline; null without one */
  middle: LngLat | null;
}

/** lake.json (schema shoalwise/lake/1), beside the results of a lake, or alone where its data have errors. */
export interface LakeRecord extends ListedLake {
  schema: 'shoalwise/lake/1';
  /** of its files, the choices of the run and the version: with the same one it is not done again */
  key: string;
  /** null: it has errors */
  numbers: LakeNumbers | null;
  /** as they are printed; empty where it was estimated */
  errors: string[];
}

/** The programme: all lakes together, taken as independent. */
export interface Programme {
  lakes: number;
  estimated: number;
  /** none detected: no part of the total but its upper limits, which are the lakes' own */
  none_detected: number;
  with_errors: number;
  /** names of those with results but no number for the whole lake, as without a map: no part of the total */
  without_number: string[];
  /** in no record: not done, or done with other files */
  missing: string[];
  /** of those with a number */
  surveyed_m2: number;
  mussels: Quantity | null;
  /** there where it was asked for: the total with the observers' detection in common across lakes */
  shared_detection?: {
    /** whether AICc is for it; else the numbers are those of each lake's best model by itself */
    used: boolean;
    observers: string[];
    aicc_shared: number | null;
    aicc_separate: number | null;
    /** null where nobody's detection is estimated on two lakes */
    mussels: Quantity | null;
  };
}

export interface BatchFile {
  schema: 'shoalwise/batch/1';
  version: string;
  interval: number;
  programme: Programme;
  lakes: (ListedLake & { numbers: LakeNumbers | null; errors: string[] })[];
}
