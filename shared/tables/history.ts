/** history.csv: one row a change. */

import { HISTORY_FILE } from '../history.ts';
import { name, type Table, text } from './kinds.ts';

/** Longer than any table of a survey. */
const MOST_ROWS = 2_000_000;

/** What was changed in the survey: written by the program, read to show it and to merge copies; no number depends on it. */
export const HISTORY: Table = {
  name: 'history',
  file: HISTORY_FILE,
  row: 'a change of one cell, one row, one choice or one file',
  key: null,
  refersBy: null,
  columns: [
    {
      name: 'when',
      label: 'when',
      ...text,
      type: 'time',
      required: 'always',
      meaning: 'Time of the change, ISO 8601 in UTC.',
      example: '2026-07-01T10:00:00.000Z',
    },
    {
      name: 'who',
      label: 'who',
      ...name,
      required: null,
      blankMeans: 'not told',
      meaning: 'Who made it.',
      example: 'Ann',
    },
    {
      name: 'table',
      label: 'file',
      ...text,
      required: 'always',
      meaning: 'File of the survey.',
      example: 'transects.csv',
    },
    {
      name: 'row',
      label: 'row',
      type: 'whole',
      unit: null,
      required: null,
      min: 0,
      max: MOST_ROWS,
      blankMeans: 'a change of no row',
      meaning: 'Row as a spreadsheet shows it; in lists of areas and variants the place, from 0.',
      example: '7',
    },
    {
      name: 'column',
      label: 'column',
      ...text,
      required: 'always',
      meaning: 'Column, * for a whole row or file, or key of analysis.json.',
      example: 'length_m',
    },
    {
      name: 'old',
      label: 'old',
      ...text,
      required: null,
      meaning:
        'What stood there; of a whole row its cells as a JSON list, blank where it was added.',
      example: '3O',
    },
    {
      name: 'new',
      label: 'new',
      ...text,
      required: null,
      meaning: 'What stands there since; blank where a row was left out.',
      example: '30',
    },
    {
      name: 'why',
      label: 'why',
      ...text,
      required: null,
      meaning: 'Reason of the change.',
      example: 'typing error',
    },
  ],
};
