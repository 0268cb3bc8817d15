/**
 * The demo lake as others would have it, written by GDAL and openpyxl, comes in from the command line and gives the demo
 * lake's number. What the files were made from is the owner of every expected value.
 */

import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { main } from '../../src/cli/main.ts';
import * as pipeline from '../../src/pipeline.ts';
import { keepingTerminal } from '../cli/terminal.ts';
import { testFolder } from '../helpers/folder.ts';
import { hasGdal } from '../helpers/gdal.ts';
import { hasOpenpyxl, writtenByOpenpyxl } from '../helpers/openpyxl.ts';

const DEMO = new URL('../../demo-lake/', import.meta.url).pathname;
const run = (tool: string, args: string[], input = '') => {
  const done = spawnSync(tool, args, { encoding: 'utf8', input });
  if (done.status !== 0) throw new Error(`${tool} ${args.join(' ')}: ${done.stderr}`);
};
const ready = hasGdal && hasOpenpyxl;

/** A workbook of the three tables: Excel's dates, no coordinates, other headers. */
const WORKBOOK = `
import csv
book.remove(sheet)
names = {'transect': 'Transect', 'primary': 'Primary diver', 'secondary': 'Secondary diver', 'date': 'Date',
         'length_m': 'Length (m)', 'depth_m': 'Depth (m)', 'distance_m': 'Distance (m)', 'count': 'Mussels'}
def cell(text):
    try: return float(text) if text.strip() else None
    except ValueError: pass
    try: return datetime.date.fromisoformat(text)
    except ValueError: return text
for table in ['transects', 'habitat', 'detections']:
    sheet = book.create_sheet(table.capitalize())
    rows = list(csv.reader(open(data + table + '.csv')))
    keep = [i for i, name in enumerate(rows[0]) if not name.endswith(('_lat', '_lon'))]
    sheet.append([names.get(rows[0][i], rows[0][i]) for i in keep])
    for row in rows[1:]:
        sheet.append([cell(row[i]) if rows[0][i].endswith(('_m', '_deg', '_cm', 'count', 'cover', 'date')) else row[i] or None for i in keep])
`;

async function command(...argv: string[]) {
  const terminal = keepingTerminal();
  const code = await main(['import', ...argv], terminal, pipeline);
  return { code, stdout: terminal.stdout, stderr: terminal.stderr };
}

/** Takes every proposal, as somebody does who agrees with all of them; other answers by identifier. */
async function agreed(
  files: string,
  into: string,
  others: Record<string, unknown> = {},
): Promise<void> {
  const list = `${into}-answers.json`;
  for (let round = 0; !existsSync(into) && round < 4; round++) {
    const known = existsSync(list) ? ['--answers', list] : [];
    const { code, stderr } = await command(
      files,
      '--into',
      into,
      ...known,
      '--write-answers',
      list,
    );
    if (code === 0) return;
    expect(stderr.split('\n').filter((text) => text !== '' && !text.startsWith('notice'))).toEqual(
      [],
    );
    const asked = JSON.parse(readFileSync(list, 'utf8'));
    for (const question of asked.questions) {
      const other = others[question.id];
      if (other === undefined) question.accept = question.answer === null;
      else question.answer = typeof other === 'object' ? { ...question.proposal, ...other } : other;
    }
    writeFileSync(list, JSON.stringify(asked));
  }
}

function filesIn(folder: string): Map<string, Uint8Array> {
  const names = readdirSync(folder).filter((name) => /\.(csv|geojson|tif)$/.test(name));
  return new Map(names.map((name) => [name, new Uint8Array(readFileSync(join(folder, name)))]));
}

/** One model, so that it is quick: which one matters little here. */
const CHOICES = {
  density: { depth: 'linear', family: 'nb1', transect_effect: false, plant_cover: 'none' },
  detection: { shape: 'half-normal', observer: false },
};

