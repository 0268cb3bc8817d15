/** Ropes and findings as they lie on the screen, and what is said of a rope that is pointed at. */

import type { Point } from 'geojson';
import type { LngLat, PlacedTransect } from '../../../shared/survey.ts';
import { formatCount } from '../../../shared/units.ts';
import type { Shape } from './features/geo.ts';
import type { FoundOnRope } from './features/ropes.ts';
import { ROPE_MARK_PX } from './icons.ts';
import type { LakeMap } from './lake-map.ts';
import { lengthened, type OnScreen } from './pointing.ts';

export function ropesOnScreen(map: LakeMap, placed: readonly PlacedTransect[]): OnScreen<string>[] {
  return placed.map((p) => {
    const a = map.pixelOf(p.startLngLat);
    const b = map.pixelOf(p.endLngLat);
    const line = { name: p.transect.transect, x1: a.x, y1: a.y, x2: b.x, y2: b.y };
    return lengthened(line, ROPE_MARK_PX);
  });
}

/** By the index of the first finding at each place. */
export function faultsOnScreen(map: LakeMap, faults: readonly Shape[]): OnScreen<number>[] {
  return faults.map((f) => {
    const { x, y } = map.pixelOf((f.geometry as Point).coordinates as LngLat);
    return { name: Number(f.properties.finding), x1: x, y1: y, x2: x, y2: y };
  });
}

export interface RopeWords {
  title: string;
  lines: string[];
}

export function ropeWords(
  transect: string,
  placed: readonly PlacedTransect[],
  found: ReadonlyMap<string, FoundOnRope>,
): RopeWords | null {
  const p = placed.find((x) => x.transect.transect === transect);
  if (!p) return null;
  const { primary, secondary, design, date } = p.transect;
  const divers = secondary === null ? `${primary} alone` : `${primary}, then ${secondary}`;
  const { clusters, mussels } = found.get(transect) ?? { clusters: 0, mussels: 0 };
  return {
    title: transect,
    lines: [
      `${design} · ${date} · ${divers}`,
      clusters === 0
        ? 'searched, none found'
        : `${counted(clusters, 'cluster')} with ${counted(mussels, 'mussel')}`,
      ...(p.endInferred ? ['end inferred from bearing and rope'] : []),
      ...(p.residuals.some((r) => r.flagged) ? ['waypoints and bearing do not fit together'] : []),
    ],
  };
}

function counted(n: number, noun: string): string {
  return `${formatCount(n)} ${noun}${n === 1 ? '' : 's'}`;
}
