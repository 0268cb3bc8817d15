/**
 * Numbers of areas of a small lake that was estimated: areas that tile it add to the whole, an area of one habitat and
 * depth is its density times its size, shares and orders follow from the joint covariance.
 */

import { beforeAll, describe, expect, it } from 'vitest';
import { averageDensityAt, chanceOfMore, jointTotals, shareOfWhole } from '../../models/index.ts';
import type { AreaRequest } from '../../shared/areas.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { XYPolygon } from '../../shared/survey.ts';
import { areaCutter } from '../../src/lake/areas.ts';
import { lakeMaps } from '../../src/lake/maps.ts';
import {
  type Again,
  carriedEstimate,
  estimateJudged,
  judge,
  type LaidLake,
  layLake,
} from '../../src/pipeline.ts';
import { measureArea, type TreatBasis, treatAreas, treatBasis } from '../../src/treat/index.ts';
import { beltSurvey, toFolder } from '../helpers/base-survey.ts';
import { ANYWHERE, FLAT, formula, lakeOf } from '../lake/ground.ts';

const box = (west: number, south: number, east: number, north: number): XYPolygon => [
  [
    [west, south],
    [east, south],
    [east, north],
    [west, north],
    [west, south],
  ],
];

/** Few models, but more than one to average over. */
const CHOICES = JSON.stringify({ density: { depth: 'linear', transect_effect: false } });

const REQUEST: AreaRequest = {
  budget_m2: 2000,
  budget_m3: null,
  layer_m: null,
  least_area_m2: 50,
  least_width_m: 10,
  margin_m: 0,
  most_parts: 1,
};

