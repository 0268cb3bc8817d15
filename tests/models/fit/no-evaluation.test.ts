/** Where nothing can be computed there is no evaluation, and a search that begins there says so in a class of its own. */

import { describe, expect, it } from 'vitest';
import { StartNotFinite } from '../../../models/errors.ts';
import { maximise } from '../../../models/numbers/newton.ts';
import { stream } from '../../../models/numbers/random.ts';
import { fitConverged, NB1 } from '../../helpers/fitting.ts';
import { choices, madeUpRows } from '../../helpers/made-up-rows.ts';

it('a start without an evaluation', () => {
  const search = () => maximise(() => null, Float64Array.of(3, 4));
  expect(search).toThrow(StartNotFinite);
  expect(search).toThrow(expect.objectContaining({ start: [3, 4] }));
});

it('a step without an evaluation is a failed step: the search stays where it can compute', () => {
  // by hand: log x − x has its maximum at 1, and no value below 0, where the first steps from 3 would lead
  const best = maximise(([x = 0]) => {
    if (x <= 0) return null;
    return {
      value: Math.log(x) - x,
      gradient: Float64Array.of(1 / x - 1),
      hessian: Float64Array.of(-1 / (x * x)),
    };
  }, Float64Array.of(3));
  expect(best.converged).toBe(true);
  expect(best.point[0]).toBeCloseTo(1, 8);
});

it('the likelihood has no evaluation where a mean or a size is beyond all numbers', () => {
  const rows = madeUpRows(stream(1, 1), { designs: ['belt'] });
  const analysis = choices({ detection: { cluster_size: true } });
  const { likelihood, estimates } = fitConverged(rows, analysis, NB1);
  const { layout } = likelihood;
  const moved = (index: number, to: number): Float64Array => {
    const point = estimates.slice();
    point[index] = to;
    return point;
  };
  expect(likelihood.evaluate(estimates)).not.toBeNull();
  expect(layout.logCount).toBeGreaterThan(-1); // sums over sizes are taken
  expect(likelihood.evaluate(moved(layout.density, 800))).toBeNull(); // e^800 is no number
  expect(likelihood.evaluate(moved(layout.size, 12))).toBeNull(); // 160,000 mussels a cluster
  expect(likelihood.evaluate(moved(layout.logK, -12))).toBeNull(); // a tail longer than any cap
});

it('errors of the function itself are passed on as they are', () => {
  const broken = () => {
    throw new RangeError('got no clarity, expected one');
  };
  expect(() => maximise(broken, Float64Array.of(0))).toThrow('got no clarity, expected one');
  expect(() => maximise(broken, Float64Array.of(0))).not.toThrow(StartNotFinite);
});

it('a search without an end stops where the value no longer rises, not after all its steps', () => {
  // by hand: −e⁻ˣ rises for ever in steps of 1; beside 10⁶ a rise below 10⁻⁶ is rounding: from x = 14 on, and 20 steps later it ends
  const best = maximise(
    ([x = 0]) => ({
      value: -1e6 - Math.exp(-x),
      gradient: Float64Array.of(Math.exp(-x)),
      hessian: Float64Array.of(-Math.exp(-x)),
    }),
    Float64Array.of(0),
    { tolerance: 1e-30 },
  );
  expect(best.reason).toBe('no-further-rise');
  expect(best.steps).toBe(34);
});

describe('a search that creeps where no information is positive definite', () => {
  // by hand: −1/(x + y) rises for ever, along x + y alone: the Hessian is singular everywhere. Undamped, a Newton step makes of
  // s = x + y half as much again; from s = 2 each step after the fourth raises the value by less than 0.1
  const search = (endless: () => boolean, asked: number[] = []) => {
    let evaluations = 0;
    const best = maximise(
      ([x, y]) => {
        evaluations++;
        const s = x + y;
        if (s <= 0) return null;
        const bend = -2 / s ** 3;
        return {
          value: -1 / s,
          gradient: Float64Array.of(1 / s ** 2, 1 / s ** 2),
          hessian: Float64Array.of(bend, bend, bend, bend),
        };
      },
      Float64Array.of(1, 1),
      {
        endless: () => {
          asked.push(evaluations);
          return endless();
        },
      },
    );
    return { best, asked };
  };

  it('ends after 20 such steps where its end is none', () => {
    const { best, asked } = search(() => true);
    expect(best.reason).toBe('no-further-rise');
    expect(best.converged).toBe(false);
    expect(asked).toHaveLength(1);
    expect(best.steps).toBeGreaterThanOrEqual(20);
    expect(best.steps).toBeLessThan(30);
  });

  it('goes on where it may yet have one, and is asked again 20 steps later', () => {
    const { best, asked } = search(() => false);
    expect(best.steps).toBeGreaterThan(40);
    expect(asked.length).toBeGreaterThan(1);
  });
});
