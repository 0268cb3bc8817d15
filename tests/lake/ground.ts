/** A flat lake for tests: the map's coordinates are metres of the plane already, depths are a formula. */

import { DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import type { Finding } from '../../shared/findings.ts';
import { positionsFrom } from '../../shared/positions.ts';
import type { Bed, Domain, Lake, Plane, XY, XYPolygon } from '../../shared/survey.ts';
import { layBed } from '../../src/lake/bed.ts';
import type { DepthModel } from '../../src/lake/depth.ts';
import { lakeMaps } from '../../src/lake/maps.ts';

export const FLAT: Plane = {
  lon0: 0,
  lat0: 0,
  proj: '',
  forward: (p) => [p[0], p[1]],
  inverse: (p) => [p[0], p[1]],
  convergenceDeg: () => 0,
};

/** A depth model that is a formula; NaN = unmapped. */
export function formula(depth: (x: number, y: number) => number): DepthModel {
  return {
    at: ([x, y]) => (Number.isNaN(depth(x, y)) ? null : depth(x, y)),
    value: depth,
    lattice: (x0, y0, stepM, nx, ny, out) => {
      for (let r = 0; r < ny; r++)
        for (let c = 0; c < nx; c++) out[r * nx + c] = depth(x0 + c * stepM, y0 - r * stepM);
    },
    startsAtShore: false,
    conflicts: 0,
  };
}

export const ANYWHERE: Domain = {
  classes: ['sand', 'gravel', 'rock'],
  depthFromM: 0,
  depthToM: 1000,
  plantCover: null,
};

export interface Patch {
  polygons: XYPolygon[];
  substrate?: string[];
  plantCover?: number | null;
}

export function lakeOf(outline: XYPolygon[], patches: Patch[]): Lake {
  return {
    outline,
    substrate: patches.map(({ polygons, substrate = ['sand'], plantCover = null }, k) => ({
      substrate,
      plantCover,
      polygons: polygons.map((rings) => rings.map(positionsFrom)),
      feature: k + 1,
    })),
    depth: null,
    treatments: [],
  };
}

export interface LayOptions {
  cellM?: number;
  depth?: DepthModel;
  domain?: Domain;
  within?: XYPolygon[];
}

export function lay(
  outline: XYPolygon[],
  patches: Patch[],
  options: LayOptions = {},
): { bed: Bed | null; findings: Finding[] } {
  const { cellM = 5, depth = formula(() => 0.5), domain = ANYWHERE, within } = options;
  const map = { ...DEFAULT_ANALYSIS.map, cell_m: cellM };
  return layBed(
    lakeMaps(lakeOf(outline, patches), outline, FLAT),
    { ...DEFAULT_ANALYSIS, map },
    depth,
    domain,
    within,
  );
}

/** The bed, when there must be one. */
export function bedOf(outline: XYPolygon[], patches: Patch[], options: LayOptions = {}): Bed {
  const { bed, findings } = lay(outline, patches, options);
  if (bed === null) throw new Error(findings.map((f) => f.message).join('\n'));
  return bed;
}

/** Area in m² by a key of the piece. */
export function areaBy(bed: Bed, key: (piece: number) => string | number): Record<string, number> {
  const sums: Record<string, number> = {};
  for (let i = 0; i < bed.pieces.count; i++) {
    const k = String(key(i));
    sums[k] = (sums[k] ?? 0) + bed.pieces.areaM2[i];
  }
  return sums;
}

export function mappedM2(bed: Bed): number {
  return bed.pieces.areaM2.reduce((a, b) => a + b, 0);
}

/** Closed ring of a rectangle. */
export function rectangle(x0: number, y0: number, x1: number, y1: number): XY[] {
  return [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
    [x0, y0],
  ];
}

/** Closed ring of n vertices; the radius may change with the angle. */
export function round(
  x: number,
  y: number,
  radius: number | ((angle: number) => number),
  n: number,
): XY[] {
  const ring: XY[] = [];
  for (let k = 0; k < n; k++) {
    const angle = (2 * Math.PI * k) / n;
    const r = typeof radius === 'number' ? radius : radius(angle);
    ring.push([x + r * Math.cos(angle), y + r * Math.sin(angle)]);
  }
  return [...ring, ring[0]];
}

/** Unsigned area of a closed ring: the textbook sum over its vertices, from the first one. */
export function shoelace(ring: XY[]): number {
  let twice = 0;
  const [ox, oy] = ring[0];
  for (let i = 1; i < ring.length; i++) {
    const [ax, ay] = ring[i - 1];
    const [bx, by] = ring[i];
    twice += (ax - ox) * (by - oy) - (bx - ox) * (ay - oy);
  }
  return Math.abs(twice) / 2;
}

/** Random numbers from 0 to 1, the same for a seed (Numerical Recipes' 32-bit linear congruence). */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
