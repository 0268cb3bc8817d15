/** Rows that carry a transect's label follow it; by hand. */

import { describe, expect, it } from 'vitest';
import { carrying, carryingTold } from '../../src/app/state/label-edits.ts';

const files = (tables: Record<string, string>) =>
  new Map(Object.entries(tables).map(([name, text]) => [name, new TextEncoder().encode(text)]));

const survey = files({
  'transects.csv': 'Transect,date\nT1,2026-07-01\nT2,2026-07-01\nT2,2026-07-02\nT3,\n',
  'habitat.csv': 'transect,distance_m\nT1,0\nT2,0\nT1 ,12\n',
  'detections.csv': 'distance_m,TRANSECT\n3,T1\n4,T10\n',
  'planted_shells.csv': 'transect,planted\nT1,20\n',
});
const at = (row: number, column = 'Transect', file = 'transects.csv') => ({ file, row, column });

describe('a label that is changed', () => {
  it('is carried by rows of all other tables, under the name that their header gives the column', () => {
    const rows = carrying(survey, at(2));
    expect(rows).toEqual([
      { file: 'habitat.csv', row: 2, column: 'transect' },
      { file: 'habitat.csv', row: 4, column: 'transect' },
      { file: 'detections.csv', row: 2, column: 'TRANSECT' },
      { file: 'planted_shells.csv', row: 2, column: 'transect' },
    ]);
    expect(carryingTold(rows)).toBe(
      '2 rows of habitat.csv, 1 of detections.csv and 1 of planted_shells.csv',
    );
  });

  it('moves nothing where two transects have it, in other columns and tables, and where no row has it', () => {
    expect(carrying(survey, at(3))).toEqual([]);
    expect(carrying(survey, at(2, 'date'))).toEqual([]);
    expect(carrying(survey, at(2, 'transect', 'habitat.csv'))).toEqual([]);
    expect(carrying(survey, at(5))).toEqual([]);
    expect(carryingTold([])).toBeNull();
  });
});
