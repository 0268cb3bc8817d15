/** Where the strata lie: the cells of the grid by the stratum that has most of each, with an outline around those of one. */

import type { StratumShape } from '../../shared/open.ts';
import type { Bed, LngLatPolygon, Plane } from '../../shared/survey.ts';
import { outlineOf } from './trace.ts';

/** A cell is drawn where at least this share of it is surveyed habitat. */
const LEAST_SHARE = 0.5;

/**
 * Polygons along the sides of cells. Their areas are not those of
 * the strata, which the estimate has.
 * @param classes in the order of a stratum's label
 */
export function strataShapes(bed: Bed, classes: readonly string[], plane: Plane): StratumShape[] {
  const { nx, ny, cellM, x0, y0 } = bed.frame;
  const strata = strataOf(bed, classes);
  const cells = connectedCells(cellStrata(bed, strata), nx, ny, strata.names.length);
  const blocks = { columns: nx, rows: ny, sideM: cellM };
  const shapes = strata.names.map((name, k) => ({
    ...name,
    polygons: cells[k].map(
      (own): LngLatPolygon =>
        outlineOf(blocks, own, [x0, y0]).map((ring) => ring.map((p) => plane.inverse(p))),
    ),
  }));
  return shapes.filter(({ polygons }) => polygons.length > 0);
}

interface Strata {
  names: { substrate: string; depthFromM: number }[];
  /** by piece: the number of its stratum from 1; 0 = outside of the surveyed habitat */
  ofPiece: Uint16Array;
}

function strataOf({ habitats, pieces }: Bed, classes: readonly string[]): Strata {
  const order = new Map(classes.map((name, i) => [name, i]));
  const place = (name: string): number => order.get(name) ?? classes.length;
  const labels = habitats.map(({ substrate }) =>
    [...substrate].sort((a, b) => place(a) - place(b)).join('+'),
  );
  const all = [...new Set(labels)];
  const labelOf = labels.map((label) => all.indexOf(label));
  const met = new Map<number, number>();
  const names: Strata['names'] = [];
  const ofPiece = Uint16Array.from({ length: pieces.count }, (_, i) => {
    if (pieces.reason[i] !== 0) return 0;
    const label = labelOf[pieces.habitat[i]];
    const key = pieces.band[i] * all.length + label;
    let number = met.get(key);
    if (number === undefined) {
      number = names.push({ substrate: all[label], depthFromM: pieces.band[i] });
      met.set(key, number);
    }
    return number;
  });
  return { names, ofPiece };
}

/** By cell the number of the stratum that has most of it; 0 where less than half of it is surveyed habitat. */
function cellStrata({ frame, pieces }: Bed, { names, ofPiece }: Strata): Uint16Array {
  const least = LEAST_SHARE * frame.cellM ** 2;
  const own = new Uint16Array(frame.nx * frame.ny);
  const most = new Float64Array(own.length);
  const surveyed = new Float64Array(own.length);
  const parts = new Map<number, number>();
  for (let i = 0; i < pieces.count; i++) {
    const stratum = ofPiece[i];
    if (stratum === 0) continue;
    const cell = pieces.cell[i];
    surveyed[cell] += pieces.areaM2[i];
    let areaM2 = pieces.areaM2[i];
    if (areaM2 < least) {
      // only in cells that are cut can a stratum have several pieces
      const key = cell * (names.length + 1) + stratum;
      areaM2 += parts.get(key) ?? 0;
      parts.set(key, areaM2);
    }
    if (areaM2 > most[cell]) {
      most[cell] = areaM2;
      own[cell] = stratum;
    }
  }
  return own.map((stratum, cell) => (surveyed[cell] >= least ? stratum : 0));
}

/** By stratum its cells, those together that hang together by their sides. `strata` is used up. */
function connectedCells(strata: Uint16Array, nx: number, ny: number, count: number): number[][][] {
  const areas: number[][][] = Array.from({ length: count }, () => []);
  for (let first = 0; first < strata.length; first++) {
    const stratum = strata[first];
    if (stratum === 0) continue;
    const own = [first];
    strata[first] = 0;
    const take = (cell: number): void => {
      if (strata[cell] !== stratum) return;
      strata[cell] = 0;
      own.push(cell);
    };
    for (let i = 0; i < own.length; i++) {
      const cell = own[i];
      const column = cell % nx;
      if (column > 0) take(cell - 1);
      if (column + 1 < nx) take(cell + 1);
      if (cell >= nx) take(cell - nx);
      if (cell + nx < nx * ny) take(cell + nx);
    }
    areas[stratum - 1].push(own);
  }
  return areas;
}
