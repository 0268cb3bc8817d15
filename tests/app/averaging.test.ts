/**
 * The average of a device's positions over 20 s, by a clock that the test turns. What a device may answer, the error's codes and that
 * an accuracy is one of 95 % are those of the W3C's Geolocation recommendation (2022).
 */

import { describe, expect, it } from 'vitest';
import {
  averagePosition,
  type Clock,
  type Device,
  type Positioning,
} from '../../src/app/state/averaging.ts';
import type { AveragedFix } from '../../src/app/state/waypoint.ts';

const W3C = { PERMISSION_DENIED: 1, POSITION_UNAVAILABLE: 2, TIMEOUT: 3 } as const;

/** A device that answers what it is told to, and a clock that stands until it is turned. */
function scene({ withDevice = true } = {}) {
  let now = 1_000_000;
  let tick: (() => void) | null = null;
  let answer: PositionCallback | null = null;
  let refuse: PositionErrorCallback | null | undefined = null;
  const told: Positioning[] = [];
  const done: AveragedFix[] = [];
  const clock: Clock = {
    nowMs: () => now,
    every(_, given) {
      tick = given;
      return () => (tick = null);
    },
  };
  const device: Device = {
    watchPosition(success, error) {
      answer = success;
      refuse = error;
      return 7;
    },
    clearWatch(id) {
      if (id === 7) answer = null;
    },
  };
  const stop = averagePosition(
    withDevice ? device : undefined,
    clock,
    (positioning) => told.push(positioning),
    (fix) => done.push(fix),
  );
  return {
    told,
    done,
    stop,
    last: () => told.at(-1),
    isWatched: () => answer !== null,
    isTicking: () => tick !== null,
    fix(latitude: number, accuracy: number): void {
      const coords = { latitude, longitude: -93, accuracy } as GeolocationCoordinates;
      answer?.({ coords } as GeolocationPosition);
    },
    fail: (code: 1 | 2 | 3) => refuse?.({ code, message: '', ...W3C }),
    wait(seconds: number): void {
      for (let half = 0; half < 2 * seconds; half++) {
        now += 500;
        tick?.();
      }
    },
  };
}

describe('a position averaged over 20 s', () => {
  it('waits for the first, counts from it, and is done at 20 s with the mean of all', () => {
    const { fix, wait, last, done, isWatched, isTicking } = scene();
    wait(45);
    expect(last()).toEqual({ state: 'taking', seconds: 0, so_far: null, coarse: false });
    fix(45, 4);
    wait(10);
    fix(45.0002, 4);
    wait(9.5);
    expect(last()).toMatchObject({ state: 'taking', seconds: 19, so_far: { count: 2 } });
    expect(done).toEqual([]);
    wait(0.5);
    expect(last()).toEqual({ state: 'idle' });
    // by hand: two of equal weight, their middle, as exact as one of them
    expect(done).toHaveLength(1);
    expect(done[0].lat).toBeCloseTo(45.0001, 10);
    expect(done[0]).toMatchObject({ accuracyM: 4, count: 2 });
    expect([isWatched(), isTicking()]).toEqual([false, false]);
    wait(60);
    expect(done).toHaveLength(1);
  });

  it('is not done by itself while it is coarse: a better position, or the word of somebody, ends it', () => {
    const coarse = scene();
    coarse.fix(45, 150);
    coarse.wait(40);
    expect(coarse.last()).toMatchObject({ state: 'taking', seconds: 40, coarse: true });
    expect(coarse.done).toEqual([]);
    coarse.fix(45.001, 5);
    // by hand: weights 1/150² and 1/5² leave the first 1/901 of the mean; accuracy √(2 / (1/150² + 1/5²)) = 7.07 m
    expect(coarse.done[0].lat).toBeCloseTo(45.001 - 0.001 / 901, 9);
    expect(coarse.done[0].accuracyM).toBeCloseTo(7.067, 3);

    const taken = scene();
    taken.fix(45, 150);
    taken.wait(25);
    taken.stop(true);
    expect(taken.done).toMatchObject([{ lat: 45, accuracyM: 150, count: 1 }]);
  });

  it('takes what there is so far, or nothing', () => {
    const enough = scene();
    enough.fix(45, 6);
    enough.wait(3);
    enough.stop(true);
    enough.stop(true);
    expect(enough.done).toHaveLength(1);

    const nothing = scene();
    nothing.fix(45, 6);
    nothing.stop(false);
    expect(nothing.done).toEqual([]);
    expect(nothing.last()).toEqual({ state: 'idle' });
    expect(nothing.isWatched()).toBe(false);
  });

  it('says why there is none: not allowed, also in the midst of it; no fix; no device', () => {
    const denied = scene();
    denied.fail(W3C.PERMISSION_DENIED);
    expect(denied.last()).toMatchObject({
      state: 'refused',
      why: expect.stringMatching(/may not ask for the position/),
    });
    expect([denied.isWatched(), denied.isTicking()]).toEqual([false, false]);

    const withdrawn = scene();
    withdrawn.fix(45, 4);
    withdrawn.fail(W3C.PERMISSION_DENIED);
    withdrawn.wait(30);
    expect(withdrawn.last()).toMatchObject({ state: 'refused' });
    expect(withdrawn.done).toEqual([]);

    for (const code of [W3C.POSITION_UNAVAILABLE, W3C.TIMEOUT]) {
      const none = scene();
      none.fail(code);
      expect(none.last()).toMatchObject({ why: expect.stringMatching(/Wait for an open sky/) });
    }

    expect(scene({ withDevice: false }).told).toEqual([
      { state: 'refused', why: expect.stringMatching(/no position\. Type the coordinates/) },
    ]);
  });

  it('a gap after the first positions is sat out', () => {
    const { fix, fail, wait, done } = scene();
    fix(45, 4);
    fail(W3C.TIMEOUT);
    wait(20);
    expect(done).toMatchObject([{ count: 1 }]);
  });
});
