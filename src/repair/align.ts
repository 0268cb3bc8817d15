/** Rows of one table in two copies, put beside each other: the same ones first, then by key, then by what they have in common. */

import type { TextTable } from '../../shared/repairs.ts';
import { ALL_TABLES, type Column } from '../../shared/tables.ts';

/** Rows that share fewer of their cells are two rows, not one that was typed otherwise. */
const LEAST_ALIKE = 0.5;
/** Pairs of rows that are compared cell by cell; beyond that they are told as rows of one copy alone. */
const MOST_COMPARED = 1_000_000;

/** What a row is known by, in this order. */
const KEYS: Record<string, readonly string[]> = {
  'transects.csv': ['transect'],
  'habitat.csv': ['transect', 'distance_m'],
  'detections.csv': ['transect', 'role', 'distance_m'],
  'planted_shells.csv': ['transect'],
};

export interface Line {
  row: number;
  /** texts under the names of all columns of both copies, lower case; blank where a copy has no such column */
  cells: ReadonlyMap<string, string>;
}

export interface Pair {
  here: Line | null;
  there: Line | null;
}

export interface Aligned {
  /** in the order of the rows here; those of there alone at the end */
  pairs: Pair[];
  /** in the order here, then those of there alone */
  columns: string[];
}

/** Undefined: that copy has no such table. */
export function align(
  file: string,
  here: TextTable | undefined,
  there: TextTable | undefined,
): Aligned {
  const columns = [
    ...new Set([here, there].flatMap((table) => table?.header.map(lower) ?? [])),
  ].filter((name) => name !== '');
  const left = linesOf(here, columns);
  const right = linesOf(there, columns);
  const partner = new Map<Line, Line>();
  const open = (lines: Line[], taken: { has(line: Line): boolean }) =>
    lines.filter((line) => !taken.has(line));
  const taken = new Set<Line>();
  const join = (a: Line, b: Line): void => {
    partner.set(a, b);
    taken.add(b);
  };
  const joinBy = (key: (line: Line) => string): void => {
    const waiting = new Map<string, Line[]>();
    for (const line of open(right, taken)) {
      const same = waiting.get(key(line));
      if (same === undefined) waiting.set(key(line), [line]);
      else same.push(line);
    }
    const next = new Map<string, number>();
    for (const line of open(left, partner)) {
      const at = next.get(key(line)) ?? 0;
      const other = waiting.get(key(line))?.[at];
      if (other === undefined) continue;
      next.set(key(line), at + 1);
      join(line, other);
    }
  };
  joinBy((line) =>
    JSON.stringify(columns.map((name) => sameAs(file, name, line.cells.get(name) ?? ''))),
  );
  const keys = KEYS[file] ?? [];
  if (keys.length > 0)
    joinBy((line) =>
      JSON.stringify(keys.map((name) => sameAs(file, name, line.cells.get(name) ?? ''))),
    );
  joinAlike(file, columns, open(left, partner), open(right, taken), join);
  return {
    columns,
    pairs: [
      ...left.map((line) => ({ here: line, there: partner.get(line) ?? null })),
      ...open(right, taken).map((line) => ({ here: null, there: line })),
    ],
  };
}

/** The most alike first; of those alike the ones that stand nearest to each other. */
function joinAlike(
  file: string,
  columns: readonly string[],
  left: Line[],
  right: Line[],
  join: (a: Line, b: Line) => void,
): void {
  if (left.length * right.length > MOST_COMPARED) return;
  const pairs = left.flatMap((a) =>
    right.map((b) => ({
      a,
      b,
      alike: likeness(file, columns, a, b),
      apart: Math.abs(a.row - b.row),
    })),
  );
  const done = new Set<Line>();
  for (const { a, b } of pairs
    .filter(({ alike }) => alike >= LEAST_ALIKE)
    .sort((x, y) => y.alike - x.alike || x.apart - y.apart)) {
    if (done.has(a) || done.has(b)) continue;
    done.add(a);
    done.add(b);
    join(a, b);
  }
}

/** Share of the cells with anything in them that are the same. */
function likeness(file: string, columns: readonly string[], a: Line, b: Line): number {
  let [same, filled] = [0, 0];
  for (const name of columns) {
    const [x, y] = [a.cells.get(name) ?? '', b.cells.get(name) ?? ''];
    if (x === '' && y === '') continue;
    filled++;
    if (sameAs(file, name, x) === sameAs(file, name, y)) same++;
  }
  return filled === 0 ? 0 : same / filled;
}

/** What two spellings of one value have in common: 3.5 and 3.50, Belt and belt. */
export function sameAs(file: string, name: string, text: string): string {
  const column = columnOf(file, name);
  const trimmed = text.trim();
  switch (column?.type) {
    case 'number':
    case 'whole':
    case 'minutes':
      return trimmed !== '' && Number.isFinite(Number(trimmed)) ? String(Number(trimmed)) : trimmed;
    case 'choice':
    case 'classes':
      return trimmed.toLowerCase();
    default:
      return trimmed;
  }
}

function columnOf(file: string, name: string): Column | undefined {
  return ALL_TABLES.find((table) => table.file === file)?.columns.find(
    (column) => column.name === name,
  );
}

function linesOf(table: TextTable | undefined, columns: readonly string[]): Line[] {
  if (table === undefined) return [];
  const at = new Map(table.header.map((name, i) => [lower(name), i]));
  return table.rows.map(({ row, cells }) => ({
    row,
    cells: new Map(columns.map((name) => [name, cells[at.get(name) ?? -1] ?? ''])),
  }));
}

function lower(name: string): string {
  return name.trim().toLowerCase();
}
