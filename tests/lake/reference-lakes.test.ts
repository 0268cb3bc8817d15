/**
 * The four reference lakes: areas by grid, contours and rounded polygons against exact integration over the lakes'
 * analytic depths and cells (reference.json, an independent implementation in R 4.2).
 */

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import proj4 from 'proj4';
import { describe, expect, it } from 'vitest';
import { DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import type { Bed, Domain, LngLat, Plane, XY } from '../../shared/survey.ts';
import { layBed } from '../../src/lake/bed.ts';
import { depthModel } from '../../src/lake/index.ts';
import { lakeMaps } from '../../src/lake/maps.ts';
import { toPlane } from '../../src/lake/rings.ts';
import { readLake } from '../../src/read/lake.ts';
import { areaBy } from './ground.ts';

const ROOT = fileURLToPath(new URL('../reference-lakes/', import.meta.url));
const LAKES = [
  'belt-nb1',
  'both-effect-size',
  'distance-halfnormal-point',
  'distance-hazardrate-full',
];
const FILES = ['outline.geojson', 'substrate.geojson', 'depth.geojson'];

interface Reference {
  abundance: {
    area_m2: number;
    outside_area_m2: number;
    unmapped_area_m2: number;
    depth_range: [number, number];
    strata: { substrate: string; depth_from_m: number; area_m2: number }[];
  };
}

function planeAround(outline: LngLat[]): Plane {
  const middle = (k: 0 | 1) =>
    (Math.min(...outline.map((p) => p[k])) + Math.max(...outline.map((p) => p[k]))) / 2;
  const [lon0, lat0] = [middle(0), middle(1)];
  const proj = `+proj=laea +lat_0=${lat0} +lon_0=${lon0} +x_0=0 +y_0=0 +datum=WGS84 +units=m +no_defs`;
  const { forward, inverse } = proj4(proj);
  return {
    lon0,
    lat0,
    proj,
    forward: (p) => forward([p[0], p[1]]) as XY,
    inverse: (p) => inverse([p[0], p[1]]) as LngLat,
    convergenceDeg: () => 0,
  };
}

async function layLake(
  name: string,
  cellM: number,
): Promise<{ bed: Bed; reference: Reference['abundance'] }> {
  const files = new Map(
    FILES.map((file) => [file, new Uint8Array(readFileSync(`${ROOT}${name}/${file}`))]),
  );
  const reference = (JSON.parse(readFileSync(`${ROOT}${name}/reference.json`, 'utf8')) as Reference)
    .abundance;
  const { lake, findings } = await readLake(files, DEFAULT_ANALYSIS.substrates);
  expect(findings).toEqual([]);
  const plane = planeAround(lake.outline![0][0]);
  const [least, greatest] = reference.depth_range;
  const { depth_tolerance_m: tolerance } = DEFAULT_ANALYSIS.map;
  const domain: Domain = {
    classes: [...new Set(reference.strata.map((s) => s.substrate))],
    depthFromM: least - tolerance,
    depthToM: greatest + tolerance,
    plantCover: { from: 0, to: 4 },
  };
  const analysis = { ...DEFAULT_ANALYSIS, map: { ...DEFAULT_ANALYSIS.map, cell_m: cellM } };
  const maps = lakeMaps(lake, toPlane(lake.outline ?? [], plane), plane);
  const laid = layBed(maps, analysis, depthModel(lake, plane, cellM)!, domain);
  expect(laid.findings).toEqual([]);
  return { bed: laid.bed!, reference };
}

describe.each(LAKES)('reference lake %s', (name) => {
  it.each([
    [5, 0.0005, 0.012],
    [10, 0.0005, 0.012],
  ])('has its areas with cells of %f m', async (cellM, whole, stratum) => {
    const { bed, reference } = await layLake(name, cellM);
    const totals = areaBy(bed, (i) => (bed.pieces.reason[i] === 0 ? 'inside' : 'outside'));
    const error = (got: number | undefined, expected: number) =>
      Math.abs((got ?? 0) / expected - 1);
    // positions are rounded to 0.1 m, contours are polygons of 241 vertices: 0.05 % of the whole
    expect(error(totals.inside, reference.area_m2)).toBeLessThan(whole);
    expect(error(totals.outside, reference.outside_area_m2)).toBeLessThan(2 * whole);
    expect(error(bed.unmappedM2, reference.unmapped_area_m2)).toBeLessThan(whole);
    // depth between contours is linear here and curved there: up to 1 % of a stratum of 2,000 to 14,000 m²
    const strata = areaBy(bed, (i) =>
      bed.pieces.reason[i] === 0
        ? `${bed.habitats[bed.pieces.habitat[i]].substrate.join('+')} ${bed.pieces.band[i]}`
        : 'outside',
    );
    for (const s of reference.strata) {
      const key = `${s.substrate} ${s.depth_from_m}`;
      expect(error(strata[key], s.area_m2), key).toBeLessThan(stratum);
    }
    expect(Object.keys(strata)).toHaveLength(reference.strata.length + 1);
  });
});
