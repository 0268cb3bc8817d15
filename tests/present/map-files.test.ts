/** The maps of the lake in words. */

import { expect, it } from 'vitest';
import { mapFiles } from '../../src/present/map-files.ts';

const none = { outline: null, substrate: null, depth: null, treatments: [] };

it('says what each map holds', () => {
  const { rows } = mapFiles({
    outline: [[]],
    substrate: [
      { substrate: ['sand', 'rock'], plantCover: null, polygons: [], feature: 1 },
      { substrate: ['sand'], plantCover: 2, polygons: [], feature: 2 },
    ],
    depth: {
      kind: 'lines',
      lines: [
        { depthM: 2, points: new Float64Array() },
        { depthM: 6.5, points: new Float64Array() },
      ],
    },
    treatments: [{ name: 'North bay', polygons: [], feature: 1 }],
  });
  expect(rows).toEqual([
    { name: 'Outline', holds: '1 polygon' },
    { name: 'Substrate', holds: '2 patches; sand, rock' },
    { name: 'Depth', holds: '2 lines or soundings, deepest 6.5 m' },
    { name: 'Treatment areas', holds: 'North bay' },
  ]);
});

it('says what is lost without a map, and has no row for treatment areas that nobody drew', () => {
  const { rows } = mapFiles(none);
  expect(rows.map((r) => r.name)).toEqual(['Outline', 'Substrate', 'Depth']);
  for (const { holds } of rows)
    expect(holds).toBe('missing: without it there is no number for the lake');
});

it('gives a raster by its cells', () => {
  const raster = {
    kind: 'raster' as const,
    width: 1200,
    height: 80,
    depthM: new Float32Array(),
    originX: 0,
    originY: 0,
    stepX: 1,
    stepY: -1,
    crs: '',
  };
  expect(mapFiles({ ...none, depth: raster }).rows[2]?.holds).toBe('a raster of 1,200 by 80 cells');
});
