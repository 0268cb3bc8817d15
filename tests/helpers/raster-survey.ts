/** The base survey with its depths as a raster, and rasters whose head is written tag by tag. */

import { zlibSync } from 'fflate';
import { writeGeoTiff } from '../../src/publish/raster/geotiff.ts';
import { baseSurvey, toFolder } from './base-survey.ts';

/** Cells of 5 m around the middle of the base survey's lake. */
const CELL_M = 5;
const SIDE = 80;

/** Depth by column and row: 1 m in 10 m from the west shore, as the transects of the base survey have it. */
const shelving = (column: number): number => (column * CELL_M) / 10;

export function rasterSurvey(
  depthM: (column: number, row: number) => number = shelving,
  centre = { lon0: -92.998, lat0: 45.0015 },
) {
  const folder = toFolder(baseSurvey());
  folder.files.delete('depth.geojson');
  const values = Float32Array.from({ length: SIDE * SIDE }, (_, i) =>
    depthM(i % SIDE, Math.floor(i / SIDE)),
  );
  // the west shore lies 157.5 m west of the centre of the projection
  const frame = { x0: -157.5, y0: (SIDE * CELL_M) / 2, cellM: CELL_M, nx: SIDE, ny: SIDE };
  folder.files.set('depth.tif', writeGeoTiff(frame, centre, [{ name: 'depth', values }]));
  return folder;
}

type Tag = [tag: number, type: 2 | 3 | 4 | 12, values: number[]];
const BYTES = { 2: 1, 3: 2, 4: 4, 12: 8 };

/**
 * A raster of float32 depths, all 3 m, in WGS 84 with its corner at 93.01° W, 45.02° N: every strip of one row is the same
 * deflated bytes, so that a file of any size is small. `change` may replace tags.
 */
export function wideRaster(side: number, stepDeg: number, change: Tag[] = []): Uint8Array {
  const strip = zlibSync(new Uint8Array(new Float32Array(side).fill(3).buffer));
  const rows = (value: number) => Array.from({ length: side }, () => value);
  const tags = new Map<number, Tag>();
  const put = (list: Tag[]): void => {
    for (const tag of list) tags.set(tag[0], tag);
  };
  put([
    [256, 4, [side]],
    [257, 4, [side]],
    [258, 3, [32]],
    [259, 3, [8]],
    [262, 3, [1]],
    [273, 4, rows(8)],
    [277, 3, [1]],
    [278, 4, [1]],
    [279, 4, rows(strip.length)],
    [339, 3, [3]],
    [33550, 12, [stepDeg, stepDeg, 0]],
    [33922, 12, [0, 0, 0, -93.01, 45.02, 0]],
    [34735, 3, [1, 1, 0, 3, 1024, 0, 1, 2, 1025, 0, 1, 1, 2048, 0, 1, 4326]],
  ]);
  put(change);
  const list = [...tags.values()].sort((a, b) => a[0] - b[0]);
  const at = 8 + strip.length + (strip.length % 2);
  const long = list.reduce((sum, [, type, values]) => sum + BYTES[type] * values.length + 8, 0);
  const view = new DataView(new ArrayBuffer(at + 6 + 12 * list.length + long));
  view.setUint32(0, 0x49492a00);
  view.setUint32(4, at, true);
  new Uint8Array(view.buffer).set(strip, 8);
  view.setUint16(at, list.length, true);
  let next = at + 6 + 12 * list.length;
  for (const [k, [tag, type, values]] of list.entries()) {
    const entry = at + 2 + 12 * k;
    const bytes = BYTES[type] * values.length;
    view.setUint16(entry, tag, true);
    view.setUint16(entry + 2, type, true);
    view.setUint32(entry + 4, values.length, true);
    const place = bytes <= 4 ? entry + 8 : next;
    if (bytes > 4) {
      view.setUint32(entry + 8, next, true);
      next += bytes + (bytes % 2);
    }
    for (const [i, value] of values.entries()) {
      const to = place + i * BYTES[type];
      if (type === 12) view.setFloat64(to, value, true);
      else if (type === 4) view.setUint32(to, value, true);
      else if (type === 3) view.setUint16(to, value, true);
      else view.setUint8(to, value);
    }
  }
  return new Uint8Array(view.buffer);
}
