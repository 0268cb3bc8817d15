/**
 * Planted shells. By hand: with one p̄ everywhere the availability is A = F/(N p̄), its relative variance (1 − q)/(N q) + se²(p̄)/p̄² with
 * q = F/N (binomial, delta method), and the total n N/(a F) does not depend on p̄ at all.
 */

import { describe, expect, it } from 'vitest';
import { withAvailability } from '../../models/availability.ts';
import type { PlantedRow, SurveyRows } from '../../models/data.ts';
import type { Fit } from '../../models/fit/fitted-model.ts';
import { seeded, stream } from '../../models/numbers/random.ts';
import { plantedAvailability } from '../../models/planted.ts';
import { meanDetection } from '../../models/report.ts';
import { BARE, coefficient, fitConverged, POISSON, seOf, swapped } from '../helpers/fitting.ts';
import { choices, madeUpRows } from '../helpers/made-up-rows.ts';
import { writtenRows } from '../helpers/written-rows.ts';

const shells = (transect: number, planted: number, foundFirst: number, foundSecondOnly = 0) => ({
  transect,
  planted,
  foundFirst,
  foundSecondOnly,
});

const known = (rows: SurveyRows, fit: Fit, planted: PlantedRow[]) => {
  const found = plantedAvailability({ ...rows, planted }, fit);
  if (found === null) throw new Error('got no availability, expected one');
  return found;
};

// 40 and 10 in either order: p̂ = 1 − 10/40 = 0.75 for both, 1 − 0.25² = 0.9375 for the pair
const ALIKE = choices({
  density: { substrate: false, plant_cover: 'none', depth: 'none' },
  detection: { observer: false },
});
const ROWS = writtenRows(swapped(40, 10, 40, 10));
const FIT = fitConverged(ROWS, ALIKE, POISSON);
const PAIR = 0.9375;

describe('the share by planted shells', () => {
  it('is what was found over what the detection lets expect, with the errors of both', () => {
    expect(meanDetection(ROWS, FIT).value).toBeCloseTo(PAIR, 7);
    const { share, se, ...rest } = known(ROWS, FIT, [shells(0, 30, 16, 4), shells(1, 30, 15, 5)]);
    const q = 40 / 60;
    expect(share).toBeCloseTo(q / PAIR, 7);
    // logit p has information Σ found × p q over … taken from the fit itself, as is the error of the mean p̄
    const detection = meanDetection(ROWS, FIT);
    const variance = (1 - q) / (60 * q) + (detection.se / detection.value) ** 2;
    expect(se).toBeCloseTo(share * Math.sqrt(variance), 9);
    expect(rest).toMatchObject({ planted: 60, found: 40, transects: 2 });
    expect(rest.ratio).toBeCloseTo(share, 9);
  });

  it('makes of the total one that hangs on the shells alone, not on p', () => {
    const availability = known(ROWS, FIT, [shells(0, 60, 30, 10)]);
    const all = withAvailability(FIT, availability);
    // 100 detected on 10 m², 40 of 60 found
    expect(coefficient(all, 'intercept')).toBeCloseTo(Math.log((100 / 10) * (60 / 40)), 7);
    const q = 40 / 60;
    expect(seOf(all, 'intercept')).toBeCloseTo(Math.sqrt(1 / 100 + (1 - q) / (60 * q)), 7);
    // the p itself stays as it is
    expect(coefficient(all, 'intercept:belt')).toBe(coefficient(FIT, 'intercept:belt'));
  });

  it('is the maximum of the likelihood where transects have different p, and moves with p as its slope says', () => {
    const rows = madeUpRows(seeded(5), { transects: 8, segments: 3, found: 5 });
    const analysis = choices({
      density: { depth: 'none' },
      detection: { plant_cover: true },
    });
    const fit = fitConverged(rows, analysis, POISSON);
    const planted = [shells(0, 12, 5, 1), shells(3, 20, 6, 3), shells(4, 9, 4, 2)];
    const { share, byModel } = known(rows, fit, planted);
    const at = (estimates: Float64Array): number =>
      known(rows, { ...fit, estimates }, planted).share;
    // p̄ of each transect by hand from the segments' log p̄
    const { logDetection, ofSegment } = fit.likelihood.detectability(fit.estimates);
    const logLikelihood = (a: number): number =>
      planted.reduce((sum, { transect, planted: n, foundFirst, foundSecondOnly }) => {
        let [area, effort] = [0, 0];
        rows.segments.forEach((s, i) => {
          if (s.transect !== transect) return;
          area += s.areaM2;
          effort += s.areaM2 * Math.exp(logDetection[ofSegment[i] ?? 0] ?? Number.NaN);
        });
        const q = (a * effort) / area;
        const f = foundFirst + foundSecondOnly;
        return sum + f * Math.log(q) + (n - f) * Math.log(1 - q);
      }, 0);
    for (const other of [share * 0.99, share * 1.01])
      expect(logLikelihood(other)).toBeLessThan(logLikelihood(share));
    const step = 1e-5;
    for (let i = 0; i < fit.estimates.length; i++) {
      const [low, high] = [-step, step].map((by) => {
        const moved = Float64Array.from(fit.estimates);
        moved[i] = (moved[i] ?? 0) + by;
        return Math.log(at(moved));
      });
      // central differences of a step of 1e-5: right to 1e-9, and the share is found to the last digit
      expect(((high ?? 0) - (low ?? 0)) / (2 * step)).toBeCloseTo(
        byModel.slope[i] ?? Number.NaN,
        6,
      );
    }
  });

  it('is never above 1, has an error there too, and does not move with p', () => {
    const { share, se, ratio, byModel } = known(ROWS, FIT, [shells(0, 20, 19, 1)]);
    expect(share).toBe(1);
    expect(ratio).toBeCloseTo(1 / PAIR, 7);
    // half a shell more missed: q = 20.5/21
    const detection = meanDetection(ROWS, FIT);
    const q = 20.5 / 21;
    const variance = (1 - q) / (20 * q) + (detection.se / detection.value) ** 2;
    expect(se).toBeCloseTo(Math.sqrt(variance), 9);
    expect(Math.max(...byModel.slope.map(Math.abs))).toBe(0);
    const all = withAvailability(FIT, known(ROWS, FIT, [shells(0, 20, 19, 1)]));
    expect(coefficient(all, 'intercept')).toBe(coefficient(FIT, 'intercept'));
    expect(seOf(all, 'intercept') ** 2).toBeCloseTo(seOf(FIT, 'intercept') ** 2 + variance, 9);
  });

  it('is less sure where transects differ by more than chance', () => {
    const even = known(ROWS, FIT, [shells(0, 30, 20), shells(1, 30, 20)]);
    const uneven = known(ROWS, FIT, [shells(0, 30, 28), shells(1, 30, 12)]);
    expect(uneven.share).toBeCloseTo(even.share, 9);
    // by hand: q = 2/3, each is 8 from 20, χ² = 2 · 64/(30 · 2/9) = 19.2 with one degree of freedom
    expect(uneven.byModel.logVariance / even.byModel.logVariance).toBeCloseTo(19.2, 7);
  });

  it('takes the p of a single mussel where the detection depends on cluster size', () => {
    const rows = writtenRows(
      swapped(20, 6, 18, 7).map((t) => ({
        ...t,
        segments: t.segments.map((s) => ({ ...s, counts: [1, 2, 1, 5, 3] })),
      })),
    );
    const sized = { ...ALIKE, detection: { ...ALIKE.detection, cluster_size: true } };
    const fit = fitConverged(rows, sized, POISSON);
    const p = 1 / (1 + Math.exp(-coefficient(fit, 'intercept:belt')));
    const { share } = known(rows, fit, [shells(0, 50, 10, 2)]);
    expect(share).toBeCloseTo(12 / 50 / (1 - (1 - p) ** 2), 7);
  });

  it('is none without planted shells, and where none was found', () => {
    expect(plantedAvailability(ROWS, FIT)).toBeNull();
    expect(plantedAvailability({ ...ROWS, planted: [shells(0, 5, 0)] }, FIT)).toBeNull();
  });
});

