/** The GeoJSON: RFC 7946 by hand, and read by GDAL's ogrinfo. */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { FeatureCollection, LineString, Point } from 'geojson';
import { describe, expect, it } from 'vitest';
import { publish } from '../../src/publish/index.ts';
import { testFolder } from '../helpers/folder.ts';
import { hasGdal, runTool } from '../helpers/gdal.ts';
import { handMadeResult, nothingFound } from '../helpers/result.ts';

const NAMES = ['transects.geojson', 'segments.geojson', 'detections.geojson'] as const;
const files = publish(handMadeResult());
const parsed = <G extends LineString | Point>(name: string) =>
  JSON.parse(files.get(name) as string) as FeatureCollection<G>;

describe('GeoJSON', () => {
  it('draws each rope from its adjusted start to its adjusted end, longitude first', () => {
    const { features } = parsed<LineString>('transects.geojson');
    expect(features).toHaveLength(2);
    const [start, end] = features[0].geometry.coordinates;
    expect(start).toEqual([-93.57, 44.93]);
    // 29.5 m east at 44.93° N: 111,412.84·cos φ − 93.5·cos 3φ + 0.118·cos 5φ = 78,942 m a degree (series for WGS 84, by hand)
    expect(end![0] + 93.57).toBeCloseTo(29.5 / 78_942, 6);
    expect(end![1]).toBeCloseTo(44.93, 6);
  });

  it('carries errors and residuals of the placement', () => {
    const { features } = parsed('transects.geojson');
    expect(features[0].properties).toMatchObject({
      transect: 'T1',
      start_se_m: 4,
      end_se_m: 4.5,
      end_inferred: true,
      clusters: 2,
      mussels_counted: 5,
      residuals: [{ of: 'start', value: 2.25, se: 3, flagged: false }],
      'sheet:boat': '<i>Heron</i>',
    });
  });

  it('carries the predicted effect of each transect, null where the model has none', () => {
    expect(parsed('transects.geojson').features[0].properties).toMatchObject({ effect: null });
    const checks = {
      checks: [],
      residuals: [],
      expected: [],
      influence: [],
      effects: [
        { effect: 0.25, se: 0.1 },
        { effect: -0.5, se: 0.2 },
      ],
    };
    const text = publish({ ...handMadeResult(), checks }).get('transects.geojson') as string;
    const { features } = JSON.parse(text) as FeatureCollection;
    expect(features.map((f) => [f.properties?.effect, f.properties?.effect_se])).toEqual([
      [0.25, 0.1],
      [-0.5, 0.2],
    ]);
  });

  it('names the diver who found a cluster', () => {
    const { features } = parsed<Point>('detections.geojson');
    expect(
      features.map((f) => [f.properties?.diver, f.properties?.count, f.properties?.segment]),
    ).toEqual([
      ['Ada', 4, 1],
      ['Ben', 1, 2],
      ['Ada', 7, 3],
    ]);
  });

  it('gives 7 decimals at most', () => {
    for (const name of NAMES)
      for (const number of (files.get(name) as string).matchAll(/[[,](-?\d+\.\d+)/g))
        expect(number[1].split('.')[1].length).toBeLessThanOrEqual(7);
  });

  it('is an empty collection when nothing was found', () => {
    const empty = JSON.parse(publish(nothingFound()).get('detections.geojson') as string);
    expect(empty).toEqual({ type: 'FeatureCollection', features: [] });
  });

  describe.skipIf(!hasGdal)('read by ogrinfo', () => {
    const folder = testFolder();
    it.each([
      ['transects.geojson', 'Line String', 2],
      ['segments.geojson', 'Line String', 3],
      ['detections.geojson', 'Point', 3],
    ])('%s: %s, %d features, WGS 84', (name, geometry, count) => {
      const path = join(folder, name);
      writeFileSync(path, files.get(name)!);
      const told = runTool('ogrinfo', ['-ro', '-al', '-so', path]);
      expect(told).toContain(`Geometry: ${geometry}`);
      expect(told).toContain(`Feature Count: ${count}`);
      expect(told).toContain('ID["EPSG",4326]');
    });
  });
});
