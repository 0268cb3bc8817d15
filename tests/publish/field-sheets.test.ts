/**
 * Sheets for the dives: planned rows fill the headers, roles are exchanged from one to the next, and paper holds what a pencil
 * and gloves need. Lines of 12 mm and letters of 9 pt and more: common practice for sheets on waterproof paper.
 */

import { describe, expect, it } from 'vitest';
import { TRANSECTS } from '../../shared/tables.ts';
import { FIELD_ROWS, fieldSheets } from '../../src/present/field-sheets.ts';
import { fieldSheetsHtml } from '../../src/publish/field-sheets.ts';
import { readPlanned } from '../../src/read/planned.ts';

const HEADER = 'transect,date,design,primary,secondary,start_lat,start_lon,bearing_deg,length_m';
const read = (...rows: string[]) =>
  readPlanned(
    new Map([['transects.csv', new TextEncoder().encode([HEADER, ...rows, ''].join('\n'))]]),
    'Minnow Pond',
  );
const asked = { observers: null, blank: 0, detectionPages: 1 };
const NAMES = { primary: 'Ann', secondary: 'Ben' };

const valuesOf = (rows: string[], more: Partial<Parameters<typeof fieldSheets>[1]> = {}) =>
  fieldSheets(read(...rows).survey, { ...asked, ...more }).sheets.map((sheet) =>
    Object.fromEntries(sheet.fields.flat().map((f) => [f.label, f.value])),
  );

describe('planned rows', () => {
  it('are those without a date; what they hold stands on their sheet', () => {
    const { survey, findings } = read(
      'T1,2026-06-29,belt,Ann,Ben,45.1,-93.2,90,30',
      'T2,,distance,,,45.25,-93.125,324,',
    );
    expect(findings).toEqual([]);
    expect(survey.planned.map((p) => p.row)).toEqual([3]);
    const [sheet] = fieldSheets(survey, asked).sheets;
    const values = Object.fromEntries(sheet.fields.flat().map((f) => [f.label, f.value]));
    expect(values).toMatchObject({
      Transect: 'T2',
      Date: null,
      Design: 'distance',
      'Start, latitude': '45.25',
      'Start, longitude': '-93.125',
      'Bearing, start to end': '324',
      'Length searched': null,
      'Width searched': '2', // of a distance transect, where the sheet says nothing else
    });
  });

  it('may lack columns, but what they hold must be right', () => {
    const bare = new TextEncoder().encode('transect,start_lat,start_lon\nT1,95,-93\nT2,45,-93\n');
    const { survey, findings } = readPlanned(new Map([['transects.csv', bare]]), 'x');
    expect(survey.planned).toHaveLength(2);
    expect(findings.map((f) => [f.row, f.column, f.severity])).toEqual([[2, 'start_lat', 'error']]);
  });

  it('are told from a date that is no date', () => {
    const { survey, findings } = read('T1,29 June,belt,,,45,-93,90,30', 'T2,,belt,,,45,-93,90,30');
    expect(survey.planned.map((p) => p.cells.transect)).toEqual(['T2']);
    expect(findings.map((f) => [f.row, f.column])).toEqual([[2, 'date']]);
  });

  it('need no file at all: a blank sheet is one', () => {
    const { survey, findings } = readPlanned(new Map(), 'Loon Lake');
    expect(findings).toEqual([]);
    expect(() => fieldSheets(survey, asked)).toThrow('got no planned transect and no blank sheet');
    const { sheets, lake } = fieldSheets(survey, { ...asked, blank: 2 });
    expect(lake).toBe('Loon Lake');
    expect(sheets.map((s) => s.transect)).toEqual([null, null]);
  });
});

describe('roles', () => {
  const rolesOf = (rows: string[], more = {}) =>
    valuesOf(rows, more).map((v) => [v['Primary observer'], v['Secondary observer']]);

  it('are exchanged from sheet to sheet, first as asked', () => {
    const rows = ['T1,,belt,,,45,-93,90,30', 'T2,,belt,,,45,-93,90,30', 'T3,,belt,,,45,-93,90,30'];
    expect(rolesOf(rows, { observers: NAMES, blank: 1 })).toEqual([
      ['Ann', 'Ben'],
      ['Ben', 'Ann'],
      ['Ann', 'Ben'],
      ['Ben', 'Ann'],
    ]);
    expect(rolesOf(rows)).toEqual(Array(3).fill([null, null]));
  });

  it('go on from the last dive and from rows that have them', () => {
    expect(
      rolesOf([
        'T1,2026-06-29,belt,Ann,Ben,45,-93,90,30',
        'T2,,belt,,,45,-93,90,30',
        'T3,,belt,Cy,Ann,45,-93,90,30',
        'T4,,belt,,,45,-93,90,30',
      ]),
    ).toEqual([
      ['Ben', 'Ann'],
      ['Cy', 'Ann'],
      ['Ann', 'Cy'],
    ]);
  });

  it('are those of the crew that is named, also where others dived last', () => {
    const rows = ['T1,2026-06-29,belt,Cy,Dee,45,-93,90,30', 'T2,,belt,,,45,-93,90,30'];
    expect(rolesOf(rows, { observers: NAMES })).toEqual([['Ann', 'Ben']]);
  });

  it('with one name alone are left to the crew', () => {
    expect(rolesOf(['T1,,belt,Ann,,45,-93,90,30'], { observers: NAMES })).toEqual([['Ann', null]]);
  });
});

describe('the paper', () => {
  const page = (row: string, paper: 'a4' | 'letter' = 'a4') =>
    fieldSheetsHtml(
      fieldSheets(read(row).survey, { observers: NAMES, blank: 0, detectionPages: 2 }),
      paper,
    );
  const belt = page('T<1>,,belt,,,45,-93,90,30');

  it('has a box for every column of transects.csv, each once', () => {
    expect(FIELD_ROWS.flat().toSorted()).toEqual(TRANSECTS.columns.map((c) => c.name).toSorted());
  });

  it('has lines of 12 mm, no letter below 9 pt and no fill', () => {
    expect(belt).toContain('td { height: 12mm; }');
    const sizes = [...belt.matchAll(/(\d+(?:\.\d+)?)pt/g)].map(([, pt]) => Number(pt));
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(9);
    const fills = [...belt.split('@media screen')[0]!.matchAll(/background: (\S+?);/g)];
    expect(new Set(fills.map(([, colour]) => colour))).toEqual(new Set(['#fff']));
  });

  it('numbers the lines on through the pages, and asks whether nothing was found', () => {
    expect(belt).toContain('Clusters, page 2 of 2');
    for (const line of [1, 17, 18, 34]) expect(belt).toContain(`<td class="no">${line}</td>`);
    expect(belt).not.toContain('<td class="no">35</td>');
    expect(belt).toContain('Searched to the end, none found:');
  });

  it('measures across the transect on distance transects alone', () => {
    const sheets = (text: string) => text.split('For those who type')[0];
    expect(sheets(belt)).not.toContain('Perpendicular distance');
    expect(sheets(page('T1,,distance,,,45,-93,90,30'))).toContain('Perpendicular distance (m)');
    expect(sheets(page('T1,,,,,45,-93,90,30'))).toContain('Perpendicular distance (m)');
  });

  it('has the size asked for, the cautions, and labels as text whatever they hold', () => {
    expect(belt).toContain('size: A4;');
    expect(page('T1,,belt,,,45,-93,90,30', 'letter')).toContain('size: letter;');
    expect(belt).toContain('The dive plan, the dive safety officer and local rules come first');
    expect(belt).toContain('T&lt;1&gt;');
    expect(belt).not.toContain('T<1>');
  });
});
