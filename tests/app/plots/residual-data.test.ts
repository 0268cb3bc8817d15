/** Residuals, influence and the names of classes. Values by hand. */

import { describe, expect, it } from 'vitest';
import {
  influences,
  labelsInOrder,
  residualPoints,
  spread,
} from '../../../src/app/plots/residual-data.ts';

const segment = (n: number, substrate: string[]) => ({
  segment: n,
  transect: `T${n}`,
  fromM: 0,
  toM: 5,
  substrate,
  depthM: n,
});

describe('residuals', () => {
  it('belong to their segments; segments without one are left out', () => {
    const segments = [segment(1, ['rock']), segment(2, ['mud']), segment(3, ['sand', 'gravel'])];
    const points = residualPoints(segments, { residuals: [0.5, null, -2], expected: [1, 0, 3] });
    expect(points.map((p) => [p.segment, p.substrate, p.residual, p.expected])).toEqual([
      [1, 'rock', 0.5, 1],
      [3, 'sand+gravel', -2, 3],
    ]);
    expect(residualPoints(segments, null)).toEqual([]);
  });

  it('of a category spread over it, the same on each drawing', () => {
    const shifts = Array.from({ length: 100 }, (_, k) => spread(k));
    expect(Math.max(...shifts.map(Math.abs))).toBeLessThanOrEqual(0.5);
    // all four quarters are reached
    expect(new Set(shifts.map((s) => Math.floor((s + 0.5) * 4))).size).toBe(4);
    expect(spread(7)).toBe(spread(7));
  });
});

it('labels stand in the order of the analysis, mixtures after what they begin with', () => {
  const labels = ['rock', 'sand+gravel', 'sand', 'gravel', 'sand'];
  expect(labelsInOrder(labels, ['silt', 'sand', 'gravel', 'rock'])).toEqual([
    'sand',
    'sand+gravel',
    'gravel',
    'rock',
  ]);
});

describe('influence', () => {
  const transects = ['A', 'B', 'C', 'D'].map((transect) => ({ transect }));

  it('shows the largest changes first and says how far the others reach', () => {
    const seen = influences(transects, { influence: [0.01, -0.2, null, 0.05] }, 2);
    expect(seen).toEqual({
      shown: [
        { transect: 'B', change: -0.2 },
        { transect: 'D', change: 0.05 },
      ],
      others: 1,
      othersWithin: 0.01,
    });
  });

  it('is not known without a total', () => {
    expect(influences(transects, { influence: [null, null, null, null] }, 2)).toBeNull();
    expect(influences(transects, null, 2)).toBeNull();
  });
});
