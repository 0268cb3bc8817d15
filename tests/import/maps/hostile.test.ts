/** Files that are broken or made to harm: one error that names the file and what is wrong with it, and never a throw. */

import { deflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import type { GivenFile } from '../../../shared/importing.ts';
import { readMapFiles, unpack } from '../../../src/import/maps/index.ts';
import { hasForeignMaps, ogrFiles } from '../../helpers/foreign-maps.ts';
import { zipOf } from '../../helpers/zips.ts';

const text = (name: string, content: string): GivenFile => ({
  name,
  bytes: new TextEncoder().encode(content),
});

async function told(files: GivenFile[]): Promise<string[]> {
  const { findings } = await readMapFiles(files);
  return findings.map(({ severity, table, message }) => `${severity} ${table}: ${message}`);
}

describe('zips', () => {
  const zipTold = (bytes: Uint8Array) => {
    const { files, findings } = unpack([{ name: 'maps.zip', bytes }]);
    return [files.length, findings.map((f) => f.message).join('; ')];
  };

  it('a bomb is refused by what its list says, and by what it unpacks to when the list lies', () => {
    const zeros = new Uint8Array(30_000_000);
    expect(deflateRawSync(zeros).length).toBeLessThan(100_000);
    expect(zipTold(zipOf([{ name: 'a.shp', content: zeros }]))).toEqual([
      0,
      expect.stringContaining('more than 200 times'),
    ]);
    const lies = zipOf([{ name: 'a.shp', content: zeros, says: { size: 1000 } }]);
    expect(zipTold(lies)).toEqual([0, expect.stringContaining('more than its list of files says')]);
  });

  it('many files, paths that lead out, passwords, damage, and a zip in a zip in a zip', () => {
    const content = new TextEncoder().encode('some text');
    const many = zipOf(Array.from({ length: 6000 }, (_, i) => ({ name: `${i}.txt`, content })));
    expect(zipTold(many)).toEqual([0, expect.stringContaining('more than 5,000 files')]);
    for (const name of ['../x.shp', '/etc/x', 'C:\\x.shp', 'a/../../x'])
      expect(zipTold(zipOf([{ name, content }]))).toEqual([
        0,
        expect.stringContaining('leads out'),
      ]);
    expect(zipTold(zipOf([{ name: 'a.shp', content, says: { flags: 1 } }]))).toEqual([
      0,
      expect.stringContaining('password'),
    ]);
    expect(zipTold(zipOf([{ name: 'a.shp', content, says: { crc: 1 } }]))).toEqual([
      0,
      expect.stringContaining('checksum'),
    ]);
    expect(zipTold(zipOf([{ name: 'a.shp', content }]).subarray(0, 60))).toEqual([
      0,
      expect.stringContaining('cut off'),
    ]);
    const once = zipOf([{ name: 'a.txt', content }]);
    const twice = zipOf([{ name: 'inner.zip', content: once }]);
    expect(zipTold(twice)).toEqual([1, '']);
    expect(zipTold(zipOf([{ name: 'outer.zip', content: twice }]))).toEqual([
      0,
      expect.stringContaining('within a zip within a zip'),
    ]);
  });

  it('a workbook stays whole', () => {
    const bytes = zipOf([
      { name: '[Content_Types].xml', content: new TextEncoder().encode('<Types/>') },
    ]);
    expect(unpack([{ name: 'sheets', bytes }]).files).toEqual([{ name: 'sheets', bytes }]);
  });
});

describe('maps', () => {
  it('a SQLite database that is no GeoPackage, one that is cut off, and noise under its name', async () => {
    const { default: start } = await import('sql.js/dist/sql-wasm-inline.js');
    const database = new (await start()).Database();
    database.run('CREATE TABLE t (a); INSERT INTO t VALUES (1)');
    const bytes = database.export();
    database.close();
    expect(await told([{ name: 'a.gpkg', bytes }])).toEqual([
      expect.stringMatching(/^error a\.gpkg: .*no GeoPackage/),
    ]);
    expect(await told([{ name: 'a.gpkg', bytes: bytes.subarray(0, 700) }])).toEqual([
      expect.stringMatching(/^error a\.gpkg: /),
    ]);
    expect(await told([text('b.gpkg', 'noise')])).toEqual([
      expect.stringMatching(/^error b\.gpkg: not what its name says/),
    ]);
  });

  it('KML whose entities grow without end, KML that is cut off, GPX of another root', async () => {
    const bomb = `<?xml version="1.0"?><!DOCTYPE k [<!ENTITY a "aaaaaaaaaa">${Array.from({ length: 9 }, (_, i) => `<!ENTITY a${i} "${`&a${i === 0 ? '' : i - 1};`.repeat(10)}">`).join('')}]><kml><name>&a8;</name></kml>`;
    expect(await told([text('a.kml', bomb)])).toEqual([
      expect.stringContaining('entities of its own'),
    ]);
    expect(await told([text('b.kml', '<kml><Document><Placemark><name>x')])).toEqual([
      expect.stringMatching(/^error b\.kml: not sound XML/),
    ]);
    expect(await told([text('c.kml', '<html></html>')])).toEqual([
      expect.stringContaining('root is <html>'),
    ]);
  });

  it('GeoJSON that is cut off, of another kind, and without shapes', async () => {
    expect(await told([text('a.geojson', '{"type":"FeatureCollection","features":[{')])).toEqual([
      expect.stringContaining('cut off'),
    ]);
    expect(await told([text('b.geojson', '{"type":"Topology"}')])).toEqual([
      expect.stringContaining('TopoJSON'),
    ]);
    expect(
      await told([
        text(
          'c.geojson',
          '{"type":"FeatureCollection","features":[{"type":"Feature","properties":null,"geometry":null}]}',
        ),
      ]),
    ).toEqual([
      expect.stringContaining('have no geometry'),
      expect.stringContaining('holds no shape'),
    ]);
    const deep = `${'{"type":"GeometryCollection","geometries":['.repeat(50)}${']}'.repeat(50)}`;
    expect(await told([text('d.geojson', deep)])).toEqual([
      expect.stringContaining('no geometry'),
      expect.stringContaining('holds no shape'),
    ]);
  });

  it('a TIFF of nothing, parts of a shapefile without shapes, other formats', async () => {
    expect(
      await told([{ name: 'a.tif', bytes: Uint8Array.from([0x49, 0x49, 42, 0, 8, 0, 0, 0]) }]),
    ).toEqual([expect.stringContaining('not a GeoTIFF')]);
    expect(await told([text('lake.dbf', 'x'), text('lake.prj', 'y')])).toEqual([
      expect.stringMatching(/^error lake\.shp: missing, but its \.dbf and \.prj were given/),
    ]);
    expect(await told([text('lake.dwg', 'x')])).toEqual([expect.stringContaining('a drawing')]);
  });
});

describe.skipIf(!hasForeignMaps)('shapefiles', () => {
  const parts = () => ogrFiles('outline.geojson', 'outline.shp', ['-t_srs', 'EPSG:26916']);
  const changed = (ending: string, change: (bytes: Uint8Array) => Uint8Array) =>
    parts().map((file) =>
      file.name.endsWith(ending) ? { ...file, bytes: change(file.bytes) } : file,
    );

  it('cut off at any length: told or read, never thrown', async () => {
    const whole = parts().find(({ name }) => name.endsWith('.shp'))!.bytes;
    for (let length = 0; length < whole.length; length += 97) {
      const lines = await told(changed('.shp', (bytes) => bytes.subarray(0, length)));
      expect(
        lines.some((line) => line.startsWith('error outline.shp: ')),
        `${length}`,
      ).toBe(true);
    }
  });

  it('counts that ask for more than there is', async () => {
    const lines = await told(
      changed('.shp', (bytes) => {
        const copy = Uint8Array.from(bytes);
        new DataView(copy.buffer).setInt32(100 + 8 + 40, 1_000_000_000, true);
        return copy;
      }),
    );
    expect(lines).toEqual([
      expect.stringMatching(/^error outline\.shp: shape 1 tells of 1,000,000,000 positions/),
    ]);
  });

  it('without .dbf and .prj, with a .dbf of other rows, with a .prj of garbage', async () => {
    const { layers } = await readMapFiles(parts().filter(({ name }) => !/\.(dbf|prj)$/.test(name)));
    expect(layers[0].crs).toEqual({ kind: 'none' });
    expect(layers[0].remarks.length).toBe(2);
    expect(await told(changed('.dbf', (bytes) => bytes.subarray(0, 40)))).toEqual([
      expect.stringContaining('taken without values'),
    ]);
    const garbage = await readMapFiles(
      changed('.prj', () => new TextEncoder().encode('%%% no system')),
    );
    expect(garbage.layers[0].crs.kind).toBe('wkt');
  });
});
