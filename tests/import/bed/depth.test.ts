/** Depth maps in anybody's numbers come back as depth in metres, positive down, and what cannot be known is asked. */

import { describe, expect, it } from 'vitest';
import type { RawGeometry, RawValue } from '../../../shared/importing.ts';
import { depthMap } from '../../../src/import/bed/index.ts';
import { readLake } from '../../../src/read/lake.ts';
import { asker, demoBytes, demoLayer, demoTables, layerOf } from './asking.ts';

/** International foot, exact by definition (yard and pound agreement of 1959). */
const FOOT = 0.3048;
const tables = demoTables();

/** The lake's depths as `read` has them: from the folder, and from what import wrote. */
async function depthsOf(bytes: Uint8Array) {
  const { lake } = await readLake(new Map([['depth.geojson', bytes]]), null);
  return lake.depth;
}

const guises: [
  string,
  (depthM: number) => Record<string, RawValue>,
  Record<string, number>,
  string,
][] = [
  ['feet to 0.01 ft', (d) => ({ FID: 3, CONTOUR: Number((d / FOOT).toFixed(2)) }), {}, 'ft'],
  ['negative metres', (d) => ({ DEPTH: -d }), {}, 'm-negative'],
  ['negative feet', (d) => ({ DEPTH_FT: -d / FOOT }), {}, 'ft-negative'],
  ['fathoms', (d) => ({ dep: d / (6 * FOOT) }), {}, 'fathom'],
  ['metres under another name', (d) => ({ Isobath: d }), {}, 'm'],
  ['elevations in metres', (d) => ({ ELEV: 247.3 - d }), { 'depth.level': 247.3 }, 'm-elevation'],
  [
    'elevations in feet',
    (d) => ({ elev: (247.3 - d) / FOOT }),
    { 'depth.level': 247.3 / FOOT },
    'ft-elevation',
  ],
  ['text with its unit', (d) => ({ label: `${(d / FOOT).toFixed(2)} ft` }), {}, 'unasked'],
  [
    'text with a decimal comma',
    (d) => ({ Tiefe: `${d.toFixed(1).replace('.', ',')} m` }),
    {},
    'unasked',
  ],
];

describe('the demo lake in other guises has the same depths', () => {
  it.each(guises)('%s', async (_, disguise, answers, meaning) => {
    const { ask, asked } = asker({ ...answers, 'depth.water_level': 0 });
    const layer = demoLayer('depth.geojson', (p) => disguise(Number(p.depth_m)));
    const made = depthMap([layer], [], tables, null, ask);
    const unit = asked.find((q) => q.id === 'depth.unit');
    if (meaning === 'unasked') expect(unit).toBeUndefined();
    else expect(unit?.proposal).toBe(meaning);
    expect(made.findings).toEqual([]);
    expect(await depthsOf(made.file!.bytes)).toEqual(await depthsOf(demoBytes('depth.geojson')));
  });

  it('and our own file passes without a question', async () => {
    const { ask, asked } = asker();
    const made = depthMap([demoLayer('depth.geojson')], [], tables, null, ask);
    expect(asked).toEqual([]);
    expect(await depthsOf(made.file!.bytes)).toEqual(await depthsOf(demoBytes('depth.geojson')));
  });
});

describe('what is measured stands in the evidence', () => {
  it('the ratio of a map in feet is 3.28 within the divers’ own error', () => {
    const { ask, asked } = asker();
    depthMap(
      [demoLayer('depth.geojson', (p) => ({ CONTOUR: Number(p.depth_m) / FOOT }))],
      [],
      tables,
      null,
      ask,
    );
    const question = asked.find((q) => q.id === 'depth.unit')!;
    const ratio = Number(/are (\d\.\d\d) times/.exec(question.evidence.join(' '))![1]);
    // depths are read to 0.1 m and transects placed within some metres: a slope over 6 m of depth is good to a tenth
    expect(Math.abs(ratio / (1 / FOOT) - 1)).toBeLessThan(0.1);
    expect(question.pictures[0]).toMatchObject({ kind: 'scatter' });
  });

  it('the proposed lake level is the one that the elevations were made with', () => {
    const { ask, asked } = asker();
    depthMap(
      [demoLayer('depth.geojson', (p) => ({ ELEV: 247.3 - Number(p.depth_m) }))],
      [],
      tables,
      null,
      ask,
    );
    const level = asked.find((q) => q.id === 'depth.level')!;
    // the divers' own depths are 0.1 m steps
    expect(Math.abs((level.proposal as number) - 247.3)).toBeLessThan(0.1);
  });

  it('a lower water level on the day of the map is proposed, and added to every depth', () => {
    const { ask, asked } = asker();
    const layer = demoLayer('depth.geojson', (p) => ({ Depth: Number(p.depth_m) - 0.8 }));
    const made = depthMap([layer], [], tables, null, ask);
    const question = asked.find((q) => q.id === 'depth.water_level')!;
    expect(question).toMatchObject({ proposal: 0.8, certain: false });
    expect(depthsWritten(made.file!.bytes)).toEqual(
      demoLayer('depth.geojson').features.map((f) => f.properties.depth_m),
    );
  });

  it('no water level is proposed that no lake reaches', () => {
    const { ask, asked } = asker({ 'depth.unit': 'm' });
    // read as metres in spite of the proposal: numbers 100 times too large
    const layer = demoLayer('depth.geojson', (p) => ({ Depth: 100 * Number(p.depth_m) }));
    depthMap([layer], [], tables, null, ask);
    const question = asked.find((q) => q.id === 'depth.water_level');
    expect(question).toMatchObject({ proposal: 0, certain: false });
    expect(question?.evidence.join(' ')).toContain('No lake rises so far');
  });

  it('where the difference is noise 0 is proposed', () => {
    const { ask, asked } = asker();
    depthMap(
      [demoLayer('depth.geojson', (p) => ({ Depth: Number(p.depth_m) }))],
      [],
      tables,
      null,
      ask,
    );
    expect(asked.find((q) => q.id === 'depth.water_level')).toMatchObject({
      proposal: 0,
      certain: true,
    });
  });
});

