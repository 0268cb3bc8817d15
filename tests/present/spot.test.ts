/** What is told of a spot. Figures are those of the picture in the look's specification, or by hand. */

import { describe, expect, it } from 'vitest';
import type { SurveyResult } from '../../shared/result.ts';
import { REASONS } from '../../shared/survey.ts';
import {
  isWithin,
  type OutsideAtSpot,
  type Spot,
  spotAt,
  spotWords,
} from '../../src/present/spot.ts';
import { handMadeResult } from '../helpers/result.ts';

const SPOT: Spot = {
  substrate: ['rock'],
  plantCover: 1,
  depthM: 2.41,
  musselsPerM2: { estimate: 6.12, lower: 3.38, upper: 10.94 },
  level: 0.95,
  outside: null,
  beyond: null,
};

describe('a spot with an estimate', () => {
  it('names bed, depth and plants, and the density with its interval', () => {
    expect(spotWords(SPOT, 'metric')).toEqual({
      bed: 'Rock · 2.4 m · plants 1',
      density: '6.1 per m²',
      interval: '3.4 to 10.9',
      why: null,
      spoken: 'Rock, 2.4 m, plants 1. 6.1 mussels per m², 95 % confidence interval 3.4 to 10.9.',
    });
  });

  it('names all classes of a mixture', () => {
    expect(spotWords({ ...SPOT, substrate: ['sand', 'gravel', 'rock'] }, 'metric').bed).toBe(
      'Sand, gravel and rock · 2.4 m · plants 1',
    );
  });

  it('gives the depth in feet when asked', () => {
    expect(spotWords(SPOT, 'imperial').bed).toBe('Rock · 8 ft · plants 1');
  });

  it('has no interval where there is none', () => {
    const bare = { ...SPOT, musselsPerM2: { estimate: 0, lower: null, upper: null } };
    expect(spotWords(bare, 'metric')).toMatchObject({
      density: '0 per m²',
      interval: null,
      spoken: 'Rock, 2.4 m, plants 1. 0 mussels per m².',
    });
  });
});

describe('a spot without an estimate', () => {
  it.each<[OutsideAtSpot, string]>([
    ['off the lake', 'Off the lake.'],
    ['unmapped', 'Outside the surveyed habitat: no substrate on the map.'],
    ['substrate', 'Outside the surveyed habitat: substrate that was not searched.'],
    ['depth', 'Outside the surveyed habitat: shallower or deeper than was searched.'],
  ])('%s', (outside, why) => {
    const spot: Spot = { ...SPOT, musselsPerM2: null, outside };
    expect(spotWords(spot, 'metric')).toMatchObject({ density: null, interval: null, why });
  });

  it('says what of the survey it lies beyond, with its value', () => {
    const why = (beyond: Spot['beyond'], units: 'metric' | 'imperial' = 'metric') =>
      spotWords({ ...SPOT, musselsPerM2: null, outside: 'depth', beyond }, units).why;
    const deep = { of: 'depth', side: 'deeper', limitM: 7, partly: false } as const;
    expect(why(deep)).toBe('Outside the surveyed habitat: deeper than 7.0 m.');
    expect(why(deep, 'imperial')).toBe('Outside the surveyed habitat: deeper than 23 ft.');
    expect(why({ of: 'depth', side: 'shallower', limitM: 0.6, partly: true })).toBe(
      'Outside the surveyed habitat: mostly shallower than 0.6 m.',
    );
    expect(why({ of: 'substrate', classes: ['mud'] })).toBe(
      'Outside the surveyed habitat: no transect on mud.',
    );
    expect(why({ of: 'plants', value: 4, from: 0, to: 3 })).toBe(
      'Outside the surveyed habitat: plants 4, where 0 to 3 were searched.',
    );
  });

  it('has no number yet where the grid has none', () => {
    const bare: Spot = { ...SPOT, musselsPerM2: null };
    expect(spotWords(bare, 'metric').why).toBe('No estimate here yet.');
  });

  it('shows no number outside of the surveyed habitat, even if the grid holds one there', () => {
    expect(spotWords({ ...SPOT, outside: 'depth' }, 'metric').density).toBeNull();
  });

  it('never says that there are none', () => {
    for (const outside of [
      'substrate',
      'depth',
      'unmapped',
      'plant cover',
      'depth unmapped',
    ] as const)
      expect(spotWords({ ...SPOT, outside }, 'metric').spoken).not.toMatch(
        /\b(free|clean|absent|none)\b/i,
      );
  });
});

