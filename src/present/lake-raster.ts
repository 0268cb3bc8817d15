/** The bed on a raster that fits a page: which look each of its cells has. */

import { extent } from '../../shared/extent.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { classLabel, classOf, densityClass, RAMP } from './ramp.ts';
import { cvOfRatio } from './unsure.ts';

/** Looks: nothing; mapped and outside of the surveyed habitat; inside without a density above 0; then the classes. */
export const LOOK = { nothing: 0, outside: 1, noDensity: 2, firstClass: 3 } as const;
const CLASSES = RAMP.light.length;
/** Added to a class where the interval is wide. */
export const UNSURE = CLASSES;

/** At most so many cells a side: finer than is read on a page, and the file stays light. */
const MOST_CELLS = 260;

export interface LakeRaster {
  cellM: number;
  columns: number;
  rows: number;
  /** row by row from the top */
  looks: Uint8Array;
}

export interface MapClass {
  look: number;
  words: string;
}

type RasterInput = Pick<SurveyResult, 'analysis' | 'estimate'> & {
  bed: NonNullable<SurveyResult['bed']>;
  surface: NonNullable<SurveyResult['surface']>;
};

/** Blocks of the grid's cells: the mean density and CV of those inside, where they are half of its mapped bed or more. */
export function lakeRaster({ bed, surface, analysis, estimate }: RasterInput): LakeRaster {
  const { nx, ny, cellM } = bed.frame;
  const fold = foldOf(nx, ny);
  const [columns, rows] = [Math.ceil(nx / fold), Math.ceil(ny / fold)];
  const widestCv = cvOfRatio({
    level: analysis.interval,
    transectEffect: estimate.model?.transect_effect ?? false,
    transects: estimate.data.transects,
  });
  const lookOf = ({ mapped, inside, known, density, cv }: Block): number => {
    if (mapped === 0) return LOOK.nothing;
    if (2 * inside < mapped) return LOOK.outside;
    if (!(density > 0)) return LOOK.noDensity;
    const unsure = !(cv / known <= widestCv);
    return LOOK.firstClass + densityClass(density / known) + (unsure ? UNSURE : 0);
  };
  const looks = Uint8Array.from({ length: columns * rows }, (_, at) =>
    lookOf(block(bed.frame, surface, at % columns, Math.floor(at / columns), fold)),
  );
  return { cellM: cellM * fold, columns, rows, looks };
}

/** The same blocks by the mean of one number a cell, in classes; without one where nothing was detected on the bed. */
export function surfaceLooks(
  bed: NonNullable<SurveyResult['bed']>,
  surface: NonNullable<SurveyResult['surface']>,
  values: Float32Array,
  breaks: readonly number[],
): Uint8Array {
  const { nx, ny } = bed.frame;
  const fold = foldOf(nx, ny);
  const [columns, rows] = [Math.ceil(nx / fold), Math.ceil(ny / fold)];
  const own = { ...surface, cv: values };
  return Uint8Array.from({ length: columns * rows }, (_, at) => {
    const { mapped, inside, known, density, cv } = block(
      bed.frame,
      own,
      at % columns,
      Math.floor(at / columns),
      fold,
    );
    if (mapped === 0) return LOOK.nothing;
    if (2 * inside < mapped) return LOOK.outside;
    if (!(density > 0) || !Number.isFinite(cv)) return LOOK.noDensity;
    return LOOK.firstClass + classOf(cv / known, breaks);
  });
}

const foldOf = (nx: number, ny: number): number =>
  Math.max(1, Math.ceil(Math.max(nx, ny) / MOST_CELLS));

/** Numbers of cells, and sums over those with a density. */
interface Block {
  mapped: number;
  inside: number;
  known: number;
  density: number;
  cv: number;
}

function block(
  { nx, ny }: RasterInput['bed']['frame'],
  { inside, densityPerM2, cv }: RasterInput['surface'],
  column: number,
  row: number,
  fold: number,
): Block {
  const sum: Block = { mapped: 0, inside: 0, known: 0, density: 0, cv: 0 };
  for (let y = row * fold; y < Math.min(ny, (row + 1) * fold); y++) {
    for (let x = column * fold; x < Math.min(nx, (column + 1) * fold); x++) {
      const cell = y * nx + x;
      if (Number.isNaN(inside[cell])) continue;
      sum.mapped++;
      if (inside[cell] === 0) continue;
      sum.inside++;
      if (Number.isNaN(densityPerM2[cell])) continue;
      sum.known++;
      sum.density += densityPerM2[cell];
      sum.cv += cv[cell];
    }
  }
  return sum;
}

/** The classes that are on the map, and those between them, in order. */
export function classesBetween(looks: ReadonlySet<number>): MapClass[] {
  const met = [...looks]
    .filter((look) => look >= LOOK.firstClass)
    .map((look) => (look - LOOK.firstClass) % CLASSES);
  if (met.length === 0) return [];
  const [least, most] = extent(met);
  return Array.from({ length: most - least + 1 }, (_, i) => ({
    look: LOOK.firstClass + least + i,
    words: classLabel(least + i),
  }));
}
