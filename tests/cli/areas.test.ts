/** `areas` on a small made-up lake: what it prints and writes, read back by GDAL; wrong budgets, places and surveys refused. */

import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { AreasFile } from '../../shared/areas.ts';
import { main } from '../../src/cli/main.ts';
import { AREA_FILES } from '../../src/publish/areas.ts';
import { beltSurvey } from '../helpers/base-survey.ts';
import { testFolder } from '../helpers/folder.ts';
import { hasGdal, runTool } from '../helpers/gdal.ts';
import { keepingTerminal } from './terminal.ts';

const room = testFolder();

/** Few models, for speed. */
const CHOICES = { density: { depth: 'none', transect_effect: false, family: 'poisson' } };

function surveyFolder(name: string, more: Record<string, string> = {}): string {
  const path = join(room, name);
  mkdirSync(path);
  const files = { ...beltSurvey(), 'analysis.json': JSON.stringify(CHOICES), ...more };
  for (const [file, text] of Object.entries(files)) writeFileSync(join(path, file), text);
  return path;
}

async function run(...argv: string[]) {
  const terminal = keepingTerminal();
  const code = await main(['areas', ...argv], terminal);
  return { code, stdout: terminal.stdout, stderr: terminal.stderr };
}

/** Two halves of the lake's water, and more: west and east of its middle. */
function halves(outline: string): string {
  const [ring] = JSON.parse(outline).features[0].geometry.coordinates as [number, number][][];
  const [lons, lats] = [ring.map((p) => p[0]), ring.map((p) => p[1])];
  const [w, e, s, n] = [Math.min(...lons), Math.max(...lons), Math.min(...lats), Math.max(...lats)];
  const middle = (w + e) / 2;
  const feature = (name: string, from: number, to: number) => ({
    type: 'Feature',
    properties: { name },
    geometry: {
      type: 'Polygon',
      coordinates: [
        [
          [from, s],
          [to, s],
          [to, n],
          [from, n],
          [from, s],
        ],
      ],
    },
  });
  return JSON.stringify({
    type: 'FeatureCollection',
    features: [feature('<West>', w, middle), feature('East', middle, e)],
  });
}

