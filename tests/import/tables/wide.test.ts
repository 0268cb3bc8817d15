/** One sheet a transect, and one long table: the demo lake's tables come back cell by cell. */

import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { hasOpenpyxl, writtenByOpenpyxl } from '../../helpers/openpyxl.ts';
import { type Cells, comeIn, demo, differences, type SheetName, utf8 } from './disguised.ts';

const exactly = () => 0;
const NAMES: readonly SheetName[] = ['transects', 'habitat', 'detections'];
const of = (rows: Cells[], transect: string) => rows.filter((row) => row.transect === transect);

function expectDemo(came: Awaited<ReturnType<typeof comeIn>>) {
  expect(came.outcome.findings).toEqual([]);
  for (const name of NAMES)
    expect(differences(came.outcome.tables[name], demo(name), exactly)).toEqual([]);
}

/** Labels with values beside them, a habitat table below, the detections of each observer below that. */
function fieldSheet(transect: Cells): string[][] {
  const t = transect;
  const breaks = of(demo('habitat'), t.transect);
  const found = (role: string) =>
    of(demo('detections'), t.transect)
      .filter((d) => d.role === role)
      .map((d) => [d.distance_m, d.offset_m, d.count, d.cluster_length_cm, d.cluster_width_cm]);
  const header = ['Distance (m)', 'Perp. distance (m)', 'Count', 'Length (cm)', 'Width (cm)'];
  return [
    ['Field sheet of an invented survey'],
    ['Transect:', t.transect, '', 'Date:', t.date],
    ['Design:', t.design, '', 'Why it ended:', t.stop],
    ['Primary observer:', t.primary, '', 'Secondary observer:', t.secondary],
    ['Start lat:', t.start_lat, '', 'Start lon:', t.start_lon],
    ['End lat:', t.end_lat, '', 'End lon:', t.end_lon],
    ['Bearing (magnetic):', t.bearing_deg, '', 'Length (m):', t.length_m],
    ['Width (m):', t.width_m, '', 'Visibility (m):', t.clarity_m],
    ['Setup time:', t.setup_min, '', 'Habitat time:', t.habitat_min],
    ['Search time:', t.search_min, '', 'boat:', t.boat],
    [`Notes: ${t.notes}`],
    [],
    ['Habitat'],
    ['Distance (m)', 'Substrate', 'Plants', 'Depth (m)'],
    ...breaks.map((h) => [h.distance_m, h.substrate, h.plant_cover, h.depth_m]),
    [],
    ['Found by the primary observer'],
    header,
    ...found('primary'),
    [],
    ['Found by the secondary observer'],
    header,
    ...found('secondary'),
  ];
}

describe('one file a transect', () => {
  const files = () =>
    Object.fromEntries(
      demo('transects').map((t) => [`sheet ${t.transect}.csv`, utf8(Papa.unparse(fieldSheet(t)))]),
    );

  it('labels beside their values, tables below, the role said by a title', async () => {
    const came = await comeIn(files());
    expectDemo(came);
    expect(came.outcome.tables.habitat[0].place).toBe('sheet T01.csv row 15');
    expect(came.open.toSorted()).toEqual([
      'detections.columns',
      'habitat.columns',
      'transects.columns',
    ]);
  });

  it('another year by the same answers', async () => {
    const { answers } = await comeIn(Object.fromEntries(Object.entries(files()).slice(0, 6)));
    const renamed = Object.fromEntries(
      Object.entries(files())
        .slice(6, 12)
        .map(([name, bytes]) => [`b ${name}`, bytes]),
    );
    expect((await comeIn(renamed, answers)).open).toEqual([]);
  });

  it('all of them below one another in one file', async () => {
    const rows = demo('transects').flatMap((t) => [...fieldSheet(t), []]);
    expectDemo(await comeIn({ 'all.csv': utf8(Papa.unparse(rows)) }));
  });

  it('a value that cannot be read is refused with its own cell', async () => {
    const sheet = fieldSheet(demo('transects')[0]).map((row) =>
      row.map((cell) => (cell === '30' ? '30+' : cell)),
    );
    const { outcome } = await comeIn({ 's.csv': utf8(Papa.unparse(sheet)) });
    expect(outcome.findings.map(({ table, row, column }) => [table, row, column])).toEqual([
      ['s.csv', 7, 'Length (m)'],
      ['s.csv', 19, 'Distance (m)'],
    ]);
  });
});

