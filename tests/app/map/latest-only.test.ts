/** Work asked for faster than it is done. */

import { expect, it } from 'vitest';
import { latestOnly } from '../../../src/app/map/latest-only.ts';

/** Lets everything that is ready happen. */
const settle = () => new Promise((resolve) => setTimeout(resolve, 0));

it('does one at a time and skips all but the latest that waits', async () => {
  const done: number[] = [];
  let release = () => {};
  const ask = latestOnly<number>(
    (n) =>
      new Promise((resolve) => {
        release = () => {
          done.push(n);
          resolve();
        };
      }),
    () => {},
  );
  ask(1);
  ask(2);
  ask(3);
  release();
  await settle();
  release();
  await settle();
  expect(done).toEqual([1, 3]);
});

it('goes on after a failure, which is told', async () => {
  const told: unknown[] = [];
  const done: number[] = [];
  const ask = latestOnly<number>(
    async (n) => {
      if (n === 1) throw new Error('no');
      done.push(n);
    },
    (error) => told.push(error),
  );
  ask(1);
  ask(2);
  await settle();
  expect(told).toEqual([new Error('no')]);
  expect(done).toEqual([2]);
});
