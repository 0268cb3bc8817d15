/** Asking the worker what the bed holds: under the pointer, at a kept spot, under the keyboard's crosshair. */

import type { Remote } from 'comlink';
import { useEffect, useMemo, useRef, useState } from 'react';
import type { LngLat } from '../../../shared/survey.ts';
import type { Spot } from '../../present/spot.ts';
import type { CoreWorker } from '../contract.ts';
import type { LakeMap } from './lake-map.ts';
import { latestOnly } from './latest-only.ts';

export interface SpotRead {
  at: LngLat;
  spot: Spot;
}

/** Reads the latest spot asked for; null forgets what was read. */
export function useReader(
  core: Remote<CoreWorker>,
  tell: (read: SpotRead | null) => void,
): (at: LngLat | null) => void {
  return useMemo(
    () =>
      latestOnly(
        async (at: LngLat | null) => tell(at && { at, spot: await core.spot(at) }),
        (error) => {
          tell(null);
          console.error('The bed was not read.', error);
        },
      ),
    [core, tell],
  );
}

/** The map lies still for so long before the spot under the crosshair is read out. */
const STILL_MS = 200;

export interface CrosshairEvents {
  /** the map came to rest with this under the crosshair; null = the crosshair is gone */
  over(at: LngLat | null): void;
  taken(at: LngLat): void;
  dropped(): void;
}

/** True while the map has the keyboard's focus. */
export function useCrosshair(map: LakeMap | null, events: CrosshairEvents): boolean {
  const [shown, setShown] = useState(false);
  const latest = useRef(events);
  latest.current = events;

  useEffect(() => {
    if (!map) return;
    const canvas = map.canvas();
    const onFocus = (): void => setShown(canvas.matches(':focus-visible'));
    const onBlur = (): void => setShown(false);
    canvas.addEventListener('focus', onFocus);
    canvas.addEventListener('blur', onBlur);
    return () => {
      canvas.removeEventListener('focus', onFocus);
      canvas.removeEventListener('blur', onBlur);
    };
  }, [map]);

  useEffect(() => {
    if (!map || !shown) return;
    let timer = 0;
    const read = (): void => {
      clearTimeout(timer);
      timer = window.setTimeout(() => latest.current.over(map.camera.centre()), STILL_MS);
    };
    const onKey = (e: KeyboardEvent): void => {
      if (e.key === 'Enter') latest.current.taken(map.camera.centre());
      if (e.key === 'Escape') latest.current.dropped();
    };
    const stop = map.camera.onMove(read);
    map.canvas().addEventListener('keydown', onKey);
    read();
    return () => {
      clearTimeout(timer);
      stop();
      map.canvas().removeEventListener('keydown', onKey);
      latest.current.over(null);
    };
  }, [map, shown]);
  return shown;
}
