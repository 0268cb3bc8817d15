/** The command as a whole on a reference survey: from a folder on disk to files that other programs read. */

import { spawnSync } from 'node:child_process';
import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fromArrayBuffer } from 'geotiff';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Estimate } from '../../shared/estimate.ts';
import { testFolder } from '../helpers/folder.ts';
import { hasGdal, runTool } from '../helpers/gdal.ts';
import { floatBands } from '../helpers/rasters.ts';

const ROOT = join(import.meta.dirname, '../..');
const REFERENCE = join(ROOT, 'tests/reference-lakes/belt-nb1');

describe('shoalwise estimate', () => {
  const folder = testFolder();
  const survey = join(folder, 'belt-nb1');
  const out = join(folder, 'out');
  let done: ReturnType<typeof launch>;
  let estimate: Estimate;

  function launch(args: string[]) {
    return spawnSync(process.execPath, [join(ROOT, 'src/cli/launch.mjs'), ...args], {
      encoding: 'utf8',
    });
  }

  /** The reference survey, with a notice at each transect that changes no number: a substrate on its end row. */
  beforeAll(() => {
    cpSync(REFERENCE, survey, { recursive: true });
    const habitat = join(survey, 'habitat.csv');
    writeFileSync(habitat, readFileSync(habitat, 'utf8').replaceAll(/^(T\d+,30),,/gm, '$1,silt,'));
    done = launch(['estimate', survey, '--out', out, '--json']);
    estimate = JSON.parse(readFileSync(join(out, 'estimate.json'), 'utf8'));
  });

  it('is done, says estimate.json alone on standard output, notices on standard error, each alone when asked for', () => {
    expect(done.status).toBe(0);
    expect(JSON.parse(done.stdout)).toEqual(estimate);
    const lines = done.stderr.split('\n').filter((line) => line !== '');
    expect(lines.filter((line) => !line.startsWith('notice: '))).toEqual([]);
    expect(lines.length).toBeLessThan(estimate.warnings.length);
    // into the same folder, which is taken back as an earlier result
    const each = launch(['estimate', survey, '--out', out, '--json', '--list-all']);
    expect(each.status).toBe(0);
    expect(each.stdout).toBe(done.stdout);
    expect(each.stderr.split('\n').filter((line) => line.startsWith('notice: '))).toHaveLength(
      estimate.warnings.length,
    );
  });

  it('comes within 1 % of the abundance by exact integration', () => {
    // reference.json: an independent implementation in R 4.2, integrated over the lake's analytic depths
    const { abundance } = JSON.parse(readFileSync(join(REFERENCE, 'reference.json'), 'utf8'));
    const ratio = estimate.abundance!.mussels!.estimate / abundance.mussels.estimate;
    expect(Math.abs(ratio - 1)).toBeLessThan(0.01); // a grid of 5 m is not the exact lake
  });

  it('has strata that sum to the whole', () => {
    const sum = (of: (s: NonNullable<Estimate['strata']>[number]) => number) =>
      estimate.strata!.reduce((total, s) => total + of(s), 0);
    expect(sum((s) => s.area_m2) / estimate.abundance!.area_m2).toBeCloseTo(1, 9);
    expect(sum((s) => s.mussels!.estimate) / estimate.abundance!.mussels!.estimate).toBeCloseTo(
      1,
      9,
    );
  });

  it('has a grid whose cells sum to the whole, but for cells that are inside in part', async () => {
    const bytes = readFileSync(join(out, 'grid.tif'));
    const copy = bytes.buffer.slice(
      bytes.byteOffset,
      bytes.byteOffset + bytes.byteLength,
    ) as ArrayBuffer;
    const image = await (await fromArrayBuffer(copy)).getImage();
    const [density, , , inside] = await floatBands(image);
    const cellM2 = image.getResolution()[0] ** 2;
    let mussels = 0;
    density!.forEach((d, i) => {
      if (inside![i] === 1) mussels += d * cellM2;
    });
    // half a cell of 5 m along the edges of the surveyed bed, to either side: some percent of its area at most
    expect(mussels / estimate.abundance!.mussels!.estimate).toBeGreaterThan(0.95);
    expect(mussels / estimate.abundance!.mussels!.estimate).toBeLessThan(1.05);
  });

  it.skipIf(!hasGdal)(
    'places the grid on the lake: GDAL finds a cell of the bed where a dive began',
    () => {
      const { features } = JSON.parse(readFileSync(join(out, 'segments.geojson'), 'utf8'));
      const { geometry, properties } = features[0];
      const [lon, lat] = geometry.coordinates[0];
      const told = runTool('gdallocationinfo', [
        '-valonly',
        '-wgs84',
        join(out, 'grid.tif'),
        String(lon),
        String(lat),
      ]);
      const depthM = Number(told.trim().split(/\s+/)[2]);
      // the map's depth at the rope against the diver's at the middle of the first segment
      expect(Math.abs(depthM - properties.depth_m)).toBeLessThan(1);
    },
  );
});
