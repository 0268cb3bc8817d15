/**
 * Complete separation, function by function: classes without a detection and what becomes of their columns; directions
 * without a maximum, with information matrices written by hand.
 */

import { describe, expect, it } from 'vitest';
import { densityDesign, findSeparated, isSeparated } from '../../../models/density/design.ts';
import { separatingDirection } from '../../../models/fit/separation.ts';
import { compileLikelihood } from '../../../models/likelihood.ts';
import type { ModelParts } from '../../../models/parts.ts';
import { CERTAIN, columnTerms, densityOf } from '../../helpers/count-model.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { type WrittenSegment, writtenRows } from '../../helpers/written-rows.ts';

const [MUD, SAND, GRAVEL] = [0, 1, 2];
const rowsOf = (segments: WrittenSegment[]) =>
  writtenRows([{ primary: 0, secondary: null, segments }], 1, 3);
const BY_CLASS = choices({ density: { plant_cover: 'none', depth: 'none' } }).density;
const separatedIn = (segments: WrittenSegment[], density = BY_CLASS) => {
  const { substrate, plantCover } = findSeparated(rowsOf(segments), density);
  return { substrate: [...substrate], plantCover: [...plantCover] };
};

describe('a class is separated', () => {
  it('when every segment with weight on it is empty', () => {
    expect(separatedIn([{ classes: [MUD] }, { classes: [SAND], first: 2 }])).toEqual({
      substrate: [MUD],
      plantCover: [],
    });
    expect(separatedIn([{ classes: [MUD] }, { classes: [MUD], first: 1 }]).substrate).toEqual([]);
  });

  it('not when it shares a segment with a detection', () => {
    const mixed = [{ classes: [MUD] }, { classes: [SAND, MUD], first: 1 }, { classes: [SAND] }];
    expect(separatedIn(mixed).substrate).toEqual([]);
    const emptyMixed = [{ classes: [MUD, SAND] }, { classes: [SAND], first: 1 }];
    expect(separatedIn(emptyMixed).substrate).toEqual([MUD]);
  });

  it('and so are plant classes, presence or its lack, but no score', () => {
    const segments = [
      { plantCover: 0, first: 3 },
      { plantCover: 2 },
      { plantCover: 3, first: 1 },
      { plantCover: 4 },
    ];
    const by = (plant_cover: 'classes' | 'presence' | 'score') =>
      separatedIn(segments, { ...BY_CLASS, substrate: false, plant_cover }).plantCover;
    expect(by('classes')).toEqual([2, 4]);
    expect(by('presence')).toEqual([]);
    expect(by('score')).toEqual([]);
    const bare = separatedIn([{ plantCover: 0 }, { plantCover: 1, first: 1 }], {
      ...BY_CLASS,
      plant_cover: 'presence',
    });
    expect(bare.plantCover).toEqual([0]);
  });

  it('only where the density asks for it', () => {
    const segments = [{ classes: [MUD] }, { classes: [SAND], first: 2 }];
    expect(separatedIn(segments, { ...BY_CLASS, substrate: false }).substrate).toEqual([]);
  });
});

