/** Positions of a device, averaged over some seconds: when it ends, when it waits on, and why there is none. Device and clock are given. */

import { type AveragedFix, averageFix, type Fix } from './waypoint.ts';

export const AVERAGED_OVER_S = 20;
/**
 * Coarser than this (95 %, m) it is not taken by itself: twice as far as a handheld GPS is held to be off (4 m a coordinate, some 10 m
 * at 95 %), and most of a rope's length. Phones give such positions from masts and networks, without a sky.
 */
export const COARSE_M = 20;
/** Without a first position for so long nothing is to be expected. */
const PATIENCE_MS = 60_000;
const SHOWN_EVERY_MS = 500;

export type Positioning =
  | { state: 'idle' }
  /** `coarse`: the time is over, and a better one is waited for */
  | { state: 'taking'; seconds: number; so_far: AveragedFix | null; coarse: boolean }
  | { state: 'refused'; why: string };

export interface Clock {
  nowMs(): number;
  /** @returns what ends it */
  every(ms: number, tick: () => void): () => void;
}

export type Device = Pick<Geolocation, 'watchPosition' | 'clearWatch'>;

const TYPE_IT = 'Type the coordinates of a GPS instead.';

/**
 * Asks the device until there is an average; `done` is called once with it, or never.
 * @param device undefined where the browser has none
 * @returns ends it: with what there is so far, or with nothing
 */
export function averagePosition(
  device: Device | undefined,
  clock: Clock,
  tell: (positioning: Positioning) => void,
  done: (fix: AveragedFix) => void,
): (use: boolean) => void {
  if (device === undefined) {
    tell({ state: 'refused', why: `This browser has no position. ${TYPE_IT}` });
    return () => {};
  }
  const fixes: Fix[] = [];
  let sinceMs: number | null = null; // the first position begins the count
  let over = false;
  const end = (last: Positioning): void => {
    over = true;
    device.clearWatch(watch);
    stopClock();
    tell(last);
  };
  const finish = (use: boolean): void => {
    if (over) return;
    end({ state: 'idle' });
    if (use && fixes.length > 0) done(averageFix(fixes));
  };
  const show = (): void => {
    const seconds = sinceMs === null ? 0 : (clock.nowMs() - sinceMs) / 1000;
    const soFar = fixes.length === 0 ? null : averageFix(fixes);
    const late = seconds >= AVERAGED_OVER_S;
    const coarse = late && soFar !== null && soFar.accuracyM > COARSE_M;
    if (late && !coarse) finish(true);
    else tell({ state: 'taking', seconds: Math.floor(seconds), so_far: soFar, coarse });
  };
  const watch = device.watchPosition(
    ({ coords }) => {
      if (over) return;
      sinceMs ??= clock.nowMs();
      fixes.push({ lat: coords.latitude, lon: coords.longitude, accuracyM: coords.accuracy });
      show();
    },
    (error) => {
      // what came will do, unless it must not be asked for any more
      if (over || (fixes.length > 0 && error.code !== error.PERMISSION_DENIED)) return;
      end({ state: 'refused', why: whyNot(error) });
    },
    { enableHighAccuracy: true, maximumAge: 0, timeout: PATIENCE_MS },
  );
  const stopClock = clock.every(SHOWN_EVERY_MS, show);
  show();
  return finish;
}

function whyNot({ code, PERMISSION_DENIED }: GeolocationPositionError): string {
  return code === PERMISSION_DENIED
    ? `This page may not ask for the position; the browser's settings for the page can allow it. ${TYPE_IT}`
    : `The device gives no position here. Wait for an open sky and try again. ${TYPE_IT}`;
}
