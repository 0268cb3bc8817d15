/** Detection along one covariate: at chosen parameters by hand, and the same probability as the observers' own at the means. */

import { describe, expect, it } from 'vitest';
import { detectionAgainst } from '../../models/detection-against.ts';
import { at, type Fit } from '../../models/fit/fitted-model.ts';
import { diverReports } from '../../models/report.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { DetectionAgainst } from '../../shared/result.ts';
import { BARE, fitConverged, POISSON } from '../helpers/fitting.ts';
import { choices } from '../helpers/made-up-rows.ts';
import { type WrittenTransect, writtenRows } from '../helpers/written-rows.ts';

const TRANSECTS: WrittenTransect[] = [
  {
    primary: 0,
    secondary: 1,
    clarityM: 2,
    segments: [
      { depthM: 1, first: 9, second: 2, counts: [1, 3], plantCover: 0 },
      { depthM: 5, first: 5, second: 3, counts: [1, 8], plantCover: 3 },
    ],
  },
  {
    primary: 1,
    secondary: 0,
    clarityM: 4,
    segments: [
      { depthM: 2, first: 7, second: 3, counts: [1, 2], plantCover: 3 },
      { depthM: 4, first: 4, second: 4, counts: [1, 5], plantCover: 0 },
    ],
  },
];

const rows = writtenRows(TRANSECTS);

function fitWith(detection: Partial<Analysis['detection']>): Fit {
  return fitConverged(rows, choices({ ...BARE, detection }), POISSON);
}

/** With the parameters at chosen values, each with a variance of 0.04 and no covariance. */
function stated(fit: Fit, values: Record<string, number>): Fit {
  const { parameters } = fit.likelihood.layout;
  const n = parameters.length;
  const point = Float64Array.from(parameters, (p) => values[p.term] ?? 0);
  const covariance = Float64Array.from({ length: n * n }, (_, k) => (k % (n + 1) === 0 ? 0.04 : 0));
  return { ...fit, ...at(fit.likelihood, point), covariance };
}

function along(records: DetectionAgainst[], covariate: string): DetectionAgainst {
  const record = records.find((r) => r.covariate === covariate);
  if (record === undefined) throw new Error(`no ${covariate}`);
  return record;
}

describe('detection along a covariate', () => {
  it('follows the logit over the depths met, with limits by hand', () => {
    const fit = stated(fitWith({ depth: true }), {
      'observer:Ada:belt': 2,
      'observer:Ben:belt': 1,
      depth: -0.5,
    });
    const { at: depths, curves, held } = along(detectionAgainst(rows, fit, 0.95), 'depth');
    expect([depths[0], depths.at(-1)]).toEqual([1, 5]);
    expect(held).toEqual([]);
    const [ada, ben] = curves;
    expect([ada.observers, ben.observers, ada.design]).toEqual([['Ada'], ['Ben'], 'belt']);
    // logits 2 − 0.5·1 = 1.5 and 1 − 0.5·5 = −1.5
    expect(ada.p[0]).toBeCloseTo(0.8175745, 7);
    expect(ben.p.at(-1)).toBeCloseTo(0.1824255, 7);
    // standard error of the logit at 1 m: √(0.04 + 0.04·1²) = 0.282843; 1.5 − 1.959964·0.282843 = 0.945638
    expect(ada.lower[0]).toBeCloseTo(0.720237, 5);
    // at 5 m: √(0.04·26) = 1.019804; −1.5 + 1.959964·1.019804 = 0.498779
    expect(ben.upper.at(-1)).toBeCloseTo(0.622172, 5);
  });

  it('goes by the logarithm of cluster size from a single mussel to the largest detected', () => {
    const fit = stated(fitWith({ cluster_size: true }), { 'observer:Ada:belt': 0.5, log_count: 1 });
    const { at: sizes, curves } = along(detectionAgainst(rows, fit, 0.95), 'cluster_size');
    expect(sizes).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    // odds e^0.5 × 8
    expect(curves[0].p.at(-1)).toBeCloseTo(0.9295267, 6);
  });

  it('holds the others at their means, where it is the observers’ own probability', () => {
    const fit = fitWith({ depth: true, plant_cover: true, cluster_size: true });
    const records = detectionAgainst(rows, fit, 0.9);
    expect(records.map((r) => r.covariate)).toEqual(['plant_cover', 'depth', 'cluster_size']);
    // equal areas: depths 1, 5, 2, 4 and scores 0, 3, 3, 0
    expect(along(records, 'cluster_size').held).toEqual([
      { kind: 'plant_cover', class: null, value: 1.5 },
      { kind: 'depth', class: null, value: 3 },
    ]);
    expect(along(records, 'plant_cover').at).toEqual([0, 3]);
    const own = diverReports(rows, fit, 0.9);
    along(records, 'cluster_size').curves.forEach(({ p, lower, upper }, i) => {
      expect(p[0]).toBeCloseTo(own[i].p, 12);
      expect(lower[0]).toBeCloseTo(own[i].lower ?? Number.NaN, 12);
      expect(upper[0]).toBeCloseTo(own[i].upper ?? Number.NaN, 12);
    });
    // 3 m is the middle of 1 to 5 m
    const depth = along(records, 'depth');
    expect(depth.at[20]).toBe(3);
    expect(depth.curves[0].p[20]).toBeCloseTo(own[0].p, 12);
  });

  it('is not there without a covariate', () => {
    expect(detectionAgainst(rows, fitWith({}), 0.95)).toEqual([]);
  });
});