describe('what becomes of it', () => {
  const rows = rowsOf([
    { classes: [MUD], plantCover: 1 },
    { classes: [SAND], first: 2, plantCover: 2 },
    { classes: [GRAVEL], first: 1, plantCover: 3 },
  ]);

  it('it has no column, and the reference is the first class with a detection', () => {
    const { design } = densityDesign(rows, BY_CLASS);
    expect(design.terms.map((t) => t.name)).toEqual(['intercept', 'substrate:gravel']);
    expect(design.reference).toBe(SAND);
  });

  it('the same of plant classes', () => {
    const { design } = densityDesign(rows, {
      ...BY_CLASS,
      substrate: false,
      plant_cover: 'classes',
    });
    expect(design.terms.map((t) => t.name)).toEqual(['intercept', 'plant_cover:3']);
  });

  it('every habitat with weight on it has density 0, whatever else it holds', () => {
    const separated = { substrate: new Set([MUD]), plantCover: new Set([4]) };
    const level = (pc: number): number => pc;
    const at = (classes: number[], plantCover: number) =>
      isSeparated({ classes, plantCover }, separated, level);
    expect(at([MUD], 1)).toBe(true);
    expect(at([SAND, MUD], 1)).toBe(true);
    expect(at([SAND], 4)).toBe(true);
    expect(at([SAND, GRAVEL], 1)).toBe(false);
    // plant cover that is no factor separates nothing
    expect(isSeparated({ classes: [SAND], plantCover: 4 }, separated, null)).toBe(false);
  });

  it('its segments take no part in the sum: mean 0 adds log 1', () => {
    const { design } = densityDesign(rows, BY_CLASS);
    const parts: ModelParts = {
      ...CERTAIN,
      family: 'poisson',
      transectEffect: false,
      density: design,
    };
    const { segments } = compileLikelihood(rows, parts);
    expect(segments.map((s) => s.row)).toEqual([1, 2]);
  });
});

describe('a direction without a maximum', () => {
  /** Two belts of two observers with one p; `slope` is 0 on the first and 1 on the second. Length of that column: √½. */
  const rows = writtenRows([
    { primary: 0, secondary: 1, segments: [{ first: 4, second: 1 }] },
    { primary: 1, secondary: 0, segments: [{}] },
  ]);
  const likelihood = compileLikelihood(rows, {
    ...CERTAIN,
    divers: [{ design: 'belt', observers: [0, 1], certain: false, term: 'intercept:belt' }],
    family: 'poisson',
    transectEffect: false,
    density: densityOf(columnTerms(rows, { slope: [0, 1] })),
  });
  /** Information on intercept, slope and logit, nothing shared; and where the parameters are. */
  const direction = (information: [number, number, number], point: [number, number, number]) => {
    const hessian = new Float64Array(9);
    for (const [i, value] of information.entries()) hessian[i * 4] = -value;
    return separatingDirection(rows, likelihood, { hessian }, Float64Array.from(point));
  };

  it('moves a log density below −15 and leaves no information', () => {
    expect([...(direction([5, 0, 5], [0, -15.1, 1]) ?? [])]).toEqual([0, 1, 0]);
    expect(direction([5, 0, 5], [0, -14.9, 1])).toBeNull();
    // nearer to 0 together: −10 − 5.1 on the second segment
    expect(direction([5, 0, 5], [-10, -5.1, 1])).not.toBeNull();
  });

  it('less than a millionth in units of the column’s length', () => {
    // by hand: information ÷ (√½)² = 2 × information
    expect(direction([5, 0.4e-6, 5], [0, -20, 1])).not.toBeNull();
    expect(direction([5, 0.6e-6, 5], [0, -20, 1])).toBeNull();
  });

  it('a high density is no limit, and flat information alone is none either', () => {
    expect(direction([5, 0, 5], [0, 20, 1])).toBeNull();
    expect(direction([5, 0, 5], [0, -1, 1])).toBeNull();
  });

  it('a logit far out to either side', () => {
    expect([...(direction([5, 5, 0], [0, 0, 15.1]) ?? [])]).toEqual([0, 0, 1]);
    expect([...(direction([5, 5, 0], [0, 0, -15.1]) ?? [])]).toEqual([0, 0, 1]);
    expect(direction([5, 5, 0], [0, 0, 14.9])).toBeNull();
  });

  it('that moves something else than what is far out is not the one', () => {
    // the logit is flat, but the density is what is far out
    expect(direction([5, 5, 0], [0, -20, 1])).toBeNull();
  });

  it('with nothing flat there is none', () => {
    expect(direction([5, 5, 5], [0, -20, 20])).toBeNull();
  });
});
