/**
 * The tables' definition as a Frictionless Data Package (version 2.0 of the standard): what
 * `datapackage.json` beside the tables holds. Column order is free, optional columns may be absent and
 * further ones present, hence `fieldsMatch: partial`.
 */

import { type Column, HISTORY, OPTIONAL_TABLES, TABLES, type Table, TRANSECTS } from './tables.ts';

const PACKAGE_PROFILE = 'https://datapackage.org/profiles/2.0/datapackage.json';
const SCHEMA_PROFILE = 'https://datapackage.org/profiles/2.0/tableschema.json';
/** Decimal minutes, or minutes and two digits of seconds. */
const MINUTES_PATTERN = String.raw`\s*(\d+:[0-5]\d|[+]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?)\s*`;

export interface SchemaField {
  name: string;
  type: 'string' | 'number' | 'integer' | 'date' | 'datetime';
  description: string;
  example: string;
  unit?: string;
  constraints?: Record<string, unknown>;
}

export interface TableSchema {
  $schema: string;
  fieldsMatch: 'partial';
  missingValues: string[];
  fields: SchemaField[];
  primaryKey?: string[];
  foreignKeys?: { fields: string[]; reference: { resource: string; fields: string[] } }[];
}

export interface DataPackage {
  $schema: string;
  name: string;
  title: string;
  resources: {
    name: string;
    type: 'table';
    path: string;
    scheme: 'file';
    format: 'csv';
    mediatype: 'text/csv';
    encoding: 'utf-8';
    description: string;
    schema: TableSchema;
  }[];
}

/** The content of `datapackage.json` for a survey of this lake. @param files names of its files */
export function dataPackage(lake: string, files: ReadonlySet<string> = new Set()): DataPackage {
  const tables = [
    ...TABLES,
    ...[...OPTIONAL_TABLES, HISTORY].filter(({ file }) => files.has(file)),
  ];
  return {
    $schema: PACKAGE_PROFILE,
    name: slug(lake),
    title: lake,
    resources: tables.map((table) => ({
      name: table.name,
      type: 'table',
      path: table.file,
      scheme: 'file',
      format: 'csv',
      mediatype: 'text/csv',
      encoding: 'utf-8',
      description: `One row is ${table.row}.`,
      schema: tableSchema(table),
    })),
  };
}

/** Table Schema 2.0 of one table. */
export function tableSchema(table: Table): TableSchema {
  const schema: TableSchema = {
    $schema: SCHEMA_PROFILE,
    fieldsMatch: 'partial',
    missingValues: [''],
    fields: table.columns.map((column) => schemaField(column, column.name === table.key, table)),
  };
  if (table.key !== null) schema.primaryKey = [table.key];
  if (table.refersBy !== null) {
    const reference = { resource: TRANSECTS.name, fields: [TRANSECTS.key ?? ''] };
    schema.foreignKeys = [{ fields: [table.refersBy], reference }];
  }
  return schema;
}

/** A row of transects.csv without a date is a planned transect, which may lack all but its label. */
function mayBePlanned(column: Column, table: Table): boolean {
  return table.name === TRANSECTS.name && column.name !== table.key;
}

function schemaField(column: Column, unique: boolean, table: Table): SchemaField {
  const field: SchemaField = {
    name: column.name,
    type: schemaType(column),
    description: describe(column, table),
    example: column.example,
  };
  if (column.unit !== null) field.unit = column.unit;
  const constraints = constraintsOf(column, unique, table);
  if (Object.keys(constraints).length > 0) field.constraints = constraints;
  return field;
}

function schemaType(column: Column): SchemaField['type'] {
  if (column.type === 'number') return 'number';
  if (column.type === 'whole') return 'integer';
  if (column.type === 'time') return 'datetime';
  return column.type === 'date' ? 'date' : 'string';
}

function describe(column: Column, table: Table): string {
  const notes = [column.meaning];
  if (column.unit !== null) notes.push(`Unit: ${column.unit}.`);
  if (column.required !== null && column.required !== 'always') {
    notes.push(`Required ${column.required}.`);
  }
  if (column.required === 'always' && mayBePlanned(column, table))
    notes.push(
      column.type === 'date'
        ? 'A row without it is a planned transect.'
        : 'Required, but not of a planned transect (a row without a date).',
    );
  if (column.blankMeans !== null) notes.push(`Blank means ${column.blankMeans}.`);
  return notes.join(' ');
}

function constraintsOf(column: Column, unique: boolean, table: Table): Record<string, unknown> {
  const constraints: Record<string, unknown> = {};
  if (column.required === 'always' && !mayBePlanned(column, table)) constraints.required = true;
  if (unique) constraints.unique = true;
  if (column.choices !== undefined) constraints.enum = [...column.choices];
  if (column.longest !== undefined) constraints.maxLength = column.longest;
  if (column.type === 'minutes') {
    constraints.pattern = MINUTES_PATTERN; // a text field: the limits below are not for texts
    return constraints;
  }
  if (column.min !== undefined) constraints.minimum = column.min;
  if (column.max !== undefined) constraints.maximum = column.max;
  if (column.above !== undefined) constraints.exclusiveMinimum = column.above;
  if (column.below !== undefined) constraints.exclusiveMaximum = column.below;
  return constraints;
}

/** A name as the standard wants it: lower case letters, digits, `-`. */
export function slug(lake: string): string {
  const plain = lake
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return plain === '' ? 'survey' : plain;
}
