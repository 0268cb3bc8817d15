/** What the repairs look at: the tables as text and as they were read, the findings by code, and the lake where it is known. */

import type { Finding } from '../../shared/findings.ts';
import type { DraftRow, Reading } from '../../shared/reading.ts';
import type { CellEdit, Repair, TextTable } from '../../shared/repairs.ts';
import type { LngLat } from '../../shared/survey.ts';
import { DETECTIONS, HABITAT, TRANSECTS } from '../../shared/tables.ts';

/** Of one code so many findings are looked at: a column that is wrong throughout is one slip, not thousands. */
const MOST_OF_A_CODE = 200;

const MOST_DECIMALS = 8;

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;

export interface RepairInput {
  reading: Pick<Reading, 'drafts' | 'lake' | 'analysis'>;
  /** those that can be read as tables */
  sheets: readonly TextTable[];
  findings: readonly Finding[];
  /** depth of the map, m; null off the lake, or without a map */
  depthAt: ((p: LngLat) => number | null) | null;
  /** degrees, east positive; null where it is not known */
  declinationAt: (p: LngLat, date: string) => number | null;
}

export type Rule = (desk: Desk) => Proposal[];

/** Without its id, which the index gives it. */
export type Proposal = Omit<Repair, 'id' | 'certain' | 'picture' | 'answers'> & {
  answers: readonly Finding[];
} & Partial<Pick<Repair, 'certain' | 'picture'>>;

type Drafts = Reading['drafts'];
type Cells<T extends keyof Drafts> =
  Drafts[T]['rows'][number] extends DraftRow<infer C> ? C : never;
export type TransectDraft = DraftRow<Cells<'transects'>>;
export type HabitatDraft = DraftRow<Cells<'habitat'>>;
export type DetectionDraft = DraftRow<Cells<'detections'>>;

export interface Desk extends RepairInput {
  transects: TransectDraft[];
  /** by table and column, once they were asked for */
  decimals: Map<string, number>;
  /** the first row of each label */
  transectOf: ReadonlyMap<string, TransectDraft>;
  habitatOf: ReadonlyMap<string, HabitatDraft[]>;
  detectionsOf: ReadonlyMap<string, DetectionDraft[]>;
  /** the findings of these codes, in their order */
  told(...codes: string[]): Finding[];
  /** as it stands in the file, trimmed; null where there is no such cell */
  text(table: string, row: number, column: string): string | null;
  /** all texts of a column with their rows, blank ones too; empty without such a column */
  column(table: string, column: string): { row: number; text: string }[];
  /** rows whose transect is this label, as it is spelled */
  labelled(table: string, label: string): readonly number[];
  /** all cells of a row */
  row(table: string, row: number): string[] | null;
  /** a change of a cell from what stands there; null where there is no such cell, or where it holds that already */
  change(table: string, row: number, column: string, to: string): CellEdit | null;
}

export function makeDesk(input: RepairInput): Desk {
  const { drafts } = input.reading;
  const sheets = new Map(input.sheets.map((sheet) => [sheet.file, indexed(sheet)]));
  const byCode = new Map<string, Finding[]>();
  for (const finding of input.findings) {
    const list = byCode.get(finding.code);
    if (list === undefined) byCode.set(finding.code, [finding]);
    else if (list.length < MOST_OF_A_CODE) list.push(finding);
  }
  const transectOf = new Map<string, TransectDraft>();
  for (const row of drafts.transects.rows) {
    const label = row.cells.transect;
    if (label !== null && !transectOf.has(label)) transectOf.set(label, row);
  }
  const text = (table: string, row: number, column: string): string | null => {
    const sheet = sheets.get(table);
    const at = sheet?.columns.get(column);
    return at === undefined ? null : (sheet?.rows.get(row)?.[at] ?? null);
  };
  const labelled = new Map<string, Map<string, number[]>>();
  const columns = new Map<string, { row: number; text: string }[]>();
  const column = (table: string, name: string) => {
    const key = `${table} ${name}`;
    const known = columns.get(key);
    if (known !== undefined) return known;
    const sheet = sheets.get(table);
    const at = sheet?.columns.get(name);
    const texts =
      sheet === undefined || at === undefined
        ? []
        : [...sheet.rows].map(([row, cells]) => ({ row, text: cells[at] ?? '' }));
    columns.set(key, texts);
    return texts;
  };
  return {
    ...input,
    transects: drafts.transects.rows,
    decimals: new Map(),
    transectOf,
    habitatOf: byLabel(drafts.habitat.rows),
    detectionsOf: byLabel(drafts.detections.rows),
    told: (...codes) => codes.flatMap((code) => byCode.get(code) ?? []),
    text,
    column,
    labelled(table, label) {
      let rows = labelled.get(table);
      if (rows === undefined) {
        rows = new Map();
        for (const { row, text } of column(table, 'transect')) {
          const same = rows.get(text);
          if (same === undefined) rows.set(text, [row]);
          else same.push(row);
        }
        labelled.set(table, rows);
      }
      return rows.get(label) ?? [];
    },
    row: (table, row) => sheets.get(table)?.rows.get(row) ?? null,
    change(table, row, column, to) {
      const old = text(table, row, column);
      return old === null || old === to ? null : { table, row, column, old, new: to };
    },
  };
}

function indexed({ header, rows }: TextTable) {
  const columns = new Map<string, number>();
  const twice = new Set<string>();
  header.forEach((name, at) => {
    const key = name.toLowerCase();
    if (columns.has(key)) twice.add(key);
    columns.set(key, at);
  });
  // a name that stands twice cannot say which cell is meant
  for (const key of twice) columns.delete(key);
  return { columns, rows: new Map(rows.map(({ row, cells }) => [row, cells])) };
}

function byLabel<C extends { transect: string | null }>(rows: readonly DraftRow<C>[]) {
  const groups = new Map<string, DraftRow<C>[]>();
  for (const row of rows) {
    const label = row.cells.transect;
    if (label === null) continue;
    const group = groups.get(label);
    if (group === undefined) groups.set(label, [row]);
    else group.push(row);
  }
  return groups;
}

/** The number that a text spells, or null. */
export function numberOf(text: string | null): number | null {
  if (text === null || !NUMBER.test(text)) return null;
  const value = Number(text);
  return Number.isFinite(value) ? value : null;
}

/** Where no repair can be honest: why. */
export function unknown(answers: readonly Finding[], why: string): Proposal {
  return { title: 'No repair can be known', why, edits: [], answers };
}

/** Those that can be made. */
export function made(edits: readonly (CellEdit | null)[]): CellEdit[] {
  return edits.filter((edit) => edit !== null);
}

/** Decimals with which a column is usually written; it can be no finer than a double. */
export function decimalsOf(desk: Desk, table: string, column: string): number {
  const key = `${table} ${column}`;
  const known = desk.decimals.get(key);
  if (known !== undefined) return known;
  const decimals = desk
    .column(table, column)
    .flatMap(({ text }) => (NUMBER.test(text) ? [/\.(\d*)$/.exec(text)?.[1]?.length ?? 0] : []));
  const usual = decimals.length === 0 ? 0 : Math.min(MOST_DECIMALS, Math.ceil(median(decimals)));
  desk.decimals.set(key, usual);
  return usual;
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1
    ? sorted[middle]
    : ((sorted[middle - 1] ?? 0) + (sorted[middle] ?? 0)) / 2;
}

export const T = TRANSECTS.file;
export const H = HABITAT.file;
export const D = DETECTIONS.file;
