/** What goes wrong on sheets: each is refused with its cell, or asked about with a proposed reading; expected values by hand. */

import { describe, expect, it } from 'vitest';
import { comeIn, utf8 } from './disguised.ts';

const DIVES = `transect,date,design,primary,secondary,start_lat,start_lon,bearing_deg,length_m
T1,2026-06-29,belt,Ann,Ben,44.41,-84.95,10,30
T2,2026-06-30,distance,Ben,,44.42,-84.96,20,30
`;
const FOUND = `transect,role,distance_m,offset_m,count
T1,primary,3,,2
`;

const said = (
  found: { table: string; row: number | null; column: string | null; message: string }[],
) => found.map(({ table, row, column, message }) => `${table} ${row} ${column}: ${message}`);

describe('cells that a person has to decide about', () => {
  it.each([
    [
      'T1,primary,3,,20+',
      'found.csv 2 count: "20+" is not a number (a whole number of mussels expected); one number is needed, the best that is known',
    ],
    [
      'T1,primary,3,,lots',
      'found.csv 2 count: "lots" is not a number (a whole number of mussels expected)',
    ],
    ['T1,primary,~3,,1', 'found.csv 2 distance_m: "~3" is not a number (metres expected)'],
    ['T1,primary,3,#N/A!,1', 'found.csv 2 offset_m: "#N/A!" is not a number (metres expected)'],
  ])('%s', async (row, message) => {
    const { outcome } = await comeIn({
      'found.csv': utf8(`transect,role,distance_m,offset_m,count\n${row}\n`),
    });
    expect(said(outcome.findings)).toEqual([message]);
    expect(outcome.findings[0].severity).toBe('error');
  });

  it('a day that is in no calendar, a time of 75 seconds, a latitude with an E', async () => {
    const text = DIVES.replace('2026-06-30', '31 Feb 2026')
      .replace('44.42', '44.42 E')
      .replace('length_m', 'length_m,search_min')
      .replace(/30$/gm, '30,4:75');
    const { outcome } = await comeIn({ 'd.csv': utf8(text) });
    expect(said(outcome.findings).toSorted()).toEqual([
      'd.csv 2 search_min: "4:75" is not a number (minutes or mm:ss expected)',
      'd.csv 3 date: "31 Feb 2026" is no day of the calendar (YYYY-MM-DD or another date with its year expected)',
      'd.csv 3 search_min: "4:75" is not a number (minutes or mm:ss expected)',
      'd.csv 3 start_lat: "44.42 E" is not a number (a latitude in degrees expected)',
    ]);
  });

  it('a needed column that is nowhere, and one thing in two columns', async () => {
    const none = await comeIn({ 'd.csv': utf8(DIVES.replace('date', 'weather')) });
    expect(said(none.outcome.findings)).toContain(
      'd.csv null date: no column was matched to it, and it is needed',
    );
    const answers = new Map([
      [
        'detections.columns',
        {
          transect: 'transect',
          role: 'role',
          distance: 'distance_m',
          offset: 'count',
          count: 'count',
        },
      ],
    ]);
    const twice = await comeIn({ 'f.csv': utf8(FOUND) }, answers);
    expect(said(twice.outcome.findings)[0]).toBe(
      'f.csv null count: matched to count, and so is "offset_m" (one column for each expected)',
    );
  });
});

describe('labels that a spreadsheet has turned into dates', () => {
  const dives = DIVES.replace('T1', '3-Apr').replace('T2', '3-14');
  it('are asked about, with what speaks for each reading', async () => {
    const { outcome, open } = await comeIn({
      'd.csv': utf8(dives),
      'f.csv': utf8(FOUND.replace('T1', '3-4')),
    });
    expect(open).toContain('transects.labels');
    // 3-4 stands in the other table: the day was typed first
    expect(outcome.tables.transects.map(({ cells }) => cells.transect)).toEqual(['3-4', '3-14']);
  });

  it('are refused where neither reading is right', async () => {
    const { outcome } = await comeIn(
      { 'd.csv': utf8(dives) },
      new Map([['transects.labels', 'refuse']]),
    );
    expect(outcome.findings.map(({ row, column }) => [row, column])).toEqual([[2, 'transect']]);
  });
});

