/** The change of every cell of the common ground, by both surveys' models (METHOD.md: Two surveys of one lake). */

import { averageSurface, type CarriedModel } from '../averaged.ts';
import { type MappedHabitat, predictor } from '../predict.ts';
import type { CellPieces, Surface } from '../surface.ts';
import { partOf } from './joint-fit.ts';
import type { ModelPair, Season } from './seasons.ts';

export interface CellChange {
  /** of the later survey */
  surface: Surface;
  /** after over before; NaN where one has none, or outside */
  ratio: Float32Array;
  /**
   * how many standard errors its logarithm is from none, ≥ 0. The errors of both are added: where detection is in common,
   * which cancels from the change, this is a little too few.
   */
  errors: Float32Array;
}

/** @param habitats of the bed, in each season's classes @param cells number of cells of the grid */
export function cellChange(
  seasons: readonly [Season, Season],
  pairs: readonly ModelPair[],
  habitats: readonly [readonly MappedHabitat[], readonly MappedHabitat[]],
  pieces: CellPieces,
  cells: number,
): CellChange {
  const [before, after] = seasons.map(({ rows, members }, s) => {
    const models = pairs.map(({ weight, joint, members: own }): CarriedModel => {
      const fit = partOf({ rows, fit: members[own[s]].fit }, joint, s);
      const p = predictor(rows, fit);
      return { fit, weight, p, densities: habitats[s].map((h) => p.habitat(h)) };
    });
    return averageSurface(models, pieces, cells, null);
  });
  const ratio = new Float32Array(cells).fill(Number.NaN);
  const errors = new Float32Array(cells).fill(Number.NaN);
  for (let cell = 0; cell < cells; cell++) {
    const [d1, d2] = [before.densityPerM2[cell], after.densityPerM2[cell]];
    if (!(d1 > 0) || !(d2 > 0)) continue;
    ratio[cell] = d2 / d1;
    const se = Math.hypot(before.cv[cell], after.cv[cell]);
    errors[cell] = se > 0 ? Math.abs(Math.log(d2 / d1)) / se : 0;
  }
  return { surface: after, ratio, errors };
}