it('brings back the density of all clusters in 200 simulated surveys, in 91 to 98 % of the intervals', () => {
  // 10 transects of 8 m², 3 clusters per m², of which 0.7 can be detected, by 0.8 and then 0.7; 15 shells on every second transect
  const TRUE = { perM2: 3, share: 0.7, p: [0.8, 0.7] as const };
  const logs: number[] = [];
  let covered = 0;
  for (let survey = 0; survey < 200; survey++) {
    const random = stream(2027, survey);
    const search = (shellsThere: number, first: number) => {
      const tally = { first: 0, second: 0 };
      for (let i = 0; i < shellsThere; i++) {
        if (random.uniform() >= TRUE.share) continue;
        if (random.uniform() < (TRUE.p[first] ?? 0)) tally.first++;
        else if (random.uniform() < (TRUE.p[1 - first] ?? 0)) tally.second++;
      }
      return tally;
    };
    const rows = writtenRows(
      Array.from({ length: 10 }, (_, t) => ({
        primary: t % 2,
        secondary: 1 - (t % 2),
        segments: [{ areaM2: 8, ...search(random.poisson(8 * TRUE.perM2), t % 2) }],
      })),
    );
    const planted = [0, 2, 4, 6, 8].map((t) => {
      const { first, second } = search(15, t % 2);
      return shells(t, 15, first, second);
    });
    const fit = fitConverged(rows, BARE, POISSON);
    const all = withAvailability(fit, known(rows, fit, planted));
    const off = coefficient(all, 'intercept') - Math.log(TRUE.perM2);
    logs.push(off);
    if (Math.abs(off) <= 1.96 * seOf(all, 'intercept')) covered++;
  }
  const mean = logs.reduce((sum, x) => sum + x, 0) / logs.length;
  const sd = Math.sqrt(logs.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (logs.length - 1));
  // the mean of 200 is off by sd/√200; three of these
  expect(Math.abs(mean)).toBeLessThan((3 * sd) / Math.sqrt(200));
  // ± 2.5 standard errors of a coverage of 95 % in 200
  expect(covered / 200).toBeGreaterThan(0.91);
  expect(covered / 200).toBeLessThan(0.99);
});
