/**
 * Change between two surveys. By hand, for Poisson counts without covariates and observers who miss nothing: N = A n / a,
 * so R = (n₂/a₂)/(n₁/a₁), var log R = 1/n₁ + 1/n₂; before–after–control–impact adds the four reciprocals.
 */

import { describe, expect, it } from 'vitest';
import { lessTotals, withTreatedArea } from '../../../models/compare/baci.ts';
import { changeFrom, changeOf, jointDegrees } from '../../../models/compare/change.ts';
import { pairModels, type Season, seasonTotals } from '../../../models/compare/seasons.ts';
import type { SurveyRows } from '../../../models/data.ts';
import { jointTotals } from '../../../models/treat/joint.ts';
import { BARE, fitConverged, POISSON } from '../../helpers/fitting.ts';
import { writtenRows } from '../../helpers/written-rows.ts';

const NORMAL = Number.POSITIVE_INFINITY;
/** a single pass: nobody followed, so p = 1 is held */
const counted = (...counts: number[]): SurveyRows =>
  writtenRows(
    counts.map((first) => ({ primary: 0, secondary: null, segments: [{ first, areaM2: 10 }] })),
    1,
    1,
  );
const season = (rows: SurveyRows): Season => ({
  rows,
  members: [{ fit: fitConverged(rows, BARE, POISSON), weight: 1 }],
});
const BED = {
  count: 2,
  habitat: [0, 0],
  areaM2: [300, 700],
  depthM: [2, 3],
  band: [2, 3],
  reason: [0, 0],
};
const HABITATS = [{ classes: [0], plantCover: 0 }];
const all = () => true;

describe('the change between two surveys', () => {
  const before = season(counted(25, 35));
  const after = season(counted(14, 16, 10));
  const { pairs } = pairModels(before, after, null);
  const parts = [all, (s: { band: number }) => s.band === 2];
  const of = (own: Season, which: 0 | 1) => seasonTotals(own, which, pairs, HABITATS, BED, parts);
  const [[n1, shallow1], [n2]] = [of(before, 0), of(after, 1)];

  it('is the ratio of the counts per searched area, with both counts’ errors', () => {
    const totals = jointTotals([n1, n2]);
    expect(totals.estimates[0]).toBeCloseTo((1000 * 60) / 20, 6);
    const change = changeOf(totals, [-1, 1], 0.95, NORMAL);
    expect(change?.ratio).toBeCloseTo(40 / 30 / (60 / 20), 8);
    const se = Math.sqrt(1 / 60 + 1 / 40);
    expect(change?.seLog).toBeCloseTo(se, 8);
    // 1.959963985: normal quantile, Abramowitz & Stegun 1964, table 26.5
    expect(change?.lower).toBeCloseTo((4 / 9) * Math.exp(-1.959963985 * se), 7);
    expect(change?.isSeen).toBe(true);
  });

  it('of a season with itself is none, and without error where nothing is independent', () => {
    const none = changeOf(jointTotals([n1, n1]), [-1, 1], 0.95, NORMAL);
    expect(none).toMatchObject({ ratio: 1, isSeen: false });
    expect(none?.seLog).toBeLessThan(1e-9);
  });

  it('is the same on a part of the bed where density does not change along it', () => {
    const [, part] = of(after, 1);
    expect(changeOf(jointTotals([shallow1, part]), [-1, 1], 0.95, NORMAL)?.ratio).toBeCloseTo(
      4 / 9,
      8,
    );
  });

  it('has no ratio where one season has nothing', () => {
    const nothing = n2.map((m) => ({ ...m, mussels: 0 }));
    expect(changeOf(jointTotals([n1, nothing]), [-1, 1], 0.95, NORMAL)).toBeNull();
  });
});

describe('what a pair of surveys can show', () => {
  it('is a decline that four of five pairs would show at 5 %: 2.8 standard errors', () => {
    // 1.959964 + 0.841621, normal quantiles
    const { leastDecline, leastIncrease } = changeFrom(0, 0.2, 0.95, NORMAL);
    expect(Math.log(leastIncrease)).toBeCloseTo(0.2 * 2.8015852, 6);
    expect(leastDecline * leastIncrease).toBeCloseTo(1, 12);
  });

  it('says how likely a decline is', () => {
    // Φ(1) = 0.8413447
    expect(changeFrom(-0.3, 0.3, 0.95, NORMAL).decline).toBeCloseTo(0.8413447461, 9);
    // Student's t with 1 degree of freedom: 3/4 of it lie below 1
    expect(changeFrom(-0.3, 0.3, 0.95, 1).decline).toBeCloseTo(0.75, 9);
  });

  it('takes the degrees of freedom of both seasons together', () => {
    // Satterthwaite: equal variances with 9 degrees each have 18
    expect(
      jointDegrees([
        { cv2: 0.04, df: 9 },
        { cv2: 0.04, df: 9 },
      ]),
    ).toBeCloseTo(18, 9);
    expect(
      jointDegrees([
        { cv2: 0.04, df: 9 },
        { cv2: 0, df: NORMAL },
      ]),
    ).toBeCloseTo(9, 9);
    expect(
      jointDegrees([
        { cv2: 0.04, df: NORMAL },
        { cv2: 1, df: NORMAL },
      ]),
    ).toBe(NORMAL);
  });
});

describe('treated against untreated', () => {
  const treatedRows = (inside: number[], outside: number[]): SurveyRows => {
    const rows = counted(...inside, ...outside);
    return {
      ...rows,
      segments: rows.segments.map((s, i) => ({ ...s, treated: i < inside.length })),
    };
  };
  const withFactor = (rows: SurveyRows) => withTreatedArea(rows, BARE, season(rows).members);
  const members = (rows: SurveyRows): Season => {
    const made = withFactor(rows);
    if (!made.ok) throw new Error(made.why.cause);
    return { rows, members: made.members };
  };

  it('is the ratio of the two changes, with four counts’ errors', () => {
    const before = members(treatedRows([12, 8], [20, 30, 10]));
    const after = members(treatedRows([3, 2], [25, 25]));
    const { pairs } = pairModels(before, after, null);
    const totals = ([before, after] as const).flatMap((own, which) => {
      const on = (treated: boolean, part: (s: { band: number }) => boolean) =>
        seasonTotals(own, which as 0 | 1, pairs, [{ ...HABITATS[0], treated }], BED, [part])[0];
      const area = on(true, (s) => s.band === 2);
      return [
        area,
        lessTotals(
          on(false, all),
          on(false, (s) => s.band === 2),
        ),
      ];
    });
    const change = changeOf(jointTotals(totals), [-1, 1, 1, -1], 0.95, NORMAL);
    expect(change?.ratio).toBeCloseTo(5 / 20 / (20 / 20) / (50 / 20 / (60 / 30)), 7);
    expect(change?.seLog).toBeCloseTo(Math.sqrt(1 / 20 + 1 / 5 + 1 / 60 + 1 / 50), 7);
  });

  it('cannot be told where one side was not searched, or nothing was detected on it', () => {
    expect(withFactor(treatedRows([], [3, 4]))).toEqual({
      ok: false,
      why: { cause: 'no-transect-inside' },
    });
    expect(withFactor(treatedRows([3], []))).toEqual({
      ok: false,
      why: { cause: 'no-transect-outside' },
    });
    expect(withFactor(treatedRows([0, 0], [3, 4]))).toEqual({
      ok: false,
      why: { cause: 'nothing-detected-inside' },
    });
    expect(withFactor(treatedRows([5], [0]))).toEqual({
      ok: false,
      why: { cause: 'nothing-detected-outside' },
    });
  });
});
