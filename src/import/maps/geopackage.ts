/** All feature layers of a GeoPackage. (OGC 12-128r18, 1.1.1–1.1.3 and 2.1.) */

import type { Database, SqlJsStatic, SqlValue } from 'sql.js';
import { errorAt, type Finding, noticeAt } from '../../../shared/findings.ts';
import type { GivenCrs, GivenFile, RawLayer, RawValue } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { quoted, visible } from '../../../shared/words.ts';
import { byCode } from './crs.ts';
import { layersOf, type ReadShape } from './shapes.ts';
import { readWkb } from './wkb.ts';

const MAGIC = 'SQLite format 3\0';
/** A database that is being written in the other journal mode says so here; it is read as it stands. */
const JOURNAL_BYTES = [18, 19];
const WITHOUT_JOURNAL = 1;
/** Bytes of the box in the head of a shape, by its code. */
const ENVELOPE_BYTES = [0, 32, 48, 48, 64];
const HEAD_BYTES = 8;
const MOST_SHAPES = 2_000_000;

export function isSqlite(bytes: Uint8Array): boolean {
  return new TextDecoder().decode(bytes.subarray(0, MAGIC.length)) === MAGIC;
}

export async function readGeoPackage(file: GivenFile, findings: Finding[]): Promise<RawLayer[]> {
  const refuse = (message: string): RawLayer[] => {
    findings.push(errorAt({ table: file.name }, 'unreadable-map', message));
    return [];
  };
  const bytes = Uint8Array.from(file.bytes);
  for (const place of JOURNAL_BYTES) bytes[place] = WITHOUT_JOURNAL;
  const database = new (await sqlite()).Database(bytes);
  try {
    const layers = columns(database);
    if (layers === null)
      return refuse('a SQLite database that is no GeoPackage (it has no gpkg_geometry_columns)');
    if (layers.length === 0)
      return refuse(
        'a GeoPackage without a layer of features (rasters in a GeoPackage are not read; a GeoTIFF is)',
      );
    return layers.flatMap((layer) => readLayer(database, layer, file.name, findings));
  } catch (error) {
    return refuse(
      `a GeoPackage that cannot be read (${visible(String(error instanceof Error ? error.message : error))}): was it cut off?`,
    );
  } finally {
    database.close();
  }
}

let engine: Promise<SqlJsStatic> | null = null;

/** The database engine with its program inside of it: nothing is fetched. */
function sqlite(): Promise<SqlJsStatic> {
  engine ??= import('sql.js/dist/sql-wasm-inline.js').then((module) => module.default());
  return engine;
}

interface LayerColumn {
  table: string;
  column: string;
  srs: number;
}

function columns(database: Database): LayerColumn[] | null {
  const has = rowsOf(
    database,
    "SELECT name FROM sqlite_master WHERE name = 'gpkg_geometry_columns'",
  );
  if (has.length === 0) return null;
  return rowsOf(
    database,
    'SELECT table_name, column_name, srs_id FROM gpkg_geometry_columns ORDER BY rowid',
  ).map(([table, column, srs]) => ({
    table: String(table),
    column: String(column),
    srs: Number(srs),
  }));
}

function readLayer(
  database: Database,
  { table, column, srs }: LayerColumn,
  file: string,
  findings: Finding[],
): RawLayer[] {
  const about = `${file}, layer ${table}`;
  const statement = database.prepare(`SELECT * FROM ${name(table)} LIMIT ${MOST_SHAPES + 1}`);
  const shapes: ReadShape[] = [];
  const wrong = new Map<string, number>();
  try {
    const names = statement.getColumnNames();
    const place = names.indexOf(column);
    if (place < 0) {
      findings.push(
        errorAt(
          { table: about },
          'unreadable-map',
          `has no column ${quoted(column)}, which should hold its shapes`,
        ),
      );
      return [];
    }
    while (statement.step()) {
      const values = statement.get();
      const row = shapes.length + 1;
      if (row > MOST_SHAPES) {
        findings.push(
          errorAt(
            { table: about },
            'map-too-large',
            `more than ${formatCount(MOST_SHAPES)} shapes`,
          ),
        );
        return [];
      }
      const properties: Record<string, RawValue> = {};
      for (const [k, key] of names.entries())
        if (k !== place) properties[key] = plainValue(values[k]);
      try {
        for (const geometry of geometriesOf(values[place]))
          shapes.push({ geometry, properties, row });
      } catch (error) {
        const message = error instanceof Error ? error.message : String(error);
        wrong.set(message, wrong.get(message) ?? row);
      }
    }
  } finally {
    statement.free();
  }
  for (const [message, row] of wrong)
    findings.push(
      noticeAt({ table: about, row }, 'broken-geometry', `${message}: such shapes are left out`),
    );
  return layersOf(
    { file, layer: table === '' ? null : table, from: 'map', crs: crsOf(database, srs) },
    shapes,
    findings,
  );
}

/** A GeoPackage's head before the well-known binary. */
function geometriesOf(value: SqlValue): ReadShape['geometry'][] {
  if (!(value instanceof Uint8Array)) return [null];
  if (value.length < HEAD_BYTES || value[0] !== 0x47 || value[1] !== 0x50)
    throw new Error('a shape without the head that GeoPackages have');
  const flags = value[3];
  if ((flags & 0x20) !== 0) throw new Error('a shape of a type of its own');
  if ((flags & 0x10) !== 0) return [null]; // empty
  const envelope = ENVELOPE_BYTES[(flags >> 1) & 7];
  if (envelope === undefined) throw new Error('a shape with a box of unknown kind');
  return readWkb(value, HEAD_BYTES + envelope);
}

/** By the code where it is in the list, else by the definition; −1 and 0 are "not defined". */
function crsOf(database: Database, srs: number): GivenCrs {
  if (srs <= 0) return { kind: 'none' };
  const [row] = rowsOf(
    database,
    `SELECT organization, organization_coordsys_id, definition FROM gpkg_spatial_ref_sys WHERE srs_id = ${Math.trunc(srs)}`,
  );
  if (row === undefined) return { kind: 'none' };
  const [organization, id, definition] = row;
  const code = Number(id);
  const isEpsg = String(organization).toUpperCase() === 'EPSG';
  if (isEpsg && 'system' in byCode(code)) return { kind: 'epsg', code };
  const text = String(definition ?? '');
  if (/^\s*[A-Z_]+[[(]/i.test(text)) return { kind: 'wkt', text };
  return isEpsg ? { kind: 'epsg', code } : { kind: 'none' };
}

function rowsOf(database: Database, sql: string): SqlValue[][] {
  return database.exec(sql)[0]?.values ?? [];
}

function name(text: string): string {
  return `"${text.replaceAll('"', '""')}"`;
}

function plainValue(value: SqlValue): RawValue {
  if (value instanceof Uint8Array) return null;
  return typeof value === 'number' && !Number.isFinite(value) ? null : value;
}
