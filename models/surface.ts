/** Mussels per m² of every cell of the bed, with the coefficient of variation: what the map and the grid file show. */

import type { Pieces } from './abundance.ts';
import { chanceAbove } from './exceedance.ts';
import type { HabitatDensity, Predictor } from './predict.ts';

export interface CellPieces extends Pieces {
  cell: ArrayLike<number>;
}

/** One value a cell; NaN off the lake and, but for `inside`, outside of the surveyed domain. */
export interface Surface {
  densityPerM2: Float32Array;
  cv: Float32Array;
  /** 1 inside, 0 outside of the surveyed domain */
  inside: Float32Array;
  /** Pr(density > threshold), null without a threshold */
  aboveThreshold: Float32Array | null;
}

/**
 * A cell counts as inside where at least half of its bed is; its density is the mean over its inside pieces.
 * @param cells number of cells of the grid
 * @param order of the pieces by their cells, where it is known
 */
export function densitySurface(
  pieces: CellPieces,
  cells: number,
  habitats: HabitatDensity[],
  p: Predictor,
  covariance: Float64Array,
  threshold: number | null,
  withErrors = true,
  order: Int32Array = sortedByCell(pieces),
): Surface {
  const density = new Float32Array(cells).fill(Number.NaN);
  const cv = new Float32Array(cells).fill(Number.NaN);
  const inside = new Float32Array(cells).fill(Number.NaN);
  const above = threshold === null ? null : new Float32Array(cells).fill(Number.NaN);
  const forms = withErrors ? habitats.map((h) => habitatForm(h, p, covariance)) : [];
  const depthBlock = blockOf(covariance, p);
  const columns = new Float64Array(p.depthColumns);
  const columnSums = new Float64Array(p.depthColumns);
  // habitats of a mixed cell, and what was found on each
  const met = new Int32Array(habitats.length);
  const foundOn = new Float64Array(habitats.length);
  let metCount = 0;
  let at = 0;
  while (at < pieces.count) {
    const cell = pieces.cell[order[at]];
    let next = at + 1;
    while (next < pieces.count && pieces.cell[order[next]] === cell) next++;
    if (next === at + 1) {
      // the usual cell: one piece
      const i = order[at];
      if (pieces.reason[i] !== 0) inside[cell] = 0;
      else {
        inside[cell] = 1;
        const h = habitats[pieces.habitat[i]];
        if (h.base === -Infinity) density[cell] = 0;
        else {
          p.columnsAt(pieces.depthM[i], columns);
          density[cell] = Math.exp(h.base + h.logMussels + p.curveAt(columns));
          if (withErrors)
            cv[cell] = Math.sqrt(depthVariance(forms[pieces.habitat[i]], columns, depthBlock));
        }
      }
    } else mixedCell(cell, at, next);
    at = next;
  }
  if (above !== null && threshold !== null)
    for (let c = 0; c < cells; c++) above[c] = chanceAbove(density[c], cv[c], threshold);
  return { densityPerM2: density, cv, inside, aboveThreshold: above };

  /** Its gradient is Σ found × (the habitat's + depth columns): pieces of one habitat count as one. */
  function mixedCell(cell: number, from: number, to: number): void {
    let covered = 0;
    let area = 0;
    let mussels = 0;
    metCount = 0;
    columnSums.fill(0);
    for (let k = from; k < to; k++) {
      const i = order[k];
      covered += pieces.areaM2[i];
      if (pieces.reason[i] !== 0) continue;
      area += pieces.areaM2[i];
      const habitat = pieces.habitat[i];
      const h = habitats[habitat];
      if (h.base === -Infinity) continue;
      p.columnsAt(pieces.depthM[i], columns);
      const found = pieces.areaM2[i] * Math.exp(h.base + h.logMussels + p.curveAt(columns));
      mussels += found;
      let place = 0;
      while (place < metCount && met[place] !== habitat) place++;
      if (place === metCount) {
        met[metCount++] = habitat;
        foundOn[place] = 0;
      }
      foundOn[place] += found;
      for (let j = 0; j < columns.length; j++) columnSums[j] += found * columns[j];
    }
    if (area < covered / 2) {
      inside[cell] = 0;
      return;
    }
    inside[cell] = 1;
    density[cell] = mussels / area;
    if (mussels > 0 && withErrors) cv[cell] = Math.sqrt(Math.max(0, mixedVariance())) / mussels;
  }

  function mixedVariance(): number {
    let sum = squareOf(columnSums, depthBlock);
    for (let a = 0; a < metCount; a++) {
      const { fixed, cross, times } = forms[met[a]];
      sum += foundOn[a] ** 2 * fixed;
      for (let j = 0; j < cross.length; j++) sum += foundOn[a] * cross[j] * columnSums[j];
      for (let b = 0; b < a; b++)
        sum += 2 * foundOn[a] * foundOn[b] * dot(times, forms[met[b]].gradient);
    }
    return sum;
  }
}

/** With g the gradient of the part without depth: gᵀΣg, 2(Σg) on the depth columns, and Σg. */
interface HabitatForm {
  gradient: Float64Array;
  times: Float64Array;
  fixed: number;
  cross: Float64Array;
}

function habitatForm(h: HabitatDensity, p: Predictor, covariance: Float64Array): HabitatForm {
  const n = p.parameterCount;
  const gradient = h.gradient.map((x, i) => x + h.gradientMussels[i]);
  const times = gradient.map((_, q) => dot(covariance.subarray(q * n, (q + 1) * n), gradient));
  const cross = times.slice(p.depthFrom, p.depthFrom + p.depthColumns).map((x) => 2 * x);
  return { gradient, times, fixed: dot(gradient, times), cross };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

function blockOf(covariance: Float64Array, p: Predictor): Float64Array {
  const n = p.depthColumns;
  const block = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++)
      block[i * n + j] = covariance[(p.depthFrom + i) * p.parameterCount + p.depthFrom + j];
  }
  return block;
}

function depthVariance(form: HabitatForm, columns: Float64Array, block: Float64Array): number {
  let sum = form.fixed + squareOf(columns, block);
  for (let i = 0; i < columns.length; i++) sum += form.cross[i] * columns[i];
  return Math.max(0, sum);
}

/** cᵀBc */
function squareOf(columns: Float64Array, block: Float64Array): number {
  const n = columns.length;
  let sum = 0;
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) sum += columns[i] * block[i * n + j] * columns[j];
  return sum;
}

/** Indices of the pieces in the order of their cells (counting sort). */
export function sortedByCell(pieces: CellPieces): Int32Array {
  let top = 0;
  for (let i = 0; i < pieces.count; i++) if (pieces.cell[i] > top) top = pieces.cell[i];
  const begins = new Int32Array(top + 2);
  for (let i = 0; i < pieces.count; i++) begins[pieces.cell[i] + 1]++;
  for (let c = 0; c <= top; c++) begins[c + 1] += begins[c];
  const order = new Int32Array(pieces.count);
  for (let i = 0; i < pieces.count; i++) order[begins[pieces.cell[i]]++] = i;
  return order;
}
