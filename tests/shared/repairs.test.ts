/** Which repairs stand below an error or notice. */

import { expect, it } from 'vitest';
import { noticeAt } from '../../shared/findings.ts';
import { type Repair, repairsFor } from '../../shared/repairs.ts';

const SPOT = { code: 'roles-never-swapped', table: 'transects.csv', row: null, column: null };
const repair = (id: string, why: string): Repair => ({
  id,
  title: 'No repair can be known',
  why,
  edits: [],
  certain: false,
  picture: { kind: 'cells' },
  answers: [SPOT],
});

it('is said once what two of one place say alike, as of belts and of distance transects', () => {
  const all = [
    repair('1', 'only the sheets tell'),
    repair('2', 'only the sheets tell'),
    repair('3', 'ask Ann'),
  ];
  const notice = noticeAt({ table: SPOT.table }, SPOT.code, 'never swapped on belts');
  expect(repairsFor(notice, all).map(({ id }) => id)).toEqual(['1', '3']);
});
