/** What the adjustment moved by more than its error allows: from the placed transect to what the sheet says. */

import type { LngLat, PlacedTransect, Residual } from '../../../../shared/survey.ts';
import { lineString, point, type Shape, type Shapes, shapes, stepped } from './geo.ts';

export interface ResidualShapes {
  /** from an adjusted end to its waypoint (of `start`, `end`), or along the compass bearing as written (of `bearing`) */
  lines: Shapes;
  /** the waypoints as written */
  points: Shapes;
}

export function residualShapes(placed: readonly PlacedTransect[]): ResidualShapes {
  const lines: Shape[] = [];
  const points: Shape[] = [];
  for (const p of placed) {
    const { transect } = p.transect;
    for (const r of p.residuals) {
      if (!r.flagged) continue;
      if (r.of === 'bearing') {
        const line = asWritten(p);
        if (line) lines.push(lineString(line, { kind: 'residual', transect, of: 'bearing' }));
        continue;
      }
      const { from, to } = waypoint(p, r);
      if (to === null) continue;
      lines.push(lineString([from, to], { kind: 'residual', transect, of: r.of }));
      points.push(point(to, { transect, of: r.of }));
    }
  }
  return { lines: shapes(lines), points: shapes(points) };
}

function waypoint(p: PlacedTransect, r: Residual): { from: LngLat; to: LngLat | null } {
  const { startLon, startLat, endLon, endLat } = p.transect;
  if (r.of === 'start') return { from: p.startLngLat, to: [startLon, startLat] };
  return { from: p.endLngLat, to: endLon === null || endLat === null ? null : [endLon, endLat] };
}

/** A transect of the same length in the direction of the bearing on the sheet. */
function asWritten(p: PlacedTransect): [LngLat, LngLat] | null {
  const { bearingDeg, bearingRef } = p.transect;
  if (bearingDeg === null) return null;
  const trueDeg = bearingRef === 'true' ? bearingDeg : bearingDeg + (p.declinationDeg ?? 0);
  return [p.startLngLat, stepped(p.startLngLat, trueDeg, p.horizontalLengthM)];
}