describe('areas of an estimated lake', () => {
  let basis: TreatBasis;
  let again: Again;
  let result: SurveyResult;
  beforeAll(async () => {
    let laid: LaidLake | null = null;
    const judged = await judge(
      toFolder({ ...beltSurvey(), 'analysis.json': CHOICES }),
      () => {},
      (input) => {
        laid = layLake(input);
        return laid;
      },
    );
    const done = await estimateJudged(judged);
    const cutter = (laid as LaidLake | null)?.areas ?? null;
    if (!done.ok || done.again === null || cutter === null) throw new Error('not estimated');
    ({ again, result } = done);
    const searched = result.segments;
    basis = treatBasis({ ...carriedEstimate(again), bed: again.bed, cutter, searched });
  }, 120_000);

  // along lines of the grid pieces stay whole; elsewhere they are cut, and each half has the depth of its own middle
  it.each([
    ['along the grid', -60, 15, 1e-9],
    ['anywhere', -61.7, 13.9, 1e-6],
  ])(
    'that tile the lake %s add to its abundance, their covariances to its variance',
    (_, x, y, same) => {
      const tiles = [
        box(-900, -900, x, y),
        box(x, -900, 900, y),
        box(-900, y, x, 900),
        box(x, y, 900, 900),
      ].map((shape) => measureArea(basis, [shape], null));
      const { estimates, covariance } = jointTotals(tiles.map((t) => t.totals));
      const { abundance } = result.estimate;
      const mussels = abundance?.mussels ?? null;
      if (mussels === null || mussels.se === null) throw new Error('no abundance');
      const sum = (values: ArrayLike<number>) => Array.from(values).reduce((a, b) => a + b, 0);
      expect(Math.abs(sum(estimates) / mussels.estimate - 1)).toBeLessThan(same);
      expect(Math.abs(sum(covariance) / mussels.se ** 2 - 1)).toBeLessThan(same);
      expect(sum(tiles.map((t) => t.numbers.surveyed_m2))).toBeCloseTo(abundance?.area_m2 ?? 0, 4);
      expect(Math.abs(sum(tiles.map((t) => t.numbers.share?.share ?? 0)) - 1)).toBeLessThan(same);
      const strips = sum(
        result.segments.map(
          (s) => s.widthM * Math.hypot(s.end[0] - s.start[0], s.end[1] - s.start[1]),
        ),
      );
      expect(sum(tiles.map((t) => t.numbers.searched_m2))).toBeCloseTo(strips, 6);
    },
  );

  it('of one habitat and depth hold its density times their size', () => {
    const lake = lakeOf([box(0, 0, 200, 200)], [{ polygons: [box(0, 0, 200, 200)] }]);
    const maps = lakeMaps(lake, [box(0, 0, 200, 200)], FLAT);
    const cutter = areaCutter(
      maps,
      again.analysis,
      formula(() => 2.5),
      ANYWHERE,
    );
    if (cutter === null) throw new Error('no bed');
    const sand = { classes: [again.analysis.substrates.indexOf('sand')], plantCover: null };
    const models = carriedEstimate(again).models.map((m) => ({
      ...m,
      densities: [m.p.habitat(sand)],
    }));
    const flat = { ...basis, cutter, models };
    // by hand: a triangle of 30 m by 80 m
    const triangle: XYPolygon = [
      [
        [10.3, 20.7],
        [40.3, 20.7],
        [10.3, 100.7],
        [10.3, 20.7],
      ],
    ];
    const { numbers } = measureArea(flat, [triangle], 1);
    const density = averageDensityAt(models, 0, 2.5);
    expect(numbers.water_m2).toBeCloseTo(1200, 6);
    expect(numbers.volume_m3).toBeCloseTo(3000, 6);
    expect(numbers.layer_m3).toBeCloseTo(1200, 6);
    expect(numbers.mussels?.estimate).toBeCloseTo(1200 * density.estimate, 6);
    expect(numbers.mussels?.se).toBeCloseTo(1200 * density.se, 6);
    expect(numbers.mussels_per_ha?.estimate).toBeCloseTo(10_000 * density.estimate, 6);
    expect(numbers.mussels_per_1000_m3?.estimate).toBeCloseTo(400 * density.estimate, 6);
  });

  it('all of them are the whole, and one is as likely more as less than itself', () => {
    const whole = measureArea(basis, [box(-900, -900, 900, 900)], null);
    expect(whole.numbers.share).toEqual({ share: 1, lower: null, upper: null });
    const west = measureArea(basis, [box(-900, -900, -120, 900)], null);
    const joint = jointTotals([west.totals, basis.total, west.totals]);
    expect(chanceOfMore(joint, 0, 2)).toBe(0.5);
  });

  it('have the share and the order that their covariance gives', () => {
    // by hand: A = 20 of 100, rest 80: var 4 and 25 − 2·6 + 4 = 17, covariance 6 − 4 = 2;
    // se² of the logit 4/400 + 17/6400 − 4/1600; se² of log A − log N 4/400 + 25/10000 − 12/2000
    const joint = { estimates: [20, 100], covariance: Float64Array.of(4, 6, 6, 25) };
    const share = shareOfWhole(joint, 0, 1, 2);
    expect(share?.seLogit).toBeCloseTo(Math.sqrt(0.01015625), 12);
    const upper = Math.log(0.25) + 2 * Math.sqrt(0.01015625);
    expect(share?.upper).toBeCloseTo(1 / (1 + Math.exp(-upper)), 12);
    // Φ(−log 5/√0.0065) is below 1e-80
    expect(chanceOfMore(joint, 0, 1)).toBeLessThan(1e-12);
    const near = { estimates: [100, 110], covariance: Float64Array.of(100, 60, 60, 121) };
    // log 1.1 / √(0.01 + 0.01 − 120/11000) = 0.99962, Φ = 0.841253 (Python 3 math.erf)
    expect(chanceOfMore(near, 1, 0)).toBeCloseTo(0.841253, 6);
  });

  it('are proposed within the budget, beside their bound, and measured as they were chosen', () => {
    const { plane } = result;
    const detections = result.detections.map((d) => plane.forward(d.lngLat));
    const given = {
      basis,
      plane,
      request: REQUEST,
      candidates: [],
      excluded: [],
      detections,
      seed: 1,
      level: 0.95,
    };
    const numbers = treatAreas(given);
    const [first] = numbers.proposals;
    expect(first.used).toBeLessThanOrEqual(2000);
    expect(first.water_m2).toBeCloseTo(first.used, 3);
    expect(first.share?.share).toBeLessThanOrEqual(first.bound_share);
    expect(numbers.compact?.share?.share ?? 1).toBeLessThanOrEqual(first.share?.share ?? 0);
    expect(first.corrected?.draws).toBe(200);
    // the same place excluded is not chosen again
    const other = treatAreas({ ...given, excluded: first.polygons }).proposals[0];
    expect(other.share?.share).toBeLessThan(first.share?.share ?? 0);
    expect(
      measureArea(
        basis,
        [...other.polygons, ...first.polygons].map((rings) =>
          rings.map((ring) => ring.map((p) => plane.forward(p))),
        ),
        null,
      ).numbers.water_m2,
    ).toBeCloseTo(first.water_m2 + other.water_m2, 3);
  });
});
