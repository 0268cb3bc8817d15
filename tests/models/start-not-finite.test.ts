/** A search that begins where nothing can be computed says so in a class of its own, apart from all other errors. */

import { expect, it } from 'vitest';
import { StartNotFinite } from '../../models/errors.ts';
import { type Evaluation, maximise } from '../../models/numbers/newton.ts';

const at = (value: number, slope: number) => (): Evaluation => ({
  value,
  gradient: Float64Array.of(slope),
  hessian: Float64Array.of(-1),
});

it.each([
  ['a value', Number.NEGATIVE_INFINITY, 0],
  ['a derivative', 1, Number.NaN],
])('%s that is not finite', (_, value, slope) => {
  const search = () => maximise(at(value, slope), Float64Array.of(0));
  expect(search).toThrow(StartNotFinite);
  expect(search).toThrow(expect.objectContaining({ value }));
});

it('errors of the function itself are passed on as they are', () => {
  const broken = () => {
    throw new RangeError('got no clarity, expected one');
  };
  expect(() => maximise(broken, Float64Array.of(0))).toThrow('got no clarity, expected one');
  expect(() => maximise(broken, Float64Array.of(0))).not.toThrow(StartNotFinite);
});
