/** Shapes of areas under the hand: moved whole, a corner moved, added or taken away. Rings stay closed. */

import type { LngLat, LngLatPolygon } from '../../../../shared/survey.ts';
import type { CornerPath } from '../../state/area-desk.ts';

/** Fewer corners enclose no area. */
const LEAST_CORNERS = 3;

export function movedBy(polygons: readonly LngLatPolygon[], [dLon, dLat]: LngLat): LngLatPolygon[] {
  return polygons.map((rings) =>
    rings.map((ring) => ring.map(([lon, lat]): LngLat => [lon + dLon, lat + dLat])),
  );
}

/** The corner put elsewhere. */
export function withCorner(
  polygons: readonly LngLatPolygon[],
  path: CornerPath,
  at: LngLat,
): LngLatPolygon[] {
  return changed(polygons, path, (open) => open.with(path[2], at));
}

/** A new corner behind the one of the path. */
export function withCornerAfter(
  polygons: readonly LngLatPolygon[],
  path: CornerPath,
  at: LngLat,
): LngLatPolygon[] {
  return changed(polygons, path, (open) => open.toSpliced(path[2] + 1, 0, at));
}

/**
 * Without the corner. A hole of three corners goes with one of them, and so does a part of several; null where nothing
 * would be left.
 */
export function withoutCorner(
  polygons: readonly LngLatPolygon[],
  path: CornerPath,
): LngLatPolygon[] | null {
  const [p, r, c] = path;
  const corners = (polygons[p]?.[r]?.length ?? 0) - 1;
  if (corners > LEAST_CORNERS) return changed(polygons, path, (open) => open.toSpliced(c, 1));
  if (r > 0) return polygons.map((rings, i) => (i === p ? rings.toSpliced(r, 1) : rings));
  return polygons.length > 1 ? polygons.toSpliced(p, 1) : null;
}

export function cornerAt(polygons: readonly LngLatPolygon[], [p, r, c]: CornerPath): LngLat | null {
  return polygons[p]?.[r]?.[c] ?? null;
}

export interface PlacedCorner {
  path: CornerPath;
  at: LngLat;
  /** middle of the side to the next corner */
  middle: LngLat;
}

export function cornersOf(polygons: readonly LngLatPolygon[]): PlacedCorner[] {
  return polygons.flatMap((rings, p) =>
    rings.flatMap((ring, r) =>
      ring.slice(0, -1).map((at, c): PlacedCorner => {
        const next = ring[c + 1];
        return { path: [p, r, c], at, middle: [(at[0] + next[0]) / 2, (at[1] + next[1]) / 2] };
      }),
    ),
  );
}

/** The polygon that corners in the order of drawing enclose. */
export function closedArea(corners: readonly LngLat[]): LngLatPolygon[] {
  return [[[...corners, corners[0]]]];
}

/** May be closed. */
export function isArea(corners: readonly LngLat[]): boolean {
  return corners.length >= LEAST_CORNERS;
}

function changed(
  polygons: readonly LngLatPolygon[],
  [p, r]: CornerPath,
  change: (open: LngLat[]) => LngLat[],
): LngLatPolygon[] {
  return polygons.map((rings, i) =>
    i !== p
      ? rings
      : rings.map((ring, k) => {
          if (k !== r) return ring;
          const open = change(ring.slice(0, -1));
          return [...open, open[0]];
        }),
  );
}
