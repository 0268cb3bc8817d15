/** Feet for metres, seen by the depth map. Ratios by hand: 1 m = 3.28084 ft (the foot is 0.3048 m exactly). */

import { describe, expect, it } from 'vitest';
import type { PlacedTransect, XY } from '../../shared/survey.ts';
import { feetFromMap } from '../../src/check/index.ts';
import { placedOn } from '../place/surveys.ts';

/** The bed falls 1 m in 10 m to the east. */
const depthAt = ([x]: XY) => (x < 0 ? null : x / 10);

/** Ropes to the east from 8 m off the shore, with recorded depths `factor` times those of the map. */
function ropes(factor: number): PlacedTransect[] {
  const horizontalM = [0, 12, 22, 30];
  return [0, 1, 2].map((i) =>
    placedOn({
      start: [8, 50 * i],
      gridBearingDeg: 90,
      profile: {
        distanceM: horizontalM,
        horizontalM,
        depthM: horizontalM.map((x) => (factor * (8 + x)) / 10),
      },
    }),
  );
}

describe('feet seen by the map', () => {
  it('sheets in metres raise nothing', () => {
    expect(feetFromMap(ropes(1), depthAt)).toEqual([]);
    expect(feetFromMap(ropes(1.5), depthAt)).toEqual([]);
  });

  it('sheets in feet are told with the ratio', () => {
    const [finding, ...more] = feetFromMap(ropes(3.28084), depthAt);
    expect(more).toEqual([]);
    expect(finding).toMatchObject({
      severity: 'notice',
      code: 'depth-in-feet',
      table: 'habitat.csv',
    });
    expect(finding!.message).toContain('3.28 times those of the map');
    expect(finding!.message).toContain('12 places');
  });

  it('a map in feet is told at the map', () => {
    const [finding] = feetFromMap(ropes(0.3048), ([x]) => (x < 0 ? null : x / 10));
    expect(finding).toMatchObject({ code: 'map-depth-in-feet', table: 'depth.geojson' });
  });

  it('places off the map and in the shallowest water are left out; too few say nothing', () => {
    expect(feetFromMap(ropes(3.28084), () => null)).toEqual([]);
    expect(feetFromMap(ropes(3.28084).slice(0, 1), depthAt)).toEqual([]);
  });
});
