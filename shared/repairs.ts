/** Repairs that are proposed for what is wrong in the tables: changes of cells with the evidence for them. Nothing is done by itself. */

import type { Finding } from './findings.ts';
import type { LngLat } from './survey.ts';

/** As column of a change: the whole row, its cells as a JSON list. Blank `new` = left out; blank `old` = added. */
export const WHOLE_ROW = '*';

/** One cell, or one row, of a table of the survey. */
export interface CellEdit {
  /** `transects.csv`, … */
  table: string;
  /** spreadsheet row (the header is row 1) */
  row: number;
  column: string;
  /** as it stands there, trimmed */
  old: string;
  new: string;
}

/** What is drawn of a repair beside its cells. */
export type RepairPicture =
  /** in longitude and latitude, from start to end; `outline` without islands, null where the lake has none */
  | {
      kind: 'map';
      before: LngLat[][];
      after: LngLat[][];
      /** the other transects */
      others: LngLat[][];
      outline: LngLat[][] | null;
    }
  /** depths along the transect */
  | {
      kind: 'profile';
      before: { distanceM: number; depthM: number }[];
      after: { distanceM: number; depthM: number }[];
    }
  | { kind: 'cells' };

/** Where a finding stands, by which a repair finds it again. */
export type Answered = Pick<Finding, 'code' | 'table' | 'row' | 'column'>;

export interface Repair {
  /** the same for the same tables */
  id: string;
  /** what it does, in a few words */
  title: string;
  /** the evidence, measured; or, without edits, why nothing honest can be proposed */
  why: string;
  /** in the order in which they are made; empty where no repair can be known */
  edits: CellEdit[];
  /** true: the evidence leaves no second reading */
  certain: boolean;
  picture: RepairPicture;
  /** the errors and notices that it is for, the one below which it stands first */
  answers: Answered[];
}

/** A table as text: trimmed cells in the order of the header, rows without content left out but counted. */
export interface TextTable {
  file: string;
  header: string[];
  rows: { row: number; cells: string[] }[];
}

/** Repairs that stand below a finding: those whose first answer it is, what two of them say alike once. */
export function repairsFor(finding: Finding, repairs: readonly Repair[]): Repair[] {
  const own = repairs.filter(({ answers: [first] }) => first !== undefined && isAt(first, finding));
  return own.filter((one, i) => own.findIndex((other) => saysTheSame(one, other)) === i);
}

const saysTheSame = (a: Repair, b: Repair): boolean =>
  a.title === b.title && a.why === b.why && JSON.stringify(a.edits) === JSON.stringify(b.edits);

function isAt(answered: Answered, { code, table, row, column }: Finding): boolean {
  return (
    answered.code === code &&
    answered.table === table &&
    answered.row === row &&
    answered.column === column
  );
}
