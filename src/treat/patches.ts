/** What the polygons of the substrate map hold, each measured as an area of its own. */

import type { Quantity } from '../../shared/estimate.ts';
import type { PatchNumbers } from '../../shared/open.ts';
import type { LngLat, Plane, Positions, SubstratePatch, XYPolygon } from '../../shared/survey.ts';
import { measureArea } from './area.ts';
import type { TreatBasis } from './basis.ts';

/** In the order of the polygons. One that cannot be laid out by itself (far off the lake) has no numbers. */
export function patchNumbers(
  basis: TreatBasis,
  plane: Plane,
  patches: readonly SubstratePatch[],
  progress: (share: number) => void = () => {},
): (PatchNumbers | null)[] {
  return patches.map(({ polygons }, i) => {
    progress(i / patches.length);
    try {
      const shape = polygons.map((rings): XYPolygon => rings.map((ring) => inPlane(ring, plane)));
      const { surveyed_m2: surveyedM2, mussels } = measureArea(basis, shape, null).numbers;
      return {
        surveyedM2,
        mussels,
        musselsPerM2: mussels === null ? null : scaled(mussels, 1 / surveyedM2),
      };
    } catch (error) {
      if (error instanceof RangeError) return null;
      throw error;
    }
  });
}

function inPlane(ring: Positions, plane: Plane) {
  return Array.from({ length: ring.length / 2 }, (_, i) =>
    plane.forward([ring[2 * i], ring[2 * i + 1]] satisfies LngLat),
  );
}

function scaled(q: Quantity, by: number): Quantity {
  const times = (x: number | null): number | null => (x === null ? null : x * by);
  return {
    estimate: q.estimate * by,
    se: times(q.se),
    cv: q.cv,
    lower: times(q.lower),
    upper: times(q.upper),
  };
}