describe('which property is the depth', () => {
  const point: RawGeometry = { type: 'Point', coordinates: [0, 0] };
  const nobody = { transects: [], habitat: [], detections: [], planted_shells: [] };

  it('is asked when several could be, with what each holds', () => {
    const { ask, asked } = asker({ 'depth.property': 'D1', 'depth.unit': 'm' });
    const layer = layerOf([[point, { OBJECTID: 1, D1: 2.5, D2: 9 }]]);
    const made = depthMap([layer], [], nobody, null, ask);
    expect(asked[0]).toMatchObject({ id: 'depth.property', proposal: null, certain: false });
    expect(asked[0].evidence).toHaveLength(2);
    expect(depthsWritten(made.file!.bytes)).toEqual([2.5]);
  });

  it('identifiers, lengths and areas of a GIS are no depths beside one that is', () => {
    const { ask, asked } = asker({ 'depth.unit': 'ft' });
    const layer = layerOf([[point, { OBJECTID: 1, Shape_Leng: 7, CONTOUR: 10, ELEVTYPE: 'x' }]]);
    const made = depthMap([layer], [], nobody, null, ask);
    expect(asked.map((q) => q.id)).toEqual(['depth.unit']);
    expect(depthsWritten(made.file!.bytes)).toEqual([3.05]); // 10 × 0.3048 = 3.048
  });

  it('without divers and without a name that tells the unit nothing is proposed and nothing made', () => {
    const { ask, asked } = asker();
    const made = depthMap([layerOf([[point, { CONTOUR: 10 }]])], [], nobody, null, ask);
    expect(asked[0]).toMatchObject({ id: 'depth.unit', proposal: null });
    expect(made.file).toBeNull();
  });

  it('values that are no depth are left out, each with its row', () => {
    const { ask } = asker({ 'depth.unit': 'm' });
    const values = ['3.5', '<1', '20+', 'lots', '', '1,234', '2-4', '4', '5', '6 m', '7,5', '8'];
    const layer = layerOf(
      values.map((depth) => [point, { depth }]),
      { file: 'soundings.csv', from: 'table' },
    );
    const made = depthMap([layer], [], nobody, null, ask);
    expect(depthsWritten(made.file!.bytes)).toEqual([3.5, 4, 5, 6, 7.5, 8]);
    expect(made.findings.filter((f) => f.code === 'depth-unreadable').map((f) => f.row)).toEqual([
      2, 3, 4, 6, 7,
    ]);
    expect(made.findings.find((f) => f.code === 'depth-blank')?.message).toContain('1 of 12');
  });

  it('land above the water is left out and counted; when nothing is left that is an error', () => {
    const layer = () =>
      layerOf([
        [point, { elev: 240 }],
        [point, { elev: 260 }],
      ]);
    const some = depthMap(
      [layer()],
      [],
      nobody,
      null,
      asker({ 'depth.unit': 'm-elevation', 'depth.level': 250 }).ask,
    );
    expect(depthsWritten(some.file!.bytes)).toEqual([10]);
    expect(some.remarks.join(' ')).toContain('1 of 2 features lie above the water');
    const none = depthMap(
      [layer()],
      [],
      nobody,
      null,
      asker({ 'depth.unit': 'm-elevation', 'depth.level': 200 }).ask,
    );
    expect(none.file).toBeNull();
    expect(none.findings).toMatchObject([{ severity: 'error', code: 'no-depth-below-water' }]);
  });

  it('polygons that name a range lie at its shallow end', () => {
    const square: RawGeometry = {
      type: 'Polygon',
      coordinates: [
        [
          [0, 0],
          [1, 0],
          [1, 1],
          [0, 0],
        ],
      ],
    };
    const layer = layerOf([[square, { RANGE: '5-10 ft' }]]);
    const made = depthMap([layer], [], nobody, null, asker().ask);
    expect(depthsWritten(made.file!.bytes)).toEqual([1.52]); // 5 × 0.3048 = 1.524
  });
});

function depthsWritten(bytes: Uint8Array): number[] {
  const { features } = JSON.parse(new TextDecoder().decode(bytes)) as {
    features: { properties: { depth_m: number } }[];
  };
  return features.map((f) => f.properties.depth_m);
}
