/** What a public map says and holds: its file carries these records, so that its words can be set in another language. */

import type { Spread } from './units.ts';

export type PublicNumber =
  | ({ of: 'mussels' | 'clusters' } & Spread)
  /** no lake-wide number: what was counted */
  | { of: 'counted'; mussels: number }
  /** nothing was detected; the limit where there is one */
  | { of: 'nothing'; upperClusters: number | null };

/** Ninths of the box around the lake, rows from the north, each from the west. */
export const LAKE_PARTS = [
  'NorthWest',
  'North',
  'NorthEast',
  'West',
  'Middle',
  'East',
  'SouthWest',
  'South',
  'SouthEast',
] as const;

export interface PublicDepths {
  fromM: number;
  toM: number;
}

/** A place that was searched: a transect, or a square with all those whose middle lies in it. */
export interface PublicPlace {
  /** where its mark stands, in units of the drawing */
  at: [x: number, y: number];
  /** the line that was searched, from one end to the other; null where places are squares */
  line: [x1: number, y1: number, x2: number, y2: number] | null;
  /** mussels counted; 0 = none detected */
  counted: number;
  /** days of the dives, YYYY-MM-DD, in order */
  days: string[];
  /** null where none was recorded */
  depths: PublicDepths | null;
  /** in LAKE_PARTS */
  part: number;
}

export interface PublicFacts {
  lake: string;
  /** whether the lake lies in the Americas: how numbers are written in print */
  americas: boolean;
  number: PublicNumber;
  /** the surveyed habitat, and the bed that is not in the number; null without a lake-wide number */
  part: (PublicDepths & { areaM2: number; restM2: number }) | null;
  /** share of the surveyed habitat that lies far from every transect; null where that is next to nothing */
  farShare: number | null;
  /** nobody followed the primary observer: what was missed is not in the number */
  missed: boolean;
  /** of the interval */
  level: number;
  /** recorded depths */
  sampled: PublicDepths | null;
  effort: { lines: number; areaM2: number; days: string[] };
  /** bands of the surveyed habitat; empty without a lake-wide number */
  byDepth: (PublicDepths & { areaM2: number; mussels: Spread })[];
  /** where the next shade of depth begins, rising; empty without a map of depth */
  depthBreaksM: number[];
  /** the deepest water on the map; null without a map of depth */
  deepestM: number | null;
  /** metres a unit of the drawing */
  unitM: number;
  /** side of the squares that places are shown as, m; null = where they are */
  coarseM: number | null;
  places: PublicPlace[];
}

/** Sides that squares of coarse places may have, m: below the least a square tells as much as the place itself. */
export const COARSE_M = { least: 10, most: 10_000 } as const;

/** What whoever publishes a map adds to it. */
export interface PublicWishes {
  /** in place of the usual heading; null = the usual one */
  title: string | null;
  /** who to ask; null = nobody is named */
  contact: string | null;
  /** a day (YYYY-MM-DD) or words; null = none is told */
  nextUpdate: string | null;
}
