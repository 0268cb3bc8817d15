/** What stands out in the densities. Values by hand. */

import { describe, expect, it } from 'vitest';
import type { DensityCurve } from '../../shared/result.ts';
import { concentration, emptyClasses } from '../../src/present/density-facts.ts';
import { handMadeResult } from '../helpers/result.ts';

const curve = (substrate: string, musselsPerM2: number[]): DensityCurve => ({
  substrate: [substrate],
  depthM: [1, 2, 3],
  musselsPerM2,
  lower: musselsPerM2.map((d) => d / 2),
  upper: musselsPerM2.map((d) => d * 2),
});

/** Recorded from 1 to `toM`. */
function surveyed(curves: DensityCurve[], toM: number) {
  const { analysis, survey, estimate } = handMadeResult();
  const [first] = survey.habitat;
  return {
    curves,
    analysis,
    estimate,
    survey: { ...survey, habitat: [1, toM].map((depthM) => ({ ...first!, depthM })) },
  };
}

describe('where they concentrate', () => {
  const curves = [
    curve('sand', [1, 2, 9]),
    curve('rock', [3, 5, 4]),
    curve('silt', [0.2, 0.1, 0.1]),
  ];

  it('is the highest point of all curves within the recorded depths', () => {
    // at 3 m sand would be higher, but nobody recorded 3 m
    const found = concentration(surveyed(curves, 2.5))!;
    expect(found.densest).toMatchObject({
      name: 'rock',
      value: { estimate: 5, lower: 2.5, upper: 10 },
    });
    expect(found.depth).toBe('2.0 m');
    expect(found.sparsest).toMatchObject({ name: 'silt', value: { estimate: 0.2 } });
    expect(found.recorded).toBe('1.0 to 2.5 m');
    expect(found.plants).toBeNull();
    expect(found.intervalName).toBe('95 % confidence interval');
    // 2 m are 6.56 ft
    expect(concentration(surveyed(curves, 2.5), 'imperial')!.depth).toBe('7 ft');
  });

  it('has no depth where the curve is level, and no sparsest with one substrate', () => {
    const found = concentration(surveyed([curve('rock', [3, 3.01, 3])], 3))!;
    expect(found.depth).toBeNull();
    expect(found.sparsest).toBeNull();
  });

  it('is nowhere without a density above 0', () => {
    expect(concentration(surveyed([curve('rock', [0, 0, 0])], 3))).toBeNull();
    expect(concentration(surveyed([], 3))).toBeNull();
  });
});

describe('classes without a detection', () => {
  it('are named with what can still be there', () => {
    expect(emptyClasses(handMadeResult())).toBe(
      'Nothing was detected on silt: the density there is given as 0, with a 95 % upper limit of 0.034 clusters per m² on silt. That is what could have been missed, not a sign that none live there.',
    );
  });

  it('also where no limit can be computed; null when there are none', () => {
    const result = handMadeResult();
    const [limit] = result.estimate.upper_limits;
    result.estimate.upper_limits = [{ ...limit!, clusters_per_m2: null, mussels_per_m2: null }];
    expect(emptyClasses(result)).toContain('with no 95 % upper limit that could be computed.');
    result.estimate.upper_limits = [];
    expect(emptyClasses(result)).toBeNull();
  });
});