describe('areas of a survey', () => {
  const out = join(room, 'out');
  let folder: string;
  let done: Awaited<ReturnType<typeof run>>;
  let file: AreasFile;
  beforeAll(async () => {
    folder = surveyFolder('lake', {
      'treatments.geojson': halves(beltSurvey()['outline.geojson']),
    });
    done = await run(
      folder,
      '--hectares',
      '0.3',
      '--least-area',
      '50',
      '--least-width',
      '10',
      '--layer',
      '1',
      '--parts',
      '1',
      '--out',
      out,
    );
    file = JSON.parse(readFileSync(join(out, 'areas.json'), 'utf8'));
  }, 120_000);

  it('are written, all files, and printed with the caution', () => {
    expect(done.code).toBe(0);
    expect(readdirSync(out).sort()).toEqual([...AREA_FILES].sort());
    expect(done.stdout).toContain('At most 3,000 m² of water');
    expect(done.stdout).toContain('planning aid, not a prescription');
    for (const line of done.stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('tile the lake: their mussels add to the total, and nothing is left out', () => {
    const [west, east] = file.candidates;
    const total = file.total.mussels.estimate;
    expect((west.mussels?.estimate ?? 0) + (east.mussels?.estimate ?? 0)).toBeCloseTo(total, 3);
    expect(file.left_out?.surveyed_m2).toBeCloseTo(0, 3);
    expect(file.proposals[0].used).toBeLessThanOrEqual(3000);
    // a layer of 1 m over water that is nowhere shallower holds its area times 1 m, at most
    for (const area of file.candidates)
      expect(area.layer_m3).toBeLessThanOrEqual(area.water_m2 * 1.000001);
  });

  it.skipIf(!hasGdal)('are read back by GDAL, as many as there are', () => {
    const count = file.proposals.length + file.candidates.length;
    const layer = (name: string, of: string[]) =>
      runTool('ogrinfo', ['-ro', '-so', join(out, name), ...of]);
    for (const [name, of] of [
      ['areas.geojson', ['areas']],
      ['areas.gpx', ['tracks']],
      ['areas.kml', ['-al']],
    ] as const)
      expect(layer(name, [...of]), name).toContain(`Feature Count: ${count}`);
    const east = runTool('ogrinfo', [
      '-ro',
      '-al',
      '-where',
      "name = 'East'",
      join(out, 'areas.geojson'),
    ]);
    expect(east).toContain('kind (String) = candidate');
    expect(east).toContain('MULTIPOLYGON');
  });

  it('have their outer rings counter-clockwise, as RFC 7946 asks', () => {
    const { features } = JSON.parse(readFileSync(join(out, 'areas.geojson'), 'utf8'));
    for (const { geometry } of features)
      for (const [outer] of geometry.coordinates as [number, number][][][]) {
        let twice = 0;
        for (let i = 0; i + 1 < outer.length; i++)
          twice += outer[i][0] * outer[i + 1][1] - outer[i + 1][0] * outer[i][1];
        expect(twice).toBeGreaterThan(0);
      }
  });

  it('have a sheet each, with names escaped, corners in decimal minutes, and the caution', () => {
    const page = readFileSync(join(out, 'areas.html'), 'utf8');
    expect(page).toContain('&lt;West&gt;, ');
    expect(page).not.toContain('<West>');
    expect(page).toMatch(/\d+° \d\d\.\d{4}′ [NS], \d+° \d\d\.\d{4}′ [EW]/);
    const sheets = page.match(/class="sheet"/g) ?? [];
    expect(sheets.length).toBe(file.proposals.length + file.candidates.length);
    // on the first page, among its cautions, and on every sheet
    expect((page.match(/Labels and permits rule/g) ?? []).length).toBe(2 + sheets.length);
    expect(page).not.toMatch(/https?:\/\/|src=/);
  });

  it('say first what holds the most, and show all areas on one map', () => {
    const page = readFileSync(join(out, 'areas.html'), 'utf8');
    const front = page.slice(0, page.indexOf('<h2>'));
    const most = file.proposals.toSorted(
      (a, b) => (b.corrected?.share ?? 0) - (a.corrected?.share ?? 0),
    )[0];
    expect(/<p class="answer">([^<]*)/.exec(front)?.[1]).toContain(`${most.name} holds`);
    const names = [...front.matchAll(/<text [^>]*text-anchor="middle"[^>]*>([^<]*)</g)];
    expect(names.map(([, name]) => name)).toEqual([
      ...file.candidates.map((c) => c.name.replace('<West>', '&lt;West&gt;')),
      most.name,
    ]);
  });

  it('replace an earlier result of their own, and nothing else', async () => {
    const foreign = join(room, 'foreign');
    mkdirSync(foreign);
    writeFileSync(join(foreign, 'thesis.txt'), 'mine');
    const refused = await run(folder, '--hectares', '1', '--out', foreign);
    expect(refused.code).toBe(64);
    expect(refused.stderr).toContain('holds no earlier result');
    expect(readdirSync(foreign)).toEqual(['thesis.txt']);
  });
});

describe('what cannot be done is said in a sentence', () => {
  const nowhere = join(room, 'nowhere');

  it.each<[string, string[], string]>([
    ['no budget', [], 'one budget is expected, --hectares X or --volume-m3 V'],
    ['two budgets', ['--hectares', '1', '--volume-m3', '9'], 'one budget is expected'],
    ['none of it', ['--hectares', '0'], '--hectares: "0" is not a number above 0'],
    ['less than that', ['--hectares', '-2'], '--hectares'],
    ['in words', ['--volume-m3', 'lots'], '"lots" is not a number above 0'],
    ['a comma', ['--hectares', '1,5'], '"1,5" is not a number above 0'],
    // a number, but not enough of them
    ['no digit before the point', ['--hectares', '.5', '--parts', '11'], 'from 1 to 10'],
    ['too many parts', ['--hectares', '1', '--parts', '11'], 'whole number from 1 to 10'],
  ])('%s', async (_, options, sentence) => {
    const { code, stderr } = await run('somewhere', ...options, '--out', nowhere);
    expect(code).toBe(64);
    expect(stderr).toContain(sentence);
    expect(existsSync(nowhere)).toBe(false);
  });

  it('places that are not there, or are no polygons', async () => {
    const folder = join(room, 'lake');
    const missing = await run(
      folder,
      '--hectares',
      '1',
      '--exclude',
      join(room, 'no.geojson'),
      '--out',
      nowhere,
    );
    expect(missing.code).toBe(2);
    expect(missing.stderr).toContain('there is no such file (--exclude)');
    const text = join(room, 'words.geojson');
    writeFileSync(text, 'the beach');
    const wrong = await run(folder, '--hectares', '1', '--exclude', text, '--out', nowhere);
    expect(wrong.code).toBe(2);
    expect(wrong.stderr).toContain('words.geojson');
    expect(existsSync(nowhere)).toBe(false);
  });

  it('a survey without a map of the lake', async () => {
    const bare = beltSurvey() as Record<string, string>;
    const path = join(room, 'bare');
    mkdirSync(path);
    for (const [file, text] of Object.entries(bare))
      if (file.endsWith('.csv')) writeFileSync(join(path, file), text);
    const { code, stderr } = await run(path, '--hectares', '1', '--out', nowhere);
    expect(code).toBe(2);
    expect(stderr).toContain('without the mapped bed of the lake no area has a number');
    expect(existsSync(nowhere)).toBe(false);
  });
});