async function mussels(files: Map<string, Uint8Array>): Promise<number> {
  files.set('analysis.json', new TextEncoder().encode(JSON.stringify(CHOICES)));
  const done = await pipeline.estimateSurvey({ name: 'lake', files });
  if (!done.ok) throw new Error(done.findings.map(({ message }) => message).join('; '));
  return done.result.estimate.abundance!.mussels!.estimate;
}

interface Points {
  features: { properties: Record<string, number | string>; geometry: { coordinates: number[] } }[];
}

/** The vertices of every second contour, as soundings. */
function soundings(): Points['features'] {
  const contours = JSON.parse(readFileSync(join(DEMO, 'depth.geojson'), 'utf8'));
  return contours.features.flatMap(
    (line: { properties: { depth_m: number }; geometry: { coordinates: number[][] } }) =>
      line.geometry.coordinates.slice(0, 40).map((coordinates) => ({
        properties: line.properties,
        geometry: { coordinates },
      })),
  );
}

describe.skipIf(!ready)(
  'the demo lake in the files of others (needs gdal-bin, python3-openpyxl)',
  () => {
    const room = testFolder();
    const given = join(room, 'given');
    const into = join(room, 'lake');

    beforeAll(async () => {
      mkdirSync(given);
      const made = (name: string) => join(given, name);
      const source = (name: string) => join(DEMO, name);
      run('ogr2ogr', ['-t_srs', 'EPSG:26916', made('shore.shp'), source('outline.geojson')]);
      run('ogr2ogr', ['-t_srs', 'EPSG:2252', made('contours.shp'), source('depth.geojson')]);
      run('ogr2ogr', [
        '-f',
        'GPKG',
        '-t_srs',
        'EPSG:3070',
        made('bed.gpkg'),
        source('substrate.geojson'),
      ]);
      run('ogr2ogr', ['-f', 'KML', made('treatment.kml'), source('treatments.geojson')]);
      const [header, ...rows] = readFileSync(source('transects.csv'), 'utf8')
        .trim()
        .split('\n')
        .map((text) => text.split(','));
      const ends = rows.flatMap((cells) =>
        ['start', 'end'].flatMap((end) => {
          const [lat, lon] = [
            cells[header.indexOf(`${end}_lat`)],
            cells[header.indexOf(`${end}_lon`)],
          ];
          return lat === '' ? [] : [`"${cells[0]} ${end}",${lon},${lat}`];
        }),
      );
      const csv = join(room, 'waypoints.csv');
      writeFileSync(csv, `name,x,y\n${ends.join('\n')}\n`);
      const places = [
        '-oo',
        'X_POSSIBLE_NAMES=x',
        '-oo',
        'Y_POSSIBLE_NAMES=y',
        '-a_srs',
        'EPSG:4326',
      ];
      run('ogr2ogr', [
        '-f',
        'GPX',
        '-nlt',
        'POINT',
        '-nln',
        'waypoints',
        made('unit3.gpx'),
        csv,
        ...places,
      ]);
      writeFileSync(made('dives.xlsx'), writtenByOpenpyxl(WORKBOOK, DEMO));
      await agreed(given, into);
    });

    it('comes in: state plane in feet, UTM, EPSG:3070, KML, GPX and a workbook', () => {
      expect(readdirSync(into).sort()).toEqual([
        'depth.geojson',
        'detections.csv',
        'habitat.csv',
        'import.json',
        'outline.geojson',
        'substrate.geojson',
        'transects.csv',
        'treatments.geojson',
      ]);
    });

    // positions come back to 1e-9 degrees, a tenth of a millimetre: what is left is rounding
    it('with the number of the demo lake', async () => {
      const [own, imported] = [await mussels(filesIn(DEMO)), await mussels(filesIn(into))];
      expect(Math.abs(imported / own - 1)).toBeLessThan(1e-6);
    });

    it('next year under other names without a question', async () => {
      const later = join(room, 'given-2027');
      mkdirSync(later);
      // the order of the names is another one, too
      const names: Record<string, string> = {
        shore: 'water edge',
        contours: 'a survey of 2027',
        bed: 'z bottom',
        treatment: 'Bays 2027',
        unit3: 'boat',
        dives: 'Sheets (final)',
      };
      for (const name of readdirSync(given)) {
        const [stem, ending] = name.split('.');
        cpSync(join(given, name), join(later, `${names[stem]}.${ending}`));
      }
      const again = join(room, 'lake-2027');
      const { code, stdout } = await command(
        ...readdirSync(later).map((name) => join(later, name)),
        '--into',
        again,
        '--answers',
        join(into, 'import.json'),
      );
      expect(stdout).not.toContain('open');
      expect(code).toBe(0);
      for (const [name, bytes] of filesIn(into))
        expect(Buffer.compare(readFileSync(join(again, name)), bytes)).toBe(0);
    });

    it('with soundings in a CSV with decimal commas, each within a millimetre of its place', async () => {
      const folder = join(room, 'soundings');
      mkdirSync(folder);
      for (const name of ['transects.csv', 'habitat.csv', 'detections.csv', 'outline.geojson'])
        cpSync(join(DEMO, name), join(folder, name));
      const points = soundings();
      const comma = (value: number) => String(value).replace('.', ',');
      const lines = points.map(({ properties, geometry: { coordinates } }) =>
        [coordinates[1], coordinates[0], Number(properties.depth_m)].map(comma).join(';'),
      );
      writeFileSync(
        join(folder, 'sonar.csv'),
        `Latitude;Longitude;Depth (m)\n${lines.join('\n')}\n`,
      );
      const out = join(room, 'sounded');
      await agreed(folder, out, { 'substrate.breaks': 'no' });
      const { features }: Points = JSON.parse(readFileSync(join(out, 'depth.geojson'), 'utf8'));
      expect(features).toHaveLength(points.length);
      for (const [i, { properties, geometry }] of features.entries()) {
        expect(properties.depth_m).toBe(points[i].properties.depth_m);
        // 1e-8 degrees of latitude are 1.1 mm
        for (const axis of [0, 1])
          expect(
            Math.abs(geometry.coordinates[axis] - points[i].geometry.coordinates[axis]),
          ).toBeLessThan(1e-8);
      }
    });

    it('with a raster of depths in Web Mercator, cell by cell as GDAL wrote it', async () => {
      const folder = join(room, 'raster');
      mkdirSync(folder);
      for (const name of [
        'transects.csv',
        'habitat.csv',
        'detections.csv',
        'outline.geojson',
        'substrate.geojson',
      ])
        cpSync(join(DEMO, name), join(folder, name));
      const sonar = join(room, 'sonar.geojson');
      const collection = soundings().map((one) => ({
        type: 'Feature',
        properties: one.properties,
        geometry: { type: 'Point', coordinates: one.geometry.coordinates },
      }));
      writeFileSync(sonar, JSON.stringify({ type: 'FeatureCollection', features: collection }));
      const flat = join(room, 'flat.geojson');
      run('ogr2ogr', ['-t_srs', 'EPSG:3857', flat, sonar]);
      const [southUp, raster] = [join(room, 'south-up.tif'), join(folder, 'bathymetry.tif')];
      const grid = [
        '-zfield',
        'depth_m',
        '-a',
        'nearest',
        '-outsize',
        '120',
        '100',
        '-ot',
        'Float32',
      ];
      run('gdal_grid', [...grid, '-a_srs', 'EPSG:3857', flat, southUp]);
      run('gdalwarp', ['-q', southUp, raster]);
      const out = join(room, 'gridded');
      await agreed(folder, out, { 'depth.water_level': 0 });
      expect(Buffer.compare(readFileSync(join(out, 'depth.tif')), readFileSync(raster))).toBe(0);
    });
  },
);
