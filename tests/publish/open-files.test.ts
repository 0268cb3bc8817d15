/** `export` on a small made-up lake: every file read back by a reader that is not ours, and the survey estimated again from it. */

import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Estimate } from '../../shared/estimate.ts';
import { main } from '../../src/cli/main.ts';
import { OPEN_FILES } from '../../src/publish/open/index.ts';
import { keepingTerminal } from '../cli/terminal.ts';
import { beltSurvey } from '../helpers/base-survey.ts';
import { type Archive, readArchive } from '../helpers/darwin-archive.ts';
import { testFolder } from '../helpers/folder.ts';
import { hasGdal, runTool } from '../helpers/gdal.ts';

const room = testFolder();

/** One model, for speed. */
const CHOICES = {
  lake: 'Minnow <Pond> & "Bay"',
  density: { depth: 'none', transect_effect: false, family: 'poisson' },
};

function surveyFolder(name: string, change: (texts: Record<string, string>) => void = () => {}) {
  const path = join(room, name);
  mkdirSync(path);
  const texts: Record<string, string> = {
    ...beltSurvey(),
    'analysis.json': JSON.stringify(CHOICES),
  };
  change(texts);
  for (const [file, text] of Object.entries(texts)) writeFileSync(join(path, file), text);
  return path;
}

async function run(...argv: string[]) {
  const terminal = keepingTerminal();
  const code = await main(argv, terminal);
  return { code, stdout: terminal.stdout, stderr: terminal.stderr };
}

async function estimateOf(folder: string): Promise<Estimate> {
  const { code, stdout } = await run('estimate', folder, '--json');
  expect(code).toBe(0);
  return JSON.parse(stdout);
}

