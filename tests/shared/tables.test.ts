/** The tables' definition and the Table Schema made from it. Rules: Frictionless Table Schema 2.0, read on 2026-11-25. */

import { describe, expect, it } from 'vitest';
import { dataPackage, tableSchema } from '../../shared/table-schema.ts';
import { DETECTIONS, HABITAT, TABLES, TRANSECTS } from '../../shared/tables.ts';

describe('the definition', () => {
  it('names each column of a table once', () => {
    for (const { columns } of TABLES) {
      const names = columns.map(({ name }) => name);
      expect(new Set(names).size).toBe(names.length);
    }
  });

  it('has the columns of the survey folder', () => {
    const names = TABLES.map(({ columns }) => columns.map(({ name }) => name).join(' '));
    expect(names).toEqual([
      'transect date design primary secondary start_lat start_lon end_lat end_lon bearing_deg bearing_ref length_m width_m clarity_m stop setup_min habitat_min search_min notes',
      'transect distance_m substrate plant_cover depth_m',
      'transect role distance_m offset_m count cluster_length_cm cluster_width_cm',
    ]);
  });

  it('a table that only some surveys have is described where it is there', () => {
    const pathsOf = (files: string[]) =>
      dataPackage('Étang', new Set(files)).resources.map(({ path }) => path);
    expect(pathsOf(['depth.tif'])).not.toContain('planted_shells.csv');
    expect(pathsOf(['planted_shells.csv'])).toContain('planted_shells.csv');
  });

  it('gives a unit to every column whose name ends in one', () => {
    const units = {
      m: 'metres',
      deg: 'degrees',
      cm: 'centimetres',
      min: 'minutes',
      lat: 'degrees',
      lon: 'degrees',
    };
    for (const { name, unit } of TABLES.flatMap(({ columns }) => columns)) {
      const ending = /_(m|deg|cm|min|lat|lon)$/.exec(name)?.[1] as keyof typeof units | undefined;
      if (ending !== undefined) expect(unit, name).toBe(units[ending]);
    }
  });
});

describe('the Table Schema', () => {
  const pack = dataPackage('Étang du Loup 2');

  it('is a package of the three tables, named as the standard asks', () => {
    expect(pack.$schema).toBe('https://datapackage.org/profiles/2.0/datapackage.json');
    expect(pack.name).toBe('e-tang-du-loup-2');
    expect(pack.resources.map(({ path }) => path)).toEqual([
      TRANSECTS.file,
      HABITAT.file,
      DETECTIONS.file,
    ]);
    expect(pack.resources.map(({ name }) => name)).toEqual(['transects', 'habitat', 'detections']);
  });

  it('uses only types, properties and constraints of the standard', () => {
    const constraints = [
      'required',
      'unique',
      'enum',
      'pattern',
      'maxLength',
      'minimum',
      'maximum',
      'exclusiveMinimum',
      'exclusiveMaximum',
    ];
    for (const { schema } of pack.resources) {
      expect(schema.$schema).toBe('https://datapackage.org/profiles/2.0/tableschema.json');
      expect(['exact', 'equal', 'subset', 'superset', 'partial']).toContain(schema.fieldsMatch);
      for (const field of schema.fields) {
        expect(['string', 'number', 'integer', 'date']).toContain(field.type);
        for (const name of Object.keys(field.constraints ?? {}))
          expect(constraints).toContain(name);
      }
    }
  });

  it('refers from the two other tables to the transects by their key', () => {
    expect(tableSchema(TRANSECTS).primaryKey).toEqual(['transect']);
    for (const table of [HABITAT, DETECTIONS]) {
      expect(tableSchema(table).foreignKeys).toEqual([
        { fields: ['transect'], reference: { resource: 'transects', fields: ['transect'] } },
      ]);
    }
  });

  it('carries limits and vocabularies', () => {
    const field = (name: string) =>
      tableSchema(TRANSECTS).fields.find((each) => each.name === name)!;
    expect(field('length_m')).toMatchObject({
      type: 'number',
      unit: 'metres',
      constraints: { exclusiveMinimum: 0, maximum: 1000 },
    });
    expect(field('bearing_deg').constraints).toEqual({ minimum: 0, exclusiveMaximum: 360 });
    expect(field('design').constraints).toEqual({ enum: ['belt', 'distance'] });
    // a planned transect may lack all but its label; a habitat row lacks nothing of this
    expect(field('transect').constraints).toMatchObject({ required: true, unique: true });
    expect(field('design').description).toContain('Required, but not of a planned transect');
    expect(
      tableSchema(HABITAT).fields.find((f) => f.name === 'depth_m')!.constraints,
    ).toMatchObject({
      required: true,
    });
    const minutes = new RegExp(`^${field('search_min').constraints!.pattern}$`);
    expect(['4:30', '18.5', '0'].every((text) => minutes.test(text))).toBe(true);
    expect(['7:75', '-1', 'x'].some((text) => minutes.test(text))).toBe(false);
  });
});
