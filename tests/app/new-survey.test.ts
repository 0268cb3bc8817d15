/** A survey that is begun in the page: sound tables without rows, and what may stand in their cells. */

import { describe, expect, it } from 'vitest';
import type { JudgedView } from '../../src/app/contract.ts';
import { valuesOf } from '../../src/app/stations/survey/columns.ts';
import { emptySurvey } from '../../src/app/storage/empty-survey.ts';
import { checkSurvey } from '../../src/check/index.ts';
import { readFolder } from '../../src/read/index.ts';

describe('an empty survey', () => {
  it('has nothing wrong but that there are no transects, and the lake that it was begun for', async () => {
    const reading = await readFolder(emptySurvey(' Loon Lake 2026 '));
    const told = [...reading.findings, ...checkSurvey(reading)];
    expect(told.filter((f) => f.severity === 'error').map((f) => f.code)).toEqual(['no-transects']);
    expect(reading.analysis.lake).toBe('Loon Lake 2026');
  });
});

describe('what may stand in a cell', () => {
  const judged = {
    sheets: [
      {
        file: 'transects.csv',
        header: ['Transect', 'primary', 'secondary'],
        rows: [
          { row: 2, cells: ['T1', 'Ann', 'Ben'] },
          { row: 3, cells: ['T2', 'Ben', ''] },
        ],
      },
    ],
    analysis: { substrates: ['mud', 'rock'] } as JudgedView['analysis'],
  };
  it.each([
    ['transects.csv', 'design', ['belt', 'distance'], true],
    ['habitat.csv', 'substrate', ['mud', 'rock'], true],
    ['habitat.csv', 'plant_cover', ['0', '1', '2', '3', '4'], true],
    ['detections.csv', 'transect', ['T1', 'T2'], false],
    ['transects.csv', 'Secondary', ['Ann', 'Ben'], false],
  ])('%s, %s: %o', (file, column, list, closed) => {
    expect(valuesOf(file, column, judged)).toEqual({ list, closed });
  });

  it.each([
    ['detections.csv', 'count'],
    ['transects.csv', 'transect'],
    ['habitat.csv', 'a column of mine'],
  ])('%s, %s: anything', (file, column) => {
    expect(valuesOf(file, column, judged)).toBeNull();
  });
});
