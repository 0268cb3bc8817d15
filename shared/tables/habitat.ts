/** habitat.csv: one row where a habitat begins. */

import { term } from '../glossary.ts';
import { DEEPEST_LAKE_M, metres, OF_TRANSECT, type Table } from './kinds.ts';

export const HABITAT: Table = {
  name: 'habitat',
  file: 'habitat.csv',
  row: 'a place along a transect where a habitat begins',
  key: null,
  refersBy: 'transect',
  columns: [
    OF_TRANSECT,
    {
      name: 'distance_m',
      label: 'distance along',
      ...metres,
      required: 'always',
      min: 0,
      meaning:
        'Distance along the rope where this habitat begins; the first row of a transect is at 0. A row at length_m is the end row: it gives the depth at the end.',
      example: '12.5',
    },
    {
      name: 'substrate',
      label: term('substrate'),
      type: 'classes',
      unit: null,
      required: 'but on the end row',
      mustExist: true,
      blankMeans: null,
      meaning: 'Class of the bed, or several joined by +, the dominant one first.',
      example: 'sand+gravel',
    },
    {
      name: 'plant_cover',
      label: term('plantCover'),
      type: 'whole',
      unit: null,
      required: 'but on the end row',
      mustExist: true,
      min: 0,
      max: 4,
      beyond: 'off the scale',
      blankMeans: null,
      meaning: 'Plant cover from 0 (none) to 4.',
      example: '2',
    },
    {
      name: 'depth_m',
      label: term('depth'),
      ...metres,
      required: 'always',
      min: 0,
      max: DEEPEST_LAKE_M,
      meaning: 'Water depth at this distance.',
      example: '2.4',
    },
  ],
};
