/**
 * Files whose values ask for work without a bound: each is refused, or read, in the time of any other survey. Smallest
 * cases of what once took minutes, all memory, or ended as an error of the program. No time is asserted but a watchdog.
 */

import { describe, expect, it } from 'vitest';
import { formatFinding } from '../../shared/findings.ts';
import { type Folder, judge } from '../../src/pipeline.ts';
import { baseSurvey, type Texts, toFolder } from '../helpers/base-survey.ts';
import { all, type Bend, setCell, setFile } from '../helpers/bend.ts';
import { rasterSurvey, wideRaster } from '../helpers/raster-survey.ts';
import { A, D, H, T } from './cases.ts';

const WATCHDOG_MS = 60_000;
const OUTLINE = 'outline.geojson';
const SUBSTRATE = 'substrate.geojson';
const DEPTH = 'depth.geojson';
const TREATMENTS = 'treatments.geojson';

async function told(folder: Folder): Promise<string[]> {
  return (await judge(folder)).findings.map(formatFinding);
}

async function errors(folder: Folder): Promise<string[]> {
  return (await told(folder)).filter((line) => !line.startsWith('notice:'));
}

function bent(...bends: Bend[]): Folder {
  const texts = baseSurvey();
  all(...bends)(texts);
  return toFolder(texts);
}

interface Feature {
  properties: Record<string, unknown>;
  geometry: { type: string; coordinates: number[][] | number[][][] };
}

/** Changes the features of a map. */
function features(file: string, change: (list: Feature[]) => Feature[]): Bend {
  return (texts: Texts) => {
    const map = JSON.parse(texts[file] ?? '') as { features: Feature[] };
    map.features = change(map.features);
    texts[file] = JSON.stringify(map);
  };
}

/** Puts another position in the place of the second vertex of the first feature. */
const vertex = (file: string, position: number[]): Bend =>
  features(file, (list) => {
    const coordinates = list[0]?.geometry.coordinates ?? [];
    const line = (file === DEPTH ? coordinates : coordinates[0]) as number[][];
    line[1] = position;
    return list;
  });

const fortyTimes = (file: string): Bend =>
  features(file, (list) => Array.from({ length: 40 }, () => list[0] as Feature));

const depthOf = (depthM: unknown): Bend =>
  features(DEPTH, (list) => {
    (list[0] as Feature).properties.depth_m = depthM;
    return list;
  });

