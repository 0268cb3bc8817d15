/**
 * Sheets that are a transect each, as printed ones are: labels with their values (transect, date, divers …), and below or beside
 * them the tables of breaks and of detections. Taken apart into the tables that they would be in a list.
 */

import type { RawCell, RawTable } from '../../../shared/importing.ts';
import { type Block, type Column, cellAt, columnsOf, headFrom } from './blocks.ts';
import { meaningOf } from './codes.ts';
import type { SheetKind } from './gather.ts';
import { type LabelledValue, labelledValues } from './labelled.ts';
import { headerOf, nameFit } from './names.ts';

export interface Part {
  kind: SheetKind;
  block: Block;
}

type Rows = RawTable['rows'];

interface Region {
  kind: 'habitat' | 'detections';
  /** places in `rows` of the header and of the first row below, and behind the last */
  first: number;
  next: number;
  end: number;
  /** columns, the last not included */
  from: number;
  to: number;
  columns: Column[];
  role: 'primary' | 'secondary' | null;
}

/** So many labels of a transect make a sheet one of a transect. */
const LEAST_LABELS = 2;

/** Null where the sheet is not of this kind. A sheet may hold several transects, one below another. */
export function wideParts(table: RawTable): Part[] | null {
  const starts = sectionStarts(table.rows);
  const sections = starts.map((start, i) => table.rows.slice(i === 0 ? 0 : start, starts[i + 1]));
  const parts = (sections.length === 0 ? [table.rows] : sections).map((rows) =>
    partsOf(table, rows),
  );
  return parts.every((part) => part !== null) ? parts.flat() : null;
}

/** Rows in which a new transect's label stands. */
function sectionStarts(rows: Rows): number[] {
  return rows.flatMap((row, i) =>
    labelledValues([row]).some(({ label }) => nameFit(headerOf(label), 'transects', 'transect') > 1)
      ? [i]
      : [],
  );
}

function partsOf(table: RawTable, rows: Rows): Part[] | null {
  const regions = regionsIn(rows);
  if (regions.length === 0 || regions.some(({ columns }) => columns.some(namesTransect)))
    return null;
  const outside = rows.map((row, i) => ({
    row: row.row,
    cells: row.cells.map((cell, at) => (regions.some((r) => isWithin(r, i, at)) ? BLANK : cell)),
  }));
  const labels = labelledValues(outside);
  const known = new Set(labels.flatMap(({ label }) => transectField(label) ?? []));
  if (known.size < LEAST_LABELS) return null;
  const header = headerBlock(table, labels);
  const label = header.rows[0].cells[header.columns.findIndex(({ key }) => key === 'transect')];
  return [
    { kind: 'transects', block: header },
    ...regions.map(
      (region): Part => ({ kind: region.kind, block: regionBlock(table, rows, region, label) }),
    ),
  ];
}

const BLANK: RawCell = { text: '', kind: 'blank' };

function isWithin({ first, end, from, to, role }: Region, row: number, at: number): boolean {
  // a title that names the role belongs to the table below it
  return row >= first - (role === null ? 0 : 1) && row < end && at >= from && at < to;
}

function namesTransect(column: Column): boolean {
  return nameFit(column, 'habitat', 'transect') > 1;
}

const FIELDS = [
  'transect',
  'date',
  'design',
  'primary',
  'secondary',
  'observers',
  'start_lat',
  'start_lon',
  'end_lat',
  'end_lon',
  'start',
  'end',
  'bearing_deg',
  'length_m',
  'width_m',
  'clarity_m',
  'stop',
  'setup_min',
  'habitat_min',
  'search_min',
  'notes',
];

function transectField(label: string): string | null {
  return FIELDS.find((field) => nameFit(headerOf(label), 'transects', field) > 1) ?? null;
}

/** One row: the values under their labels. Without a label for the transect it is called as the sheet is. */
function headerBlock(table: RawTable, labels: readonly LabelledValue[]): Block {
  const given = [...labels];
  if (!given.some(({ label }) => transectField(label) === 'transect'))
    given.push({ label: 'transect', value: sheetName(table), row: labels[0].row });
  // the same columns for each sheet, in whatever order they were typed
  given.sort((a, b) => (headerOf(a.label).key < headerOf(b.label).key ? -1 : 1));
  const columns = columnsOf(
    given.map(({ label }) => label),
    [],
    given.length,
  ).map((column) =>
    transectField(column.text) === 'transect' ? { ...column, key: 'transect' } : column,
  );
  const cells = given.map(({ value }) => value);
  return {
    table,
    columns,
    rows: [{ row: given[0].row, cells }],
    headerRow: given[0].row,
    cellRows: given.map(({ row }) => row),
  };
}

function sheetName({ sheet, file }: RawTable): RawCell {
  return { text: sheet ?? file.replace(/\.[^.]*$/, ''), kind: 'text' };
}

