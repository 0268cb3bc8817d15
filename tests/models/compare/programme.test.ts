/**
 * Detection in common across lakes. By hand: where every lake has the same bed and the same searched area, the total is
 * A/a (n₁ + n₂ + …)/p̄ with p pooled over lakes, as of one survey with all transects on one bed as large as all of them: the same
 * estimate and the same error, whatever each lake's own density is.
 */

import { describe, expect, it } from 'vitest';
import { bedTotal } from '../../../models/averaged.ts';
import { type ProgrammeLake, sharedProgramme } from '../../../models/compare/programme.ts';
import type { SurveyRows } from '../../../models/data.ts';
import { fitConverged, POISSON, swapped } from '../../helpers/fitting.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { type WrittenTransect, writtenRows } from '../../helpers/written-rows.ts';

const ALIKE = choices({
  density: { substrate: false, plant_cover: 'none', depth: 'none' },
  detection: { observer: false },
});
/** two more empty segments on each transect: AICc needs segments */
const spread = (transects: WrittenTransect[]): WrittenTransect[] =>
  transects.map((t) => ({ ...t, segments: [...t.segments, {}, {}] }));
const bedOf = (areaM2: number) => ({
  count: 1,
  habitat: [0],
  areaM2: [areaM2],
  depthM: [3],
  band: [3],
  reason: [0],
});
const HABITATS = [{ classes: [0], plantCover: 0 }];
const lakeOf = (rows: SurveyRows): ProgrammeLake => ({
  rows,
  fit: fitConverged(rows, ALIKE, POISSON),
  habitats: HABITATS,
  pieces: bedOf(100),
});
const LAKES = [swapped(40, 12, 36, 11), swapped(20, 5, 25, 7), swapped(9, 3, 8, 2)].map(spread);

describe('many lakes with detection in common', () => {
  const lakes = LAKES.map((t) => lakeOf(writtenRows(t)));

  it('have the total and the error of one survey of all of them', () => {
    const rows = writtenRows(LAKES.flat());
    const members = [{ fit: fitConverged(rows, ALIKE, POISSON), weight: 1 }];
    const one = bedTotal(rows, members, HABITATS, bedOf(300));
    const shared = sharedProgramme(lakes, [
      [0, 1],
      [0, 1],
      [0, 1],
    ]);
    expect(shared).toMatchObject({ used: true, persons: [0, 1] });
    expect(shared?.mussels).toBeCloseTo(one.mussels, 5);
    expect(shared?.se).toBeCloseTo(one.musselsSe, 5);
  });

  it('have none in common where other persons dived on each', () => {
    expect(
      sharedProgramme(lakes, [
        [0, 1],
        [2, 3],
        [4, 5],
      ]),
    ).toBeNull();
  });

  it('stay by themselves where AICc is against it: then totals and variances add up', () => {
    const murky = [lakes[0], lakeOf(writtenRows(spread(swapped(40, 35, 42, 36))))];
    const apart = sharedProgramme(murky, [
      [0, 1],
      [0, 1],
    ]);
    expect(apart?.used).toBe(false);
    const own = murky.map(({ rows, fit, pieces }) =>
      bedTotal(rows, [{ fit, weight: 1 }], HABITATS, pieces),
    );
    expect(apart?.mussels).toBeCloseTo(own[0].mussels + own[1].mussels, 6);
    expect(apart?.se).toBeCloseTo(Math.hypot(own[0].musselsSe, own[1].musselsSe), 6);
  });
});