/** 4 × 3 cells of 5 m from (−10, 15): inside, too deep, two pieces, and one without a substrate on the map. */
function bedOfFour(): SurveyResult {
  const result = handMadeResult();
  const corner = (x: number, y: number) => result.plane.inverse([x, y]);
  const outline = [corner(-9, 1), corner(9, 1), corner(9, 14), corner(-9, 14), corner(-9, 1)];
  result.lake.outline = [[outline]];
  const bed = result.bed!;
  bed.habitats = [
    { substrate: ['gravel'], plantCover: 1 },
    { substrate: ['rock'], plantCover: null },
  ];
  bed.pieces = {
    count: 4,
    cell: Int32Array.of(0, 1, 2, 2),
    habitat: Uint16Array.of(0, 1, 0, 1),
    areaM2: Float64Array.of(25, 25, 10, 15),
    depthM: Float64Array.of(2, 9, 3, 3),
    reason: Uint8Array.of(0, REASONS.indexOf('depth'), REASONS.indexOf('substrate'), 0),
    band: Uint16Array.of(2, 9, 3, 3),
  };
  bed.cellDepthM = Float32Array.of(2.5, 9, 3, Number.NaN, ...new Array(8).fill(Number.NaN));
  result.surface!.densityPerM2 = Float32Array.of(
    2,
    Number.NaN,
    4,
    ...new Array(9).fill(Number.NaN),
  );
  result.surface!.inside = Float32Array.of(1, 0, 0, ...new Array(9).fill(Number.NaN));
  return result;
}

describe('a spot of the lake', () => {
  const result = bedOfFour();
  const at = (x: number, y: number) => spotAt(result, result.plane.inverse([x, y]));

  it('holds what the grid holds there, with the habitat of the map and a log-normal interval', () => {
    const { musselsPerM2, ...bed } = at(-8, 12);
    expect(bed).toEqual({
      substrate: ['gravel'],
      plantCover: 1,
      depthM: 2.5,
      level: 0.95,
      outside: null,
      beyond: null,
    });
    // CV 0.25: C = exp(1.959964 √log 1.0625) = 1.62026; 2 / C and 2 C, by hand
    expect(musselsPerM2!.estimate).toBe(2);
    expect(musselsPerM2!.lower).toBeCloseTo(1.23437, 4);
    expect(musselsPerM2!.upper).toBeCloseTo(3.24052, 4);
  });

  it('has no interval where the grid has no coefficient of variation', () => {
    const bare = bedOfFour();
    bare.surface!.cv.fill(Number.NaN);
    expect(spotAt(bare, bare.plane.inverse([-8, 12])).musselsPerM2).toEqual({
      estimate: 2,
      lower: null,
      upper: null,
    });
  });

  it('is outside for the reason of its largest piece, or for its depth when that is inside', () => {
    expect(at(-3, 12)).toMatchObject({ outside: 'depth', substrate: ['rock'], musselsPerM2: null });
    expect(at(2, 12)).toMatchObject({ outside: 'depth', substrate: ['rock'], depthM: 3 });
    result.bed!.pieces.areaM2[2] = 16;
    expect(at(2, 12)).toMatchObject({ outside: 'substrate', substrate: ['gravel'] });
  });

  it('has nothing where no substrate is mapped, nor off the lake', () => {
    expect(at(8, 12)).toMatchObject({ outside: 'unmapped', substrate: null, depthM: null });
    expect(at(0, 40).outside).toBe('off the lake');
    expect(spotAt({ ...result, bed: null }, result.plane.inverse([0, 5])).outside).toBe('unmapped');
  });

  it('an island is off the lake', () => {
    const square = (a: number, b: number) =>
      [
        [a, a],
        [b, a],
        [b, b],
        [a, b],
        [a, a],
      ] as [number, number][];
    const lake = [[square(0, 10), square(4, 6)]];
    expect(isWithin(lake, [2, 2])).toBe(true);
    expect(isWithin(lake, [5, 5])).toBe(false);
    expect(isWithin(lake, [11, 5])).toBe(false);
  });
});