describe.skipIf(!hasOpenpyxl)('one sheet of a workbook a transect', () => {
  /** The two tables side by side under lines that are numbered beforehand; the transect is the name of the sheet. */
  const script = `
book.remove(sheet)
number = lambda text: None if text == '' else float(text)
for t in data['transects']:
    s = book.create_sheet(t['transect'])
    s['A1'] = 'Dive sheet'; s.merge_cells('A1:L1')
    top = [('Date', datetime.date.fromisoformat(t['date'])), ('Design', t['design']), ('Diver 1', t['primary']), ('Diver 2', t['secondary'] or None),
           ('Start lat', number(t['start_lat'])), ('Start lon', number(t['start_lon'])), ('End lat', number(t['end_lat'])), ('End lon', number(t['end_lon'])),
           ('Bearing (mag)', number(t['bearing_deg'])), ('Length (m)', number(t['length_m'])), ('Width (m)', number(t['width_m'])), ('Visibility (m)', number(t['clarity_m']))]
    for i, (label, value) in enumerate(top):
        s.cell(2 + i // 3, 1 + 4 * (i % 3), label)
        if value is not None: s.cell(2 + i // 3, 2 + 4 * (i % 3), value)
    for c, text in enumerate(['Line', 'Distance', 'Bottom', 'Plants', 'Depth', None, 'Distance', 'Seen by', 'Offset', 'Mussels', 'Cluster length', 'Cluster width']):
        if text: s.cell(7, c + 1, text)
    for c, text in enumerate([None, 'm', None, None, 'm', None, 'm', None, 'm', None, 'cm', 'cm']):
        if text: s.cell(8, c + 1, text)
    for i in range(20): s.cell(9 + i, 1, i + 1)
    for i, h in enumerate([h for h in data['habitat'] if h['transect'] == t['transect']]):
        for c, value in enumerate([number(h['distance_m']), h['substrate'] or None, number(h['plant_cover']), number(h['depth_m'])]):
            if value is not None: s.cell(9 + i, 2 + c, value)
    for i, d in enumerate([d for d in data['detections'] if d['transect'] == t['transect']]):
        for c, value in enumerate([number(d['distance_m']), d['role'], number(d['offset_m']), int(d['count']), number(d['cluster_length_cm']), number(d['cluster_width_cm'])]):
            if value is not None: s.cell(9 + i, 7 + c, value)
`;

  it('tables beside one another, units on their own line, numbered lines', async () => {
    const data = Object.fromEntries(NAMES.map((name) => [name, demo(name)]));
    const came = await comeIn({ 'sheets.xlsx': writtenByOpenpyxl(script, data) });
    expect(came.outcome.findings).toEqual([]);
    const left = ['stop', 'setup_min', 'habitat_min', 'search_min', 'boat', 'notes'];
    const transects = demo('transects').map((row) =>
      Object.fromEntries(Object.entries(row).filter(([name]) => !left.includes(name))),
    );
    const { tables } = came.outcome;
    expect(differences(tables.transects, transects, exactly)).toEqual([]);
    expect(differences(tables.habitat, demo('habitat'), exactly)).toEqual([]);
    expect(differences(tables.detections, demo('detections'), exactly)).toEqual([]);
  });
});

describe('one long table', () => {
  /** A row for each break and each detection, what belongs to the transect repeated. */
  const long = () =>
    demo('transects').flatMap((t) => {
      const same = {
        Transect: t.transect,
        Date: t.date,
        Design: t.design,
        'Primary observer': t.primary,
        'Secondary observer': t.secondary,
        'Start lat': t.start_lat,
        'Start lon': t.start_lon,
        'End lat': t.end_lat,
        'End lon': t.end_lon,
        'Bearing (mag)': t.bearing_deg,
        'Transect length (m)': t.length_m,
        'Transect width (m)': t.width_m,
      };
      const blank = {
        'Distance (m)': '',
        Substrate: '',
        'Plant cover': '',
        'Depth (m)': '',
        'Seen by': '',
        'Perp. distance (m)': '',
        Mussels: '',
        'Cluster length (cm)': '',
        'Cluster width (cm)': '',
      };
      return [
        ...of(demo('habitat'), t.transect).map((h) => ({
          ...same,
          ...blank,
          'Distance (m)': h.distance_m,
          Substrate: h.substrate,
          'Plant cover': h.plant_cover,
          'Depth (m)': h.depth_m,
        })),
        ...of(demo('detections'), t.transect).map((d) => ({
          ...same,
          ...blank,
          'Distance (m)': d.distance_m,
          'Seen by': d.role,
          'Perp. distance (m)': d.offset_m,
          Mussels: d.count,
          'Cluster length (cm)': d.cluster_length_cm,
          'Cluster width (cm)': d.cluster_width_cm,
        })),
      ];
    });

  it('is parted by what is filled in each of its rows', async () => {
    const came = await comeIn({ 'all.csv': utf8(Papa.unparse(long())) });
    expect(came.outcome.findings).toEqual([]);
    expect(came.open).toEqual(['tables.kinds', 'mixed.columns']);
    const left = ['clarity_m', 'stop', 'setup_min', 'habitat_min', 'search_min', 'boat', 'notes'];
    const transects = demo('transects').map((row) =>
      Object.fromEntries(Object.entries(row).filter(([name]) => !left.includes(name))),
    );
    const { tables } = came.outcome;
    expect(differences(tables.transects, transects, exactly)).toEqual([]);
    expect(differences(tables.habitat, demo('habitat'), exactly)).toEqual([]);
    expect(differences(tables.detections, demo('detections'), exactly)).toEqual([]);
  });

  it('two values for one transect are refused, both named', async () => {
    const rows = long().slice(0, 3);
    rows[2] = { ...rows[2], Date: '2026-07-01' };
    const { outcome } = await comeIn(
      { 'all.csv': utf8(Papa.unparse(rows)) },
      new Map([['tables.kinds', Object.fromEntries([[Object.keys(rows[0]).join(), 'mixed']])]]),
    );
    expect(
      outcome.findings.map(({ row, column, message }) => [row, column, message]),
    ).toContainEqual([
      4,
      'Date',
      '"2026-07-01", but "2026-06-29" in row 2 of the same transect (one value expected)',
    ]);
  });
});