function regionBlock(table: RawTable, rows: Rows, region: Region, label: RawCell): Block {
  const { from, to, columns, role } = region;
  const constant = (text: string, at: number): Column => ({
    key: text,
    short: text,
    text,
    unit: null,
    note: null,
    at,
  });
  const width = to - from;
  const added = [
    constant('transect', width),
    ...(role === null ? [] : [constant('role', width + 1)]),
  ];
  const written = rows
    .slice(region.next, region.end)
    .filter(({ cells }) => isWritten(cells, region));
  const body = written.map((row) => ({
    row: row.row,
    cells: [
      ...columns.map(({ at }) => cellAt(row, from + at)),
      label,
      ...(role === null ? [] : [{ text: role, kind: 'text' as const }]),
    ],
  }));
  return { table, columns: [...columns, ...added], rows: body, headerRow: rows[region.first].row };
}

/** Lines that were numbered beforehand and left empty hold nothing. */
function isWritten(cells: readonly RawCell[], { from, to, columns }: Region): boolean {
  const filled = columns.filter(
    ({ at }) => (cells[from + at] ?? BLANK).kind !== 'blank' && from + at < to,
  );
  return filled.length > 1 || filled.some((column) => nameFit(column, 'habitat', 'distance_m') > 0);
}

function regionsIn(rows: Rows): Region[] {
  const regions: Region[] = [];
  rows.forEach((_, i) => {
    if (!rows.slice(i, i + 2).some(({ cells }) => cells.some(isAlong))) return;
    for (const [from, to] of segmentsOf(rows[i].cells)) {
      if (regions.some((r) => i >= r.first && i < r.next && from < r.to && to > r.from)) continue;
      const region = regionAt(rows, i, from, to);
      if (region !== null) regions.push(region);
    }
  });
  for (const region of regions) region.end = endOf(rows, region, regions);
  return regions;
}

/** Cells that stand together; two tables side by side also part where a distance stands for the second time. */
function segmentsOf(cells: readonly RawCell[]): [from: number, to: number][] {
  const segments: [number, number][] = [];
  let from = 0;
  let distances = 0;
  for (let at = 0; at <= cells.length; at++) {
    const cell = cells[at] ?? BLANK;
    const along = isAlong(cell);
    if (cell.kind === 'blank' || (along && distances > 0)) {
      if (at - from >= 2) segments.push([from, at]);
      from = cell.kind === 'blank' ? at + 1 : at;
      distances = 0;
    }
    if (along) distances++;
  }
  return segments;
}

/** A header that means nothing but the distance along the transect. */
function isAlong({ kind, text }: RawCell): boolean {
  return (
    kind === 'text' && /\p{L}/u.test(text) && nameFit(headerOf(text), 'habitat', 'distance_m') > 1
  );
}

function regionAt(rows: Rows, first: number, from: number, to: number): Region | null {
  const part = rows
    .slice(first, first + 3)
    .map(({ row, cells }) => ({ row, cells: cells.slice(from, to) }));
  if (part[0].cells.some(({ kind }) => kind !== 'text' && kind !== 'blank')) return null;
  // "Type: distance" is a label and its value
  const filled = part[0].cells.filter(({ kind }) => kind !== 'blank');
  const labels = filled.filter(({ text }) => /:\s*$/.test(text)).length;
  if (labels > 0 && labels < filled.length) return null;
  const head = headFrom(part, 0);
  const columns = columnsOf(head.texts, head.units, to - from);
  const has = (kind: SheetKind, field: string) =>
    columns.some((column) => nameFit(column, kind, field) > 0);
  const along = has('habitat', 'distance_m') || has('detections', 'distance_m');
  const isHabitat = along && has('habitat', 'substrate');
  const isDetections = along && (has('detections', 'count') || has('detections', 'offset_m'));
  if (isHabitat === isDetections) return null;
  const title =
    rows[first - 1]?.cells.slice(from, to).find(({ kind }) => kind !== 'blank')?.text ?? '';
  const role = isDetections && !has('detections', 'role') ? roleIn(title) : null;
  return {
    kind: isHabitat ? 'habitat' : 'detections',
    first,
    next: first + head.next,
    end: rows.length,
    from,
    to,
    columns,
    role,
  };
}

/** `Primary observer`, `Found by 2nd diver` over a table of detections. */
function roleIn(title: string): 'primary' | 'secondary' | null {
  const words = title.split(/[\s:,()-]+/).filter((word) => word.length > 2 || /^(1|2)$/.test(word));
  const role = words.map((word) => meaningOf.role(word)).find((value) => value !== null);
  return role === 'primary' || role === 'secondary' ? role : null;
}

/** Down to a blank line in its columns, to a line that leaves a row out, or to the next table. */
function endOf(rows: Rows, region: Region, all: readonly Region[]): number {
  const below = all.filter(
    (r) => r.first >= region.next && r.from < region.to && r.to > region.from,
  );
  const limit = below.reduce(
    (least, r) => Math.min(least, r.first - (r.role === null ? 0 : 1)),
    rows.length,
  );
  for (let i = region.next; i < limit; i++) {
    const cells = rows[i].cells.slice(region.from, region.to);
    const gap = rows[i].row > rows[i - 1].row + 1;
    if (gap || cells.every(({ kind }) => kind === 'blank')) return i;
  }
  return limit;
}