const CASES: [name: string, folder: () => Folder, expected: RegExp][] = [
  [
    'cells of 0.1 mm',
    () => bent(setFile(A, '{ "map": { "cell_m": 0.0001 } }')),
    /^analysis.json, map.cell_m: 0.0001 gives a grid of more than 1000000000000 cells around the outline, which is 0.315 km wide and 0.333 km high \(at most 50 million cells expected; 0.047 would do\)$/,
  ],
  [
    'cells of 5e-324 m',
    () => bent(setFile(A, '{ "map": { "cell_m": 5e-324 } }')),
    /^analysis.json, map.cell_m: 5e-324 gives a grid of more than 1000000000000 cells/,
  ],
  [
    'cells of 5e-324 m with treatment areas, which are not counted then',
    () =>
      bent((texts) => {
        setFile(A, '{ "map": { "cell_m": 5e-324 } }')(texts);
        const outline = JSON.parse(texts[OUTLINE] ?? '');
        const [{ geometry }] = outline.features;
        const area = { type: 'Feature', properties: { name: 'all' }, geometry };
        texts['treatments.geojson'] = JSON.stringify({
          type: 'FeatureCollection',
          features: [area],
        });
      }),
    /^analysis.json, map.cell_m: 5e-324 gives a grid of more than 1000000000000 cells[^\n]*$/,
  ],
  [
    'cells of 1e300 m',
    () => bent(setFile(A, '{ "map": { "cell_m": 1e300 } }')),
    /^analysis.json, map.cell_m: 1e\+300 is out of range \(a number of metres above 0 and at most 10,000 expected\)$/,
  ],
  [
    'a vertex of a contour that lost a digit',
    () => bent(vertex(DEPTH, [-9.2, 45.001])),
    /^depth.geojson feature 1: vertex 2 at -9.2, 45.001 lies [\d,]+ km from its neighbours \(at most 100 km expected; was a digit lost\?\)$/,
  ],
  [
    'a vertex of a contour at 0°, 0°',
    () => bent(vertex(DEPTH, [0, 0])),
    /^depth.geojson feature 1: vertex 2 at 0, 0 lies [\d,]+ km from its neighbours/,
  ],
  [
    'a vertex of the outline that lost a digit',
    () => bent(vertex(OUTLINE, [-93, 4.5])),
    /^outline.geojson feature 1: vertex 2 at -93, 4.5 lies 4,496 km from its neighbours/,
  ],
  [
    'a vertex of the outline at 0°, 0°',
    () => bent(vertex(OUTLINE, [0, 0])),
    /^outline.geojson feature 1: vertex 2 at 0, 0 lies [\d,]+ km from its neighbours/,
  ],
  [
    'a contour at 1,000 km of depth',
    () => bent(depthOf(1e6)),
    /^depth.geojson feature 1, depth_m: 1000000 is deeper than any lake \(at most 1,642 metres expected/,
  ],
  [
    'a contour at 1e308 m',
    () => bent(depthOf('1e308')),
    /^depth.geojson feature 1, depth_m: 1e\+308 is deeper than any lake/,
  ],
  [
    'the outline forty times',
    () => bent(fortyTimes(OUTLINE)),
    /^outline.geojson feature 2: one of its polygons overlaps another polygon of the outline by /,
  ],
  [
    'treatment areas that cover the lake over and over',
    () =>
      bent(
        setFile(A, '{ "map": { "cell_m": 0.1 } }'),
        (texts) => setFile(TREATMENTS, texts[OUTLINE] ?? '')(texts),
        features(TREATMENTS, (list) =>
          [1, 2, 3].map((k) => ({ ...(list[0] as Feature), properties: { name: `area ${k}` } })),
        ),
      ),
    // by hand: 3 × 3,150 × 3,330 cells and a few at the borders
    /^treatments.geojson: the areas reach over 31,[\d,]+ cells of 0.1 m in all \(at most 25 million expected; /,
  ],
  [
    'more treatment areas than a lake has',
    () =>
      bent((texts) => {
        const geometry = `{"type":"Polygon","coordinates":[[[-93,45],[-92.9999,45],[-92.9999,45.0001],[-93,45]]]}`;
        const areas = Array.from(
          { length: 5001 },
          (_, k) => `{"type":"Feature","properties":{"name":"${k}"},"geometry":${geometry}}`,
        );
        texts[TREATMENTS] = `{"type":"FeatureCollection","features":[${areas.join()}]}`;
      }),
    /^treatments.geojson: 5,001 areas \(at most 5,000 expected/,
  ],
  [
    'a polygon of substrate forty times',
    () => bent(fortyTimes(SUBSTRATE)),
    /^substrate.geojson feature 2: overlaps feature 1 by /,
  ],
  [
    'a depth of 1e308 on a sheet',
    () => bent(setCell(H, 4, 'depth_m', '1e308')),
    /^habitat.csv row 4, depth_m: 1e308 is above 1,642/,
  ],
  [
    'a class that is a deep list',
    () =>
      bent((texts) => {
        const deep = `${'['.repeat(100_000)}${']'.repeat(100_000)}`;
        texts[SUBSTRATE] = (texts[SUBSTRATE] ?? '').replace('"sand"', deep);
      }),
    /^substrate.geojson feature 1, substrate: unknown substrate "a list"/,
  ],
];

describe('is refused with one finding', () => {
  it.each(CASES)(
    '%s',
    async (_, folder, expected) => {
      const lines = await errors(folder());
      expect(lines).toContainEqual(expect.stringMatching(expected));
      expect(lines.join('\n')).not.toMatch(/NaN|Infinity|undefined|\[object/);
      expect(new Set(lines.map((line) => line.split(/[ ,:]/)[0])).size).toBe(1);
    },
    WATCHDOG_MS,
  );
});

describe('the first habitat row of a transect with an error', () => {
  const others = all(setCell(T, 6, 'date', '2025-02-30'), setCell(D, 3, 'count', '0'));
  const lines = [
    'transects.csv row 6, date: "2025-02-30" is not a day of the calendar (YYYY-MM-DD expected)',
    'detections.csv row 3, count: 0 is below 1 (1 or more mussels expected)',
  ];

  it.each([
    ['an unknown label', 'T22', 'habitat.csv row 2, transect: unknown transect "T22"'],
    ['no label', '', 'habitat.csv row 2, transect: blank, but required'],
  ])('%s hides no other', async (_, label, expected) => {
    const found = await errors(bent(setCell(H, 2, 'transect', label), others));
    expect(found).toHaveLength(3);
    expect(found).toEqual(expect.arrayContaining(lines));
    expect(found.filter((line) => line.startsWith(expected))).toHaveLength(1);
  });
});

describe('a depth raster', () => {
  it.each([9999, 32_767, 99_999, 1e20, 3.4e38])(
    'takes %d for no data, and says so',
    async (value) => {
      const { findings, prepared } = await judge(rasterSurvey((c, r) => (r === 3 ? value : c / 2)));
      const lines = findings.map(formatFinding).filter((line) => line.includes('depth.tif'));
      expect(lines).toHaveLength(1);
      expect(lines[0]).toMatch(
        /^notice: depth.tif: 80 of 6400 cells hold [\d.]+(e\+\d+)?, deeper than any lake \(at most 1,642 m\): taken as no data, which the file does not declare$/,
      );
      expect(prepared).not.toBeNull();
    },
  );

  it('is refused with depths that no lake has', async () => {
    expect(await errors(rasterSurvey((c) => 1000 * c))).toEqual([
      'depth.tif: 6240 of 6400 cells are deeper than any lake (at most 1,642 m), the deepest 79000 (depth in metres expected; are these elevations, or no-data that is not declared?)',
    ]);
  });

  it('is refused where none of the lake lies on it, and says where which corner is', async () => {
    const [line] = await errors(rasterSurvey(undefined, { lon0: -92.9, lat0: 45.0015 }));
    // by hand: 200 m north and south are 0.0018°, 157.5 m west 0.0020° and 242.5 m east 0.0031° (78,850 m a degree)
    expect(line).toContain(
      'depth.tif: no part of the lake lies on the raster: its upper left corner is at latitude and longitude 45.0033, -92.9020, its lower right corner at 44.9997, -92.8969; the outline reaches from 45.0000, -93.0000 to ',
    );
  });

  const withRaster = (bytes: Uint8Array): Folder => {
    const folder = rasterSurvey();
    folder.files.set('depth.tif', bytes);
    return folder;
  };

  it.each([
    ['strips of a fraction of a row', [278, 12, [1e-300]], 'whole numbers from 1'],
    ['more strips than places', [257, 4, [60]], 'the places of 50 blocks are given'],
    ['one strip of everything', [278, 4, [2 ** 31]], null],
    ['cells of 1,000 bits', [258, 3, [1000]], 'at most 64 bits'],
  ] as const)('with %s is judged by its sizes first', async (_, tag, says) => {
    const [number, type, values] = tag;
    const lines = await errors(withRaster(wideRaster(50, 0.001, [[number, type, [...values]]])));
    if (says === null) expect(lines.length).toBeLessThanOrEqual(1);
    else expect(lines[0]).toContain(says);
  });

  it('with a tag of packing that holds a list of letters is refused without a number that is none', async () => {
    const bytes = wideRaster(50, 0.001);
    const view = new DataView(bytes.buffer);
    const directory = view.getUint32(4, true);
    view.setUint16(directory + 2 + 12 * 3 + 2, 2, true);
    expect(await errors(withRaster(bytes))).toEqual([
      'depth.tif: not a GeoTIFF that can be read (packed in a way that is not read, ? (deflate, LZW, PackBits or none expected; GIS software writes it anew))',
    ]);
  });

  it('with keys that its reader does not know is refused in words', async () => {
    const keys = [1, 1, 0, 1, 9999, 34_737, 1, 0];
    const lines = await errors(withRaster(wideRaster(50, 0.001, [[34735, 3, keys]])));
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(/^depth.tif: /);
    expect(lines[0]).not.toMatch(/undefined|NaN|null|\[object/);
  });

  it('with a tag of more values than the file has bytes is refused', async () => {
    const bytes = wideRaster(50, 0.001);
    const view = new DataView(bytes.buffer);
    const directory = view.getUint32(4, true);
    view.setUint32(directory + 2 + 12 * 5 + 4, 2 ** 31, true);
    expect(await errors(withRaster(bytes))).toEqual([
      'depth.tif: not a GeoTIFF that can be read (tag 273 has 2,147,483,648 values, more than the file can hold)',
    ]);
  });

  it(
    'of 20,000 × 20,000 cells is read around the lake alone',
    async () => {
      // 2e-6 degrees are 0.2 m: the lake of 315 × 333 m takes some 2,000 × 1,500 cells
      const { read, prepared } = await judge(withRaster(wideRaster(20_000, 2e-6)));
      const { depth } = read.lake;
      expect(prepared).not.toBeNull();
      expect(depth?.kind === 'raster' && depth.width * depth.height).toBeLessThan(10e6);
    },
    WATCHDOG_MS,
  );

  it('of which too many cells lie around the lake is refused', async () => {
    expect(
      await errors(
        withRaster(wideRaster(20_000, 4e-7, [[33922, 12, [0, 0, 0, -93.001, 45.0035, 0]]])),
      ),
    ).toEqual([
      expect.stringMatching(
        /^depth.tif: [\d,]+ × [\d,]+ cells lie around the lake \(at most 50 million expected/,
      ),
    ]);
  });
});