describe('open files', () => {
  const out = join(room, 'out');
  let folder: string;
  let done: Awaited<ReturnType<typeof run>>;
  let estimate: Estimate;
  let archive: Archive;
  beforeAll(async () => {
    // nothing was detected on T3; shells were planted, which not every survey does; a part of the lake is a candidate area
    folder = surveyFolder('lake', (texts) => {
      texts['detections.csv'] = texts['detections.csv'].replaceAll(/^T3,.*\n/gm, '');
      texts['planted_shells.csv'] = 'transect,planted,found_first,found_second_only\nT1,20,13,3\n';
      const [, gravel] = JSON.parse(texts['substrate.geojson']).features;
      gravel.properties = { name: 'Gravel & more' };
      texts['treatments.geojson'] = JSON.stringify({
        type: 'FeatureCollection',
        features: [gravel],
      });
    });
    done = await run(
      'export',
      folder,
      '--out',
      out,
      '--author',
      'Rivera, Ana',
      '--author',
      'Pond Watch',
      '--taxon',
      'Dreissena polymorpha',
      '--license',
      'CC-BY-4.0',
    );
    estimate = await estimateOf(folder);
    const zip = unzipSync(new Uint8Array(readFileSync(join(out, 'darwin-core.zip'))));
    archive = readArchive(
      new Map(Object.entries(zip).map(([name, bytes]) => [name, new TextDecoder().decode(bytes)])),
    );
  }, 120_000);

  const read = (name: string) => readFileSync(join(out, name), 'utf8');

  it('are written, with nothing to say beyond what the estimate says', () => {
    expect(done.code).toBe(0);
    expect(done.stderr).not.toMatch(/gpkg|tif|zip|cff|datapackage/);
    const own = readdirSync(folder);
    const made = ['datapackage.json', 'survey.gpkg', 'grid.tif', 'darwin-core.zip', 'citation.cff'];
    expect(readdirSync(out).sort()).toEqual([...own, ...made].sort());
    for (const name of readdirSync(out)) expect(OPEN_FILES).toContain(name);
    for (const line of done.stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('give the same estimate when the survey is rebuilt from them', async () => {
    expect(await estimateOf(out)).toEqual(estimate);
  });

  it('are listed in datapackage.json with their sizes and checksums', () => {
    const pack = JSON.parse(read('datapackage.json'));
    expect(pack.$schema).toBe('https://datapackage.org/profiles/2.0/datapackage.json');
    expect(pack.licenses).toEqual([{ name: 'CC-BY-4.0' }]);
    const others = readdirSync(out).filter((name) => name !== 'datapackage.json');
    expect(pack.resources.map((r: { path: string }) => r.path).sort()).toEqual(others.sort());
    for (const { path, bytes, hash, schema } of pack.resources) {
      const content = readFileSync(join(out, path));
      expect([path, bytes]).toEqual([path, content.length]);
      expect(hash).toBe(`sha256:${createHash('sha256').update(content).digest('hex')}`);
      expect([path, schema !== undefined]).toEqual([path, path.endsWith('.csv')]);
    }
    const detections = pack.resources.find((r: { name: string }) => r.name === 'detections').schema;
    expect(detections.foreignKeys).toEqual([
      { fields: ['transect'], reference: { resource: 'transects', fields: ['transect'] } },
    ]);
    const distance = detections.fields.find((f: { name: string }) => f.name === 'distance_m');
    expect(distance).toMatchObject({
      type: 'number',
      unit: 'metres',
      constraints: { required: true },
    });
    expect(distance.description).toContain('Unit: metres.');
  });

  it.skipIf(!hasGdal)(
    'have layers that GDAL reads without a warning, with the estimate’s numbers',
    () => {
      const path = join(out, 'survey.gpkg');
      const told = runTool('ogrinfo', ['-ro', '-so', '-al', path]);
      const counts = new Map(
        [...told.matchAll(/^Layer name: (\w+)[\s\S]*?^Feature Count: (\d+)/gm)].map(
          ([, layer, count]) => [layer, Number(count)],
        ),
      );
      const strata = estimate.strata ?? [];
      expect(Object.fromEntries(counts)).toEqual({
        detections: estimate.data.detections,
        transects: 3,
        segments: estimate.data.segments,
        areas: 1,
        strata: strata.length,
        substrate: 3,
        layer_styles: 7,
      });
      const rows = (sql: string) =>
        JSON.parse(
          runTool('ogr2ogr', ['-f', 'GeoJSON', '/vsistdout/', path, '-sql', sql]),
        ).features.map((f: { properties: Record<string, number> }) => f.properties);
      const inLayer = rows(
        'SELECT substrate, depth_from_m, area_m2, mussels_estimate FROM strata ORDER BY fid',
      );
      expect(inLayer).toEqual(
        strata.map((s) => ({
          substrate: s.substrate,
          depth_from_m: s.depth_from_m,
          area_m2: s.area_m2,
          mussels_estimate: s.mussels?.estimate ?? null,
        })),
      );
      // the polygons of the substrate map tile the lake: their numbers add to the total
      const [sum] = rows(
        'SELECT SUM(surveyed_m2) AS m2, SUM(mussels_estimate) AS mussels, SUM(1 - ST_IsValid(geom)) AS broken FROM substrate',
      );
      expect(sum.m2).toBeCloseTo(estimate.abundance?.area_m2 ?? 0, 3);
      expect(sum.mussels).toBeCloseTo(estimate.abundance?.mussels?.estimate ?? 0, 3);
      expect(sum.broken).toBe(0);
      const [area] = rows('SELECT name, mussels_estimate FROM areas');
      expect(area).toEqual({
        name: 'Gravel & more',
        mussels_estimate: estimate.treatments?.[0].mussels?.estimate,
      });
      // strata are drawn by whole cells, of 25 m²: as large as they are but for those at their edges
      const [drawn] = rows(
        'SELECT SUM(ST_Area(ST_Transform(geom, 3857))) AS m2, SUM(1 - ST_IsValid(geom)) AS broken FROM strata WHERE geom IS NOT NULL',
      );
      expect(drawn.m2 / 2 / (estimate.abundance?.area_m2 ?? 0)).toBeCloseTo(1, 1); // Mercator doubles areas at 45° N
      expect(drawn.broken).toBe(0);
    },
  );

  it.skipIf(!hasGdal)('have styles stored in them, the densities in seven classes', () => {
    const path = join(out, 'survey.gpkg');
    const told = runTool('ogr2ogr', ['-f', 'CSV', '/vsistdout/', path, 'layer_styles']);
    for (const layer of ['detections', 'transects', 'segments', 'areas', 'strata', 'substrate'])
      expect(told).toContain(`,${layer},geom,`);
    const one = JSON.parse(
      runTool('ogr2ogr', [
        '-f',
        'GeoJSON',
        '/vsistdout/',
        path,
        '-sql',
        "SELECT styleQML, styleSLD FROM layer_styles WHERE f_table_name = 'strata'",
      ]),
    ).features[0].properties;
    expect(one.styleQML.match(/<symbol /g)).toHaveLength(8); // and one for none
    expect(one.styleSLD.match(/<Rule>/g)).toHaveLength(8);
    const xml = new Map([
      ['q.xml', one.styleQML],
      ['s.xml', one.styleSLD],
    ]);
    expect(readArchive(xml).faults.filter((fault) => fault.includes('well-formed'))).toEqual([]);
  });

  it.skipIf(!hasGdal)('have a raster that GDAL takes for a cloud-optimised one', () => {
    const told = JSON.parse(runTool('gdalinfo', ['-json', join(out, 'grid.tif')]));
    expect(told.metadata.IMAGE_STRUCTURE.LAYOUT).toBe('COG');
    expect(told.bands.map((b: { description: string }) => b.description)[0]).toBe('mussels per m2');
  });

  it('hold a Darwin Core archive of published terms, each column mapped', () => {
    expect(archive.faults).toEqual([]);
  });

  it('have an event for the survey, each transect and each pass, and what was looked for where nothing was detected', () => {
    const events = archive.rows.Event;
    const ids = new Set(events.map((e) => e.eventID));
    expect(ids.size).toBe(events.length);
    expect(events.map((e) => e.eventType)).toEqual([
      'Survey',
      ...['Transect', 'Pass', 'Pass'],
      ...['Transect', 'Pass', 'Pass'],
      ...['Transect', 'Pass', 'Pass'],
    ]);
    for (const e of events) expect(e.parentEventID === '' || ids.has(e.parentEventID)).toBe(true);
    const inventory = archive.rows['eco:Event'];
    expect(inventory.map((i) => i.eventID)).toEqual(events.map((e) => e.eventID));
    const nothing = inventory.filter((i) => i.absentTaxa !== '').map((i) => i.eventID);
    expect(nothing.map((id) => id.split(':').slice(2).join(':'))).toEqual([
      'T3',
      'T3:primary',
      'T3:secondary',
    ]);
    for (const i of inventory) {
      expect(i).toMatchObject({
        targetTaxonomicScope: 'Dreissena polymorpha',
        isAbsenceReported: 'true',
        samplingEffortUnit: 'square metre searched by one observer',
      });
      expect(Number(i.samplingEffortValue)).toBeGreaterThan(0);
    }
  });

  it('have every count as recorded, and estimates elsewhere', () => {
    const found = archive.rows.Occurrence;
    expect(found).toHaveLength(estimate.data.detections);
    const mussels = found.reduce((sum, o) => sum + Number(o.individualCount), 0);
    expect(mussels).toBe(estimate.data.mussels_counted);
    const passes = new Set(
      archive.rows.Event.filter((e) => e.eventType === 'Pass').map((e) => e.eventID),
    );
    for (const o of found) expect(passes.has(o.eventID)).toBe(true);
    const measured = archive.rows.MeasurementOrFact;
    expect([...new Set(measured.map((m) => m.measurementType))].sort()).toEqual(
      [
        'depth',
        'estimated abundance of clusters',
        'estimated abundance of mussels',
        'plant cover',
        'substrate',
        'visibility',
      ].filter((type) => type !== 'visibility' || measured.some((m) => m.measurementType === type)),
    );
    const estimated = measured.filter((m) => m.measurementType.startsWith('estimated'));
    for (const m of estimated) expect(m.measurementMethod).toContain('not a count');
    expect(new Set(measured.map((m) => m.measurementID)).size).toBe(measured.length);
  });

  it('say how to cite them', () => {
    const lines = read('citation.cff').split('\n');
    for (const line of [
      'cff-version: 1.2.0',
      'type: dataset',
      '  - family-names: "Rivera"',
      '    given-names: "Ana"',
      '  - name: "Pond Watch"',
      'license: "CC-BY-4.0"',
      '    title: Shoalwise',
    ])
      expect(lines).toContain(line);
  });

  it('replace earlier ones, but nothing else', async () => {
    writeFileSync(join(out, 'mine.txt'), 'mine');
    const refused = await run('export', folder, '--out', out);
    expect(refused).toMatchObject({ code: 64, stdout: '' });
    expect(refused.stderr).toContain('"mine.txt"');
    rmSync(join(out, 'mine.txt'));
    const results = await run('estimate', folder, '--out', out);
    expect(results.code).toBe(64);
  });
});

describe('a survey without maps', () => {
  it('has no grid and no bed, and it is said; whom and which mussels it is of is not made up', async () => {
    const folder = surveyFolder('no-maps', (texts) => {
      for (const name of ['outline.geojson', 'substrate.geojson', 'depth.geojson'])
        delete texts[name];
    });
    const out = join(room, 'no-maps-out');
    const { code, stderr } = await run('export', folder, '--out', out);
    expect(code).toBe(0);
    expect(existsSync(join(out, 'grid.tif'))).toBe(false);
    for (const words of [
      'grid.tif: without the mapped bed',
      'nobody was named',
      'does not say which mussels',
      'no licence was named',
    ])
      expect(stderr).toContain(words);
    expect(readFileSync(join(out, 'citation.cff'), 'utf8')).toContain('name: "anonymous"');
    expect(JSON.parse(readFileSync(join(out, 'datapackage.json'), 'utf8'))).not.toHaveProperty(
      'licenses',
    );
    const zip = unzipSync(new Uint8Array(readFileSync(join(out, 'darwin-core.zip'))));
    const files = new Map(
      Object.entries(zip).map(([name, bytes]) => [name, new TextDecoder().decode(bytes)]),
    );
    const { faults, rows } = readArchive(files);
    expect(faults).toEqual([]);
    expect(new Set(rows.Occurrence.map((o) => `${o.scientificName}, ${o.taxonRank}`))).toEqual(
      new Set(['Bivalvia, class']),
    );
    expect(rows.MeasurementOrFact.some((m) => m.measurementType.startsWith('estimated'))).toBe(
      false,
    );
    if (hasGdal) {
      const layers = runTool('ogrinfo', ['-ro', '-q', join(out, 'survey.gpkg')]);
      expect(layers).not.toMatch(/strata|substrate|areas/);
    }
  }, 60_000);
});

describe('a wrong one', () => {
  it('writes nothing when the survey has errors', async () => {
    const folder = surveyFolder('wrong', (texts) => {
      texts['transects.csv'] = texts['transects.csv'].replace('belt', 'bolt');
    });
    const out = join(room, 'wrong-out');
    const { code, stderr } = await run('export', folder, '--out', out);
    expect(code).toBe(2);
    expect(stderr).toContain('"bolt"');
    expect(existsSync(out)).toBe(false);
  });

  it.each([
    [['--license', 'free for all'], '"free for all" is no name of a licence'],
    [['--author', ' '], '--author'],
    [['--taxon', 'a\nb'], '--taxon'],
  ])('is refused: %s', async (options, words) => {
    const { code, stderr } = await run('export', 'nowhere', '--out', join(room, 'x'), ...options);
    expect(code).toBe(64);
    expect(stderr).toContain(words);
  });
});
