/** A spoiled survey, and every finding that it must give: no more, no less. */

import type { Bend } from '../helpers/bend.ts';

export interface Expected {
  code: string;
  table: string;
  row?: number;
  column?: string;
  /** words that the message must hold */
  says: string[];
  notice?: true;
}

export interface Case {
  name: string;
  bend: Bend;
  /** bytes to put in place of a file after the bend */
  bytes?: { file: string; bytes: Uint8Array };
  expected: Expected[];
}

export const T = 'transects.csv';
export const H = 'habitat.csv';
export const D = 'detections.csv';
export const A = 'analysis.json';

/** One bend, one finding. */
export function one(name: string, bend: Bend, expected: Expected): Case {
  return { name, bend, expected: [expected] };
}
