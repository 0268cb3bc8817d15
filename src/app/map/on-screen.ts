/** Transects and findings as they lie on the screen. */

import type { Point } from 'geojson';
import type { LngLat, PlacedTransect } from '../../../shared/survey.ts';
import type { Shape } from './features/geo.ts';
import { TRANSECT_MARK_PX } from './icons.ts';
import type { LakeMap } from './lake-map.ts';
import { lengthened, type OnScreen } from './pointing.ts';

export function transectsOnScreen(
  map: LakeMap,
  placed: readonly PlacedTransect[],
): OnScreen<string>[] {
  return placed.map((p) => {
    const a = map.camera.pixelOf(p.startLngLat);
    const b = map.camera.pixelOf(p.endLngLat);
    const line = { name: p.transect.transect, x1: a.x, y1: a.y, x2: b.x, y2: b.y };
    return lengthened(line, TRANSECT_MARK_PX);
  });
}

/** By the index of the first finding at each place. */
export function findingsOnScreen(map: LakeMap, findings: readonly Shape[]): OnScreen<number>[] {
  return findings.map((f) => {
    const { x, y } = map.camera.pixelOf((f.geometry as Point).coordinates as LngLat);
    return { name: Number(f.properties.finding), x1: x, y1: y, x2: x, y2: y };
  });
}