describe('the question on the columns', () => {
  it('shows ten rows before and after, and what speaks for each column that is not plain', async () => {
    const rows = Array.from(
      { length: 12 },
      (_, i) => `T${i},6/${i + 14}/2026,B,Ann,44.4 N,84.9 W,10,100`,
    );
    const text = [
      'Transect,Day,Type,Diver 1,Start lat,Start lon,Heading (true),Length (ft)',
      ...rows,
    ].join('\n');
    const { questions } = await comeIn({ 'd.csv': utf8(text) });
    const { pictures, evidence, certain, kind } = questions.find(
      ({ id }) => id === 'transects.columns',
    )!;
    expect([kind, certain]).toEqual(['matching', false]);
    expect(evidence).toEqual([
      '6 of 8 headers name one of our columns; 2 more are taken by what stands below them or by a name that may mean it.',
      '"Day": 12 cells, "6/14/2026", "6/15/2026", "6/16/2026", "6/17/2026" and 8 other values.',
      '"Type": 12 cells, "B".',
    ]);
    const [before, after] = pictures.flatMap((picture) =>
      picture.kind === 'table' ? [picture] : [],
    );
    expect([before.rows.length, after.rows.length]).toEqual([10, 10]);
    expect(before.rows[0]).toEqual([
      'T0',
      '6/14/2026',
      'B',
      'Ann',
      '44.4 N',
      '84.9 W',
      '10',
      '100',
    ]);
    expect(Object.fromEntries(after.header.map((name, i) => [name, after.rows[0][i]]))).toEqual({
      transect: 'T0',
      date: '2026-06-14',
      design: 'belt',
      primary: 'Ann',
      start_lat: '44.4',
      start_lon: '-84.9',
      bearing_deg: '10',
      bearing_ref: 'true',
      // 100 ft × 0.3048
      length_m: '30.48',
    });
  });

  it('a column kept under its own name is not taken for ours', async () => {
    const answers = new Map([
      [
        'detections.columns',
        {
          transect: 'transect',
          role: 'role',
          distance: 'distance_m',
          offset: 'keep',
          count: 'count',
        },
      ],
    ]);
    const { outcome } = await comeIn({ 'f.csv': utf8(FOUND.replace(',,', ',20 cm,')) }, answers);
    expect(outcome.tables.detections[0].cells).toEqual({
      transect: 'T1',
      role: 'primary',
      distance_m: '3',
      count: '2',
      'offset_m (as given)': '20 cm',
    });
  });
});

