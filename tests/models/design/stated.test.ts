/** A model at stated values: its information against Poisson counts written out by hand, densities as they were stated. */

import { describe, expect, it } from 'vitest';
import { expectedCv } from '../../../models/design/curve.ts';
import { transectInformation } from '../../../models/design/information.ts';
import { type StatedValues, statedForm, statedModel } from '../../../models/design/stated.ts';
import { inverseDefinite } from '../../../models/numbers/solve.ts';
import { DEFAULT_ANALYSIS } from '../../../shared/analysis.ts';

const STATED: StatedValues = {
  clustersPerM2: { mud: 0.7 },
  p: 0.7,
  sigmaM: null,
  clusterSize: 1,
  dispersion: 0,
  transectSd: 0,
};
const strip = {
  design: 'belt' as const,
  areaM2: 30,
  halfWidthM: 0.5,
  classes: [0],
  plantCover: 0,
  depthM: 2,
  clarityM: null,
};
const BOTH = [
  { primary: 0, secondary: 1 },
  { primary: 1, secondary: 0 },
];
const BED = { count: 1, habitat: [0], areaM2: [1000], depthM: [2], band: [2], reason: [0] };

function planned(values: StatedValues, pieces = BED, habitats = [{ classes: [0], plantCover: 0 }]) {
  const form = statedForm(values, DEFAULT_ANALYSIS, 'belt', ['Ann', 'Ben']);
  return statedModel(form, values, habitats, pieces);
}

describe('a stated model', () => {
  it('expects what is stated: densities, sizes and a random effect times the area', () => {
    const values = {
      ...STATED,
      clustersPerM2: { mud: 0.2, rock: 3 },
      clusterSize: 4,
      dispersion: 1,
      transectSd: 0.5,
    };
    const pieces = {
      count: 2,
      habitat: [0, 1],
      areaM2: [1000, 50],
      depthM: [1, 1],
      band: [1, 1],
      reason: [0, 0],
    };
    const habitats = [0, 1].map((c) => ({ classes: [c], plantCover: 0 }));
    // by hand: (1000 · 0.2 + 50 · 3) · 4 · exp(0.5²/2)
    expect(planned(values, pieces, habitats).mussels).toBeCloseTo(350 * 4 * Math.exp(0.125), 6);
  });

  it('has the information of two passes with exchanged roles, by hand', () => {
    // Four independent Poisson counts: found by A first, by B after A, by B first, by A after B, with means
    // Λ/2 · p_A, Λ/2 · (1−p_A) p_B, … Parameters log Λ, logit p_A, logit p_B: information Σ ∂μ ∂μᵀ / μ
    const { p } = STATED;
    const total = 30 * 0.7 * 20;
    const [found, missed] = [1 - p, -p];
    const counts: [mean: number, slopes: [number, number, number]][] = [
      [(total / 2) * p, [1, found, 0]],
      [(total / 2) * (1 - p) * p, [1, missed, found]],
      [(total / 2) * p, [1, 0, found]],
      [(total / 2) * (1 - p) * p, [1, found, missed]],
    ];
    const information = new Float64Array(9);
    for (const [mean, s] of counts)
      for (let i = 0; i < 9; i++) information[i] += mean * s[Math.floor(i / 3)] * s[i % 3];
    const byHand = Math.sqrt((inverseDefinite(information, 3) ?? [])[0] ?? Number.NaN);
    const model = planned(STATED);
    const transects = Array.from({ length: 20 }, (_, seed) =>
      transectInformation(model, model.fit, seed)([strip], BOTH),
    );
    // observed information of 120 simulated transects with some 17 detections each: within 2 %
    expect(Math.abs((expectedCv(model, transects) ?? 0) / byHand - 1)).toBeLessThan(0.02);
  });

  it('refuses a class without a density', () => {
    expect(() => planned({ ...STATED, clustersPerM2: { mud: 0 } })).toThrow(
      'got a density of 0 on mud, expected one above 0',
    );
  });
});
