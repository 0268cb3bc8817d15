/**
 * Totals over the bed with their delta-method variance through every parameter (METHOD.md: Totals). Pieces of bed are
 * first summed by habitat and depth band; a total is then a short sum of these with its gradient.
 */

import { quadraticForm } from './numbers/solve.ts';
import type { HabitatDensity, Predictor } from './predict.ts';

/** Pieces of bed: arrays of equal length. */
export interface Pieces {
  count: number;
  habitat: ArrayLike<number>;
  areaM2: ArrayLike<number>;
  depthM: ArrayLike<number>;
  band: ArrayLike<number>;
  /** 0 = inside the surveyed domain */
  reason: ArrayLike<number>;
}

/** Depth bins of a condensed bed: within one, the density's curvature changes a total by less than 1e-5. */
const BIN_M = 0.02;

/**
 * The inside of a bed with pieces of like habitat and depth put together (area-weighted mean depth in bins of 2 cm):
 * for totals that are taken a thousand times.
 */
export function condense(pieces: Pieces): Pieces {
  return binned(pieces).bins;
}

/** The same, and into which bin each piece went; −1 for those outside. */
export function binned(pieces: Pieces): { bins: Pieces; binOf: Int32Array } {
  interface Bin {
    index: number;
    habitat: number;
    band: number;
    area: number;
    moment: number;
  }
  const bins = new Map<number, Bin>();
  const binOf = new Int32Array(pieces.count).fill(-1);
  for (let i = 0; i < pieces.count; i++) {
    if (pieces.reason[i] !== 0) continue;
    const key = Math.floor(pieces.depthM[i] / BIN_M) * 65536 + pieces.habitat[i];
    let bin = bins.get(key);
    if (!bin) {
      const [habitat, band] = [pieces.habitat[i], pieces.band[i]];
      bin = { index: bins.size, habitat, band, area: 0, moment: 0 };
      bins.set(key, bin);
    }
    bin.area += pieces.areaM2[i];
    bin.moment += pieces.areaM2[i] * pieces.depthM[i];
    binOf[i] = bin.index;
  }
  const all = [...bins.values()];
  return {
    binOf,
    bins: {
      count: all.length,
      habitat: Uint16Array.from(all, (b) => b.habitat),
      areaM2: Float64Array.from(all, (b) => b.area),
      depthM: Float64Array.from(all, (b) => b.moment / b.area),
      band: Uint16Array.from(all, (b) => b.band),
      reason: new Uint8Array(all.length),
    },
  };
}

/** The inside pieces of one habitat in one depth band. */
export interface HabitatSum {
  habitat: number;
  band: number;
  areaM2: number;
  /** Σ A λ */
  clusters: number;
  /** Σ A λ × depth column */
  byColumn: Float64Array;
}

export function sumPieces(pieces: Pieces, habitats: HabitatDensity[], p: Predictor): HabitatSum[] {
  const sums = new Map<number, HabitatSum>();
  const columns = new Float64Array(p.depthColumns);
  let last: HabitatSum | null = null;
  for (let i = 0; i < pieces.count; i++) {
    if (pieces.reason[i] !== 0) continue;
    const habitat = pieces.habitat[i];
    const band = pieces.band[i];
    if (last === null || last.habitat !== habitat || last.band !== band) {
      const key = band * 65536 + habitat;
      let found = sums.get(key);
      if (!found) {
        found = {
          habitat,
          band,
          areaM2: 0,
          clusters: 0,
          byColumn: new Float64Array(p.depthColumns),
        };
        sums.set(key, found);
      }
      last = found;
    }
    const area = pieces.areaM2[i];
    last.areaM2 += area;
    const base = habitats[habitat].base;
    if (base === -Infinity) continue;
    p.columnsAt(pieces.depthM[i], columns);
    const found = area * Math.exp(base + p.curveAt(columns));
    last.clusters += found;
    for (let j = 0; j < columns.length; j++) last.byColumn[j] += found * columns[j];
  }
  return [...sums.values()].sort((a, b) => a.band - b.band || a.habitat - b.habitat);
}

export interface ExpectedTotal {
  clusters: number;
  mussels: number;
}

/** Total over some of the sums, without errors. */
export function expectedTotal(sums: HabitatSum[], habitats: HabitatDensity[]): ExpectedTotal {
  let clusters = 0;
  let mussels = 0;
  for (const s of sums) {
    const h = habitats[s.habitat];
    if (h.base === -Infinity) continue;
    clusters += s.clusters;
    mussels += s.clusters * Math.exp(h.logMussels);
  }
  return { clusters, mussels };
}

export interface Total extends ExpectedTotal {
  areaM2: number;
  /** part of the area on which nothing was ever found */
  separatedM2: number;
  clustersSe: number;
  musselsSe: number;
  /** of the mussels by the parameters */
  gradient: Float64Array;
}

/** Total over some of the sums. */
export function totalOf(
  sums: HabitatSum[],
  habitats: HabitatDensity[],
  p: Predictor,
  covariance: Float64Array,
): Total {
  const byClusters = new Float64Array(p.parameterCount);
  const byMussels = new Float64Array(p.parameterCount);
  let areaM2 = 0;
  let separatedM2 = 0;
  for (const s of sums) {
    const h = habitats[s.habitat];
    areaM2 += s.areaM2;
    if (h.base === -Infinity) {
      separatedM2 += s.areaM2;
      continue;
    }
    const perCluster = Math.exp(h.logMussels);
    for (let k = 0; k < p.parameterCount; k++) {
      byClusters[k] += s.clusters * h.gradient[k];
      byMussels[k] += s.clusters * perCluster * (h.gradient[k] + h.gradientMussels[k]);
    }
    for (let j = 0; j < p.depthColumns; j++) {
      byClusters[p.depthFrom + j] += s.byColumn[j];
      byMussels[p.depthFrom + j] += s.byColumn[j] * perCluster;
    }
  }
  return {
    areaM2,
    separatedM2,
    ...expectedTotal(sums, habitats),
    clustersSe: Math.sqrt(Math.max(0, quadraticForm(byClusters, covariance))),
    musselsSe: Math.sqrt(Math.max(0, quadraticForm(byMussels, covariance))),
    gradient: byMussels,
  };
}
