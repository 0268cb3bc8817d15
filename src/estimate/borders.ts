/**
 * What errors of the map at its borders could do to the total: where two habitats meet, each piece of bed could belong to
 * either. All borders at once in favour of the denser habitat, and all in favour of the sparser one, are the two ends.
 */

import type { HabitatDensity, Predictor } from '../../models/index.ts';
import type { ShiftedBorders } from '../../shared/result.ts';
import type { Bed } from '../../shared/survey.ts';

/** Of a cell without, and with more than one, habitat: no place in a list. */
const [NONE, SEVERAL] = [-1, -2];

/**
 * Pieces of the surveyed habitat in a cell whose block of 3 × 3 cells holds more than one habitat take, at their own depth,
 * the density of the densest (sparsest) of them: a border moves by one to two cells. Depths and the outer edge of the
 * surveyed habitat stay.
 * @param densities by habitat of the bed
 * @returns mussels added and taken; null where no two habitats meet
 */
export function shiftedBorders(
  bed: Pick<Bed, 'frame' | 'pieces'>,
  densities: readonly HabitatDensity[],
  p: Predictor,
): ShiftedBorders | null {
  const { pieces, frame } = bed;
  const near = habitatsNear(bed);
  const each = densities.map((h) => Math.exp(h.base + h.logMussels));
  const columns = new Float64Array(p.depthColumns);
  const shifted: ShiftedBorders = { cellM: frame.cellM, areaM2: 0, fewer: 0, more: 0 };
  for (let i = 0; i < pieces.count; i++) {
    if (pieces.reason[i] !== 0) continue;
    const habitats = near(pieces.cell[i]);
    if (habitats === null) continue;
    const areaM2 = pieces.areaM2[i];
    p.columnsAt(pieces.depthM[i], columns);
    const perDensity = areaM2 * Math.exp(p.curveAt(columns));
    const own = each[pieces.habitat[i]];
    let [least, most] = [own, own];
    for (const h of habitats) {
      least = Math.min(least, each[h]);
      most = Math.max(most, each[h]);
    }
    shifted.areaM2 += areaM2;
    shifted.fewer += perDensity * (own - least);
    shifted.more += perDensity * (most - own);
  }
  return shifted.areaM2 === 0 ? null : shifted;
}

/** The habitats in the 3 × 3 cells around a cell, inside of the surveyed habitat; null where there is only one. */
function habitatsNear({
  frame: { nx, ny },
  pieces,
}: Pick<Bed, 'frame' | 'pieces'>): (cell: number) => ReadonlySet<number> | null {
  const only = new Int32Array(nx * ny).fill(NONE);
  const several = new Map<number, Set<number>>();
  for (let i = 0; i < pieces.count; i++) {
    if (pieces.reason[i] !== 0) continue;
    const [cell, habitat] = [pieces.cell[i], pieces.habitat[i]];
    const before = only[cell];
    if (before === SEVERAL) several.get(cell)?.add(habitat);
    else if (before === NONE) only[cell] = habitat;
    else if (before !== habitat) {
      several.set(cell, new Set([before, habitat]));
      only[cell] = SEVERAL;
    }
  }
  return (cell) => {
    const [x, y] = [cell % nx, Math.floor(cell / nx)];
    const own = only[cell];
    const found = new Set<number>();
    let alike = own !== SEVERAL;
    for (let j = Math.max(0, y - 1); j <= Math.min(ny - 1, y + 1); j++) {
      for (let i = Math.max(0, x - 1); i <= Math.min(nx - 1, x + 1); i++) {
        const at = j * nx + i;
        const habitat = only[at];
        if (habitat === NONE || habitat === own) continue;
        alike = false;
        if (habitat === SEVERAL) for (const h of several.get(at) ?? []) found.add(h);
        else found.add(habitat);
      }
    }
    if (alike) return null;
    for (const h of several.get(cell) ?? [own]) found.add(h);
    return found;
  };
}