describe('what has two readings', () => {
  it('day and month: by the other rows, else by the shorter season, asked', async () => {
    const slashed = (a: string, b: string) =>
      utf8(DIVES.replace('2026-06-29', a).replace('2026-06-30', b));
    const sure = await comeIn({ 'd.csv': slashed('6/7/2026', '6/30/2026') });
    expect(sure.open).not.toContain('transects.date-order');
    expect(sure.outcome.tables.transects.map(({ cells }) => cells.date)).toEqual([
      '2026-06-07',
      '2026-06-30',
    ]);
    const asked = await comeIn({ 'd.csv': slashed('6/7/2026', '9/7/2026') });
    expect(asked.open).toContain('transects.date-order');
    // 6 and 9 July, rather than 7 June and 7 September
    expect(asked.outcome.tables.transects.map(({ cells }) => cells.date)).toEqual([
      '2026-07-06',
      '2026-07-09',
    ]);
  });

  it('longitudes without minus: asked where the other side of Greenwich is land, not elsewhere', async () => {
    const lost = await comeIn({ 'd.csv': utf8(DIVES.replaceAll('-84', '84')) });
    expect(lost.open).toContain('transects.longitude');
    expect(lost.outcome.tables.transects[0].cells.start_lon).toBe('-84.95');
    const europe = await comeIn({ 'd.csv': utf8(DIVES.replaceAll('-84', '9')) });
    expect(europe.open).not.toContain('transects.longitude');
    expect(europe.outcome.tables.transects[0].cells.start_lon).toBe('9.95');
  });

  it('a column without a unit: feet where its places are 3.28 times as far as the transects are long', async () => {
    const habitat =
      'transect,distance,substrate,plant_cover,depth (ft)\nT1,0,sand,0,3\nT1,98.4,,,10\n';
    const { outcome, open } = await comeIn({ 'd.csv': utf8(DIVES), 'h.csv': utf8(habitat) });
    expect(open).toContain('habitat.units');
    // 98.4 ft × 0.3048 = 29.99232 m; 10 ft = 3.048 m
    expect(outcome.tables.habitat[1].cells).toMatchObject({
      distance_m: '29.9923',
      depth_m: '3.048',
    });
  });

  it('a comma with three digits behind it everywhere', async () => {
    const { outcome, open } = await comeIn({
      'h.csv': utf8('transect;distance_m;substrate;plant_cover;depth_m\nT1;0;sand;0;1,250\n'),
    });
    expect(open).toContain('numbers.comma');
    expect(outcome.tables.habitat[0].cells.depth_m).toBe('1.250');
  });

  it('a second class in a column of its own stands behind the first', async () => {
    const habitat =
      'Transect,From (m),To (m),Primary substrate,Secondary substrate,Plants 0-4,Depth (m)\nT1,0,10,Sand,Gravel,1,2\nT1,10,30,Mud,,2,3\n';
    const { outcome, open } = await comeIn({ 'h.csv': utf8(habitat) });
    expect(open).toEqual(['habitat.columns']);
    expect(outcome.tables.habitat.map(({ cells }) => [cells.distance_m, cells.substrate])).toEqual([
      ['0', 'sand+gravel'],
      ['10', 'mud'],
    ]);
  });

  it('what is settled without a question is told: commas, and days as numbers', async () => {
    const habitat = 'transect;distance_m;substrate;plant_cover;depth_m\nT1;0;sand;0;1,5\n';
    const { outcome } = await comeIn({
      'd.csv': utf8(DIVES.replace('2026-06-29', '46202')),
      'h.csv': utf8(habitat),
    });
    expect(outcome.remarks).toContain('h.csv: commas are decimal points (1 number).');
    expect(outcome.remarks).toContain(
      'Dates: 1 number was read as days that a spreadsheet counts from 1900.',
    );
    // see cells.test.ts for the day
    expect(outcome.tables.transects[0].cells.date).toBe('2026-06-29');
  });

  it('plant cover in percent', async () => {
    const rows = [0, 1, 25, 26, 75, 100].map((cover, i) => `T1,${i},sand,${cover},2`).join('\n');
    const file = {
      'h.csv': utf8(`transect,distance_m,substrate,plant cover (%),depth_m\n${rows}\n`),
    };
    const { outcome, open } = await comeIn(file);
    expect(open).toContain('habitat.plant-cover-percent');
    const covers = (came: typeof outcome) =>
      came.tables.habitat.map(({ cells }) => cells.plant_cover);
    expect(covers(outcome)).toEqual(['0', '1', '1', '2', '3', '4']);
    const other = await comeIn(file, new Map([['habitat.plant-cover-percent', 'quarters-from-5']]));
    expect(covers(other.outcome)).toEqual(['0', '0', '1', '2', '3', '4']);
  });

  it('a substrate that is none of ours is kept under its own name, if so answered', async () => {
    const habitat = 'transect,distance_m,substrate,plant_cover,depth_m\nT1,0,Cobble & sand,0,3\n';
    const { outcome, open } = await comeIn({ 'h.csv': utf8(habitat) });
    expect(open).toContain('habitat.substrate');
    expect(outcome.tables.habitat[0].cells.substrate).toBe('cobble+sand');
  });
});

describe('what a sheet leaves out', () => {
  it('the design: proposed by where a perpendicular distance was recorded', async () => {
    const dives = DIVES.replace('design,', '').replace('belt,', '').replace('distance,', '');
    const found = `${FOUND}T2,primary,4,0.3,1\n`;
    const { outcome, open } = await comeIn({ 'd.csv': utf8(dives), 'f.csv': utf8(found) });
    expect(open).toContain('transects.design-of-all');
    expect(outcome.tables.transects.map(({ cells }) => cells.design)).toEqual(['belt', 'distance']);
  });

  it('rows that say that nothing was found are no detections', async () => {
    const { outcome } = await comeIn({ 'f.csv': utf8(`${FOUND}T2,primary,,,none\nT2,,,,0\n`) });
    expect(outcome.tables.detections).toHaveLength(1);
    expect(outcome.remarks.join()).toContain('nothing was found (2)');
  });

  it('who found it, where two searched', async () => {
    const found = 'transect,distance_m,count\nT1,3,2\n';
    const { outcome } = await comeIn({ 'd.csv': utf8(DIVES), 'f.csv': utf8(found) });
    expect(outcome.findings.map(({ column, code }) => [column, code])).toEqual([
      ['role', 'no-column'],
    ]);
  });
});
