/** The device's position, averaged over some seconds: for a waypoint. */

import { useCallback, useEffect, useRef, useState } from 'react';
import { type AveragedFix, averageFix, type Fix } from './waypoint.ts';

export const AVERAGED_OVER_S = 20;
/** Without a first position for so long nothing is to be expected. */
const PATIENCE_MS = 60_000;

export type Positioning =
  | { state: 'idle' }
  | { state: 'taking'; seconds: number; so_far: AveragedFix | null }
  | { state: 'refused'; why: string };

export interface Position {
  positioning: Positioning;
  /** asks the device; `done` is called once, with the average */
  take(done: (fix: AveragedFix) => void): void;
  /** takes what there is so far */
  enough(): void;
  giveUp(): void;
}

const TYPE_IT = 'Type the coordinates of a GPS instead.';

export function usePosition(): Position {
  const [positioning, setPositioning] = useState<Positioning>({ state: 'idle' });
  const stop = useRef<(use: boolean) => void>(() => {});

  const take = useCallback((done: (fix: AveragedFix) => void): void => {
    stop.current(false);
    const device = navigator.geolocation as Geolocation | undefined;
    if (device === undefined) {
      setPositioning({ state: 'refused', why: `This browser has no position. ${TYPE_IT}` });
      return;
    }
    const fixes: Fix[] = [];
    let since = 0; // the first position begins the count
    const finish = (use: boolean): void => {
      stop.current = () => {};
      device.clearWatch(watch);
      clearInterval(clock);
      setPositioning({ state: 'idle' });
      if (use && fixes.length > 0) done(averageFix(fixes));
    };
    const show = (): void => {
      const seconds = since === 0 ? 0 : (performance.now() - since) / 1000;
      if (seconds >= AVERAGED_OVER_S) finish(true);
      else
        setPositioning({
          state: 'taking',
          seconds: Math.floor(seconds),
          so_far: fixes.length === 0 ? null : averageFix(fixes),
        });
    };
    const clock = setInterval(show, 500);
    const watch = device.watchPosition(
      ({ coords }) => {
        if (since === 0) since = performance.now();
        fixes.push({ lat: coords.latitude, lon: coords.longitude, accuracyM: coords.accuracy });
        show();
      },
      (error) => {
        if (fixes.length > 0 && error.code !== error.PERMISSION_DENIED) return; // what came will do
        finish(false);
        setPositioning({ state: 'refused', why: whyNot(error) });
      },
      { enableHighAccuracy: true, maximumAge: 0, timeout: PATIENCE_MS },
    );
    stop.current = finish;
    show();
  }, []);

  useEffect(() => () => stop.current(false), []);
  return {
    positioning,
    take,
    enough: () => stop.current(true),
    giveUp: () => stop.current(false),
  };
}

function whyNot({ code, PERMISSION_DENIED }: GeolocationPositionError): string {
  return code === PERMISSION_DENIED
    ? `This page may not ask for the position; the browser's settings for the page can allow it. ${TYPE_IT}`
    : `The device gives no position here. Wait for an open sky and try again. ${TYPE_IT}`;
}
