/** The chance above the threshold and the CV as maps of their own; looks by hand from a surface written by hand. */

import { describe, expect, it } from 'vitest';
import { furtherMaps } from '../../src/present/further-maps.ts';
import { LOOK } from '../../src/present/lake-raster.ts';
import { handMadeResult, nothingFound, withoutLake } from '../helpers/result.ts';

/** A grid of one row: nothing mapped, outside, then four cells of the surveyed habitat. */
function mapped(threshold: number | null) {
  const result = handMadeResult();
  if (result.bed === null || result.surface === null) throw new Error('got no grid');
  const none = Number.NaN;
  return {
    ...result,
    analysis: { ...result.analysis, map: { ...result.analysis.map, threshold_per_m2: threshold } },
    bed: { ...result.bed, frame: { ...result.bed.frame, nx: 6, ny: 1 } },
    surface: {
      densityPerM2: Float32Array.of(none, none, 1, 1, 1, 0),
      inside: Float32Array.of(none, 0, 1, 1, 1, 1),
      cv: Float32Array.of(none, none, 0.1, 0.2, 0.9, none),
      aboveThreshold: Float32Array.of(none, none, 0.01, 0.5, 0.99, none),
    },
  };
}

describe('maps beside that of density', () => {
  it('have a class a cell: below 5 %, 50 to 75 %, 95 % and more; CV below 15 %, 15 to 25 %, 70 % and more', () => {
    const [chance, cv] = furtherMaps(mapped(1));
    const first = LOOK.firstClass;
    const outside = [LOOK.nothing, LOOK.outside];
    expect([...(chance?.looks ?? [])]).toEqual([
      ...outside,
      first,
      first + 3,
      first + 5,
      LOOK.noDensity,
    ]);
    expect([...(cv?.looks ?? [])]).toEqual([
      ...outside,
      first,
      first + 1,
      first + 4,
      LOOK.noDensity,
    ]);
    expect(chance?.title).toBe('Chance of more than 1 mussels per m²');
    expect(chance?.classes.map((c) => c.words)).toEqual([
      'below 5 %',
      '5 % to 25 %',
      '25 % to 50 %',
      '50 % to 75 %',
      '75 % to 95 %',
      '95 % and more',
    ]);
    // three cells with a density
    expect(cv?.described).toContain('below 15 % on 33 %, 15 % to 25 % on 33 %');
  });

  it('are one without a threshold, and none without a lake or a detection', () => {
    expect(furtherMaps(mapped(null)).map((m) => m.name)).toEqual(['cv']);
    expect(furtherMaps(withoutLake())).toEqual([]);
    expect(furtherMaps(nothingFound())).toEqual([]);
  });
});
