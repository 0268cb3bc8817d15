/**
 * Layers with their meanings and styles as one GeoPackage, version 1.3 (OGC 12-128r17), in WGS 84. Spatial indices are left
 * out: the database library has no R*-tree, and layers of some thousand features are read whole.
 */

import type { Database, SqlJsStatic, SqlValue } from 'sql.js';
import { type Box, boxOf, type Geometry, geometryBlob } from './geometry.ts';
import { MORE_TABLES, TABLES, WGS84 } from './geopackage-tables.ts';

export type FieldType = 'TEXT' | 'INTEGER' | 'REAL' | 'BOOLEAN' | 'DATE';

export interface LayerField {
  name: string;
  type: FieldType;
  /** what it says, with its unit */
  meaning: string;
}

/** How a layer is drawn, in two style languages. */
export interface LayerStyle {
  name: string;
  qml: string;
  sld: string;
}

export interface Layer {
  name: string;
  title: string;
  description: string;
  geometry: 'POINT' | 'LINESTRING' | 'MULTIPOLYGON';
  fields: readonly LayerField[];
  /** one value a field; a row without a geometry is in the layer's table, and not on the map */
  rows: readonly {
    geometry: Geometry | null;
    values: readonly (string | number | boolean | null)[];
  }[];
  /** the first one is what a GIS opens the layer with */
  styles: readonly LayerStyle[];
}

export interface GeoPackageInput {
  layers: readonly Layer[];
  /** about all of it: an XML document and the address of its standard */
  metadata: { standard: string; xml: string };
  /** when it is written, ISO 8601 in UTC with milliseconds */
  at: string;
}

/** "GPKG", and the version of the standard. */
const APPLICATION_ID = 0x47504b47;
const VERSION = 10300;

/** The file's bytes. Throws on a figure or a position that is not finite, and on two fields of one name. */
export function writeGeoPackage(sql: SqlJsStatic, input: GeoPackageInput): Uint8Array {
  const db = new sql.Database();
  try {
    db.run(`PRAGMA application_id = ${APPLICATION_ID}; PRAGMA user_version = ${VERSION};`);
    db.run('BEGIN');
    db.run(TABLES);
    db.run(MORE_TABLES);
    writeMetadata(db, input);
    for (const layer of input.layers) writeLayer(db, layer, input.at);
    writeStyles(db, input);
    db.run('COMMIT');
    return db.export();
  } finally {
    db.close();
  }
}

function writeMetadata(db: Database, { metadata, at }: GeoPackageInput): void {
  db.run('INSERT INTO gpkg_metadata VALUES (1, ?, ?, ?, ?)', [
    'dataset',
    metadata.standard,
    'text/xml',
    metadata.xml,
  ]);
  db.run('INSERT INTO gpkg_metadata_reference VALUES (?, NULL, NULL, NULL, ?, 1, NULL)', [
    'geopackage',
    at,
  ]);
}

function writeLayer(db: Database, layer: Layer, at: string): void {
  const { name, title, description, geometry, fields, rows } = layer;
  const columns = fields.map((field) => `${quoted(field.name)} ${field.type}`);
  db.run(
    `CREATE TABLE ${quoted(name)} (${['fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL', `geom ${geometry}`, ...columns].join(', ')})`,
  );
  const box = boxOfAll(rows.flatMap((row) => row.geometry ?? []));
  db.run('INSERT INTO gpkg_contents VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)', [
    name,
    'features',
    title,
    description,
    at,
    ...(box ?? [null, null, null, null]),
    WGS84,
  ]);
  db.run('INSERT INTO gpkg_geometry_columns VALUES (?, ?, ?, ?, 0, 0)', [
    name,
    'geom',
    geometry,
    WGS84,
  ]);
  for (const field of fields)
    db.run('INSERT INTO gpkg_data_columns VALUES (?, ?, NULL, NULL, ?, NULL, NULL)', [
      name,
      field.name,
      field.meaning,
    ]);
  const insert = db.prepare(
    `INSERT INTO ${quoted(name)} VALUES (NULL, ?${', ?'.repeat(fields.length)})`,
  );
  try {
    for (const row of rows)
      insert.run([row.geometry && geometryBlob(row.geometry, WGS84), ...row.values.map(stored)]);
  } finally {
    insert.free();
  }
}

function stored(value: string | number | boolean | null): SqlValue {
  if (typeof value === 'boolean') return value ? 1 : 0;
  if (typeof value === 'number' && !Number.isFinite(value))
    throw new Error(`got ${value} for a layer, expected a finite number or null`);
  return value;
}

/** A table that GIS programs look for: the style that a layer is opened with, and others to choose from. */
function writeStyles(db: Database, { layers, at }: GeoPackageInput): void {
  db.run('INSERT INTO gpkg_contents VALUES (?, ?, ?, ?, ?, NULL, NULL, NULL, NULL, NULL)', [
    'layer_styles',
    'attributes',
    'layer_styles',
    'How the layers are drawn',
    at,
  ]);
  for (const layer of layers)
    layer.styles.forEach((style, i) => {
      db.run('INSERT INTO layer_styles VALUES (NULL, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, NULL, ?)', [
        '',
        '',
        layer.name,
        'geom',
        style.name,
        style.qml,
        style.sld,
        i === 0 ? 1 : 0,
        `${layer.title}: ${style.name}`,
        '',
        at,
      ]);
    });
}

function boxOfAll(geometries: readonly Geometry[]): Box | null {
  if (geometries.length === 0) return null;
  return geometries
    .map(boxOf)
    .reduce((all, one) => [
      Math.min(all[0], one[0]),
      Math.min(all[1], one[1]),
      Math.max(all[2], one[2]),
      Math.max(all[3], one[3]),
    ]);
}

const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`;
