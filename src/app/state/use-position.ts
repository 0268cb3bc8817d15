/** The device's own position for a waypoint, while a component stands. */

import { useCallback, useEffect, useRef, useState } from 'react';
import { averagePosition, type Clock, type Positioning } from './averaging.ts';
import type { AveragedFix } from './waypoint.ts';

export interface Position {
  positioning: Positioning;
  /** asks the device; `done` is called once, with the average */
  take(done: (fix: AveragedFix) => void): void;
  /** takes what there is so far */
  enough(): void;
  giveUp(): void;
}

const CLOCK: Clock = {
  nowMs: () => performance.now(),
  every(ms, tick) {
    const timer = setInterval(tick, ms);
    return () => clearInterval(timer);
  },
};

export function usePosition(): Position {
  const [positioning, setPositioning] = useState<Positioning>({ state: 'idle' });
  const stop = useRef<(use: boolean) => void>(() => {});

  const take = useCallback((done: (fix: AveragedFix) => void): void => {
    stop.current(false);
    const device = navigator.geolocation as Geolocation | undefined;
    stop.current = averagePosition(device, CLOCK, setPositioning, done);
  }, []);

  useEffect(() => () => stop.current(false), []);
  return {
    positioning,
    take,
    enough: () => stop.current(true),
    giveUp: () => stop.current(false),
  };
}
