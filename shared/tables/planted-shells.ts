/** planted_shells.csv: one row a transect in whose strip shells were put. */

import { term } from '../glossary.ts';
import { MAX_COUNT, name, type Table } from './kinds.ts';

const shells = { type: 'whole', unit: 'shells', max: MAX_COUNT, blankMeans: null } as const;

export const PLANTED_SHELLS: Table = {
  name: 'planted_shells',
  file: 'planted_shells.csv',
  row: 'a transect on which shells of known number were planted before it was searched',
  key: 'transect',
  refersBy: 'transect',
  columns: [
    {
      name: 'transect',
      label: term('transect'),
      ...name,
      required: 'always',
      meaning: 'Transect of transects.csv into whose strip the shells were put.',
      example: 'T01',
    },
    {
      name: 'planted',
      label: 'planted',
      ...shells,
      required: 'always',
      min: 1,
      meaning:
        'Shells that a third person put into the strip, singly, where live mussels sit; the observers know neither number nor place.',
      example: '20',
    },
    {
      name: 'found_first',
      label: 'found by the primary',
      ...shells,
      required: 'always',
      min: 0,
      meaning: 'Of these, the ones that the primary observer found; not among the detections.',
      example: '13',
    },
    {
      name: 'found_second_only',
      label: 'found by the secondary only',
      ...shells,
      required: 'always',
      min: 0,
      meaning:
        'Of these, the ones that the secondary observer found after the primary had missed them.',
      example: '3',
    },
  ],
};
