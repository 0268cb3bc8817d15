/** Where one call of several searches ends, and how soon. */

import { describe, expect, it } from 'vitest';
import { boundaryReached } from '../../../models/fit/boundaries.ts';
import { multistart } from '../../../models/fit/multistart.ts';
import { Specification } from '../../../models/fit/specification.ts';
import { startValues } from '../../../models/fit/start.ts';
import { compileLikelihood, type Likelihood } from '../../../models/likelihood.ts';
import { maximise } from '../../../models/numbers/newton.ts';
import { POISSON } from '../../helpers/fitting.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { writtenRows } from '../../helpers/written-rows.ts';

/** The likelihood, and how often it was asked. */
function counted(likelihood: Likelihood): { likelihood: Likelihood; asked: () => number } {
  let asked = 0;
  const evaluate: Likelihood['evaluate'] = (point) => {
    asked++;
    return likelihood.evaluate(point);
  };
  return { likelihood: { ...likelihood, evaluate }, asked: () => asked };
}

describe('searches along a direction without a maximum', () => {
  // two clusters and four parameters of the detection: plants or depth part the secondary's from the primary's for sure
  const rows = writtenRows(
    [
      {
        primary: 1,
        secondary: 0,
        segments: [
          { plantCover: 2, depthM: 2.5, classes: [1], areaM2: 8.6, second: 1 },
          { plantCover: 0, depthM: 5.1, classes: [1], areaM2: 2.4, first: 1 },
          { plantCover: 2, depthM: 4.4, classes: [2], areaM2: 4.5 },
        ],
      },
    ],
    2,
    3,
  );
  const analysis = choices({
    density: { substrate: false, plant_cover: 'presence', depth: 'linear' },
    detection: { plant_cover: true, substrate: true, depth: true },
  });
  const plain = compileLikelihood(rows, new Specification(rows, analysis, POISSON).parts());

  it('end where they creep, long before all that the value may still rise', () => {
    const toEnd = counted(plain);
    const [start] = startValues(rows, plain, []);
    if (start === undefined) throw new Error('got no start');
    const far = maximise(toEnd.likelihood.evaluate, start, {
      stop: (p) => boundaryReached(rows, plain, p) !== null,
      reach: plain.reach,
    });
    const creeping = counted(plain);
    const { best } = multistart(rows, creeping.likelihood, []);
    expect(best.reason).toBe('no-further-rise');
    expect(creeping.asked()).toBeLessThan(toEnd.asked() / 2);
    // what is left of the rise is nothing that a comparison of models notices
    expect(far.value - best.value).toBeLessThan(1e-3);
  });
});
