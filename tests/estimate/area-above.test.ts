/** The area above a threshold of a whole lake, against the sum over its pieces one by one. */

import { describe, expect, it } from 'vitest';
import { chanceAbove } from '../../models/index.ts';
import { densityAt, predictor } from '../../models/predict.ts';
import { mappedHabitats } from '../../src/estimate/rows.ts';
import { areaAboveRow, jointDensityOf } from '../../src/pipeline.ts';
import { referenceLake } from '../helpers/reference-lake.ts';

describe('the area above a threshold', () => {
  it('is the area-weighted sum of the chances of all places', async () => {
    const lake = await referenceLake('belt-nb1');
    const { rows, fit, bed, analysis } = lake;
    const { pieces } = bed;
    const joint = jointDensityOf(lake);
    const p = predictor(rows, fit);
    const habitats = mappedHabitats(bed.habitats, analysis);
    const inside = [...pieces.reason.keys()].filter((i) => pieces.reason[i] === 0);
    const places = inside.map((i) => ({
      areaM2: pieces.areaM2[i],
      ...densityAt(p, fit.covariance, habitats[pieces.habitat[i]], pieces.depthM[i]),
    }));
    const total = places.reduce((sum, place) => sum + place.areaM2, 0);
    expect(joint[0]?.joint.areaM2.reduce((sum, a) => sum + a, 0)).toBeCloseTo(total, 3);
    const densities = places.map(({ mussels }) => mussels).sort((a, b) => a - b);
    for (const q of [0.3, 0.7]) {
      const t = densities[Math.floor(q * densities.length)];
      const expected = places.reduce(
        (sum, { areaM2, mussels, musselsSe }) =>
          sum + areaM2 * chanceAbove(mussels, musselsSe / mussels, t),
        0,
      );
      const row = areaAboveRow(joint, t, analysis);
      // bins of 2 cm of depth
      expect(Math.abs(row.area_m2 - expected)).toBeLessThan(0.001 * total);
      expect(row.lower_m2!).toBeLessThan(row.area_m2);
      expect(row.upper_m2!).toBeGreaterThan(row.area_m2);
    }
  });
});
