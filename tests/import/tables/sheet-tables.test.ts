/** The demo lake's tables in disguise come back cell by cell; what cannot be read is refused with its cell. */

import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { hasOpenpyxl, writtenByOpenpyxl } from '../../helpers/openpyxl.ts';
import {
  type Cells,
  comeIn,
  demo,
  differences,
  latin1,
  toFeet,
  toInches,
  utf8,
} from './disguised.ts';

const exactly = () => 0;
const comma = (text: string) => text.replace('.', ',');

describe('our own tables', () => {
  it('come back as they are, with questions that leave no second reading', async () => {
    const names = ['transects', 'habitat', 'detections'] as const;
    const files = Object.fromEntries(
      names.map((name) => [`${name}.csv`, utf8(Papa.unparse(demo(name)))]),
    );
    const { outcome, open } = await comeIn(files);
    for (const name of names)
      expect(differences(outcome.tables[name], demo(name), exactly)).toEqual([]);
    expect(outcome.findings).toEqual([]);
    expect(outcome.points).toEqual([]);
    expect(open).toEqual(['transects.columns', 'habitat.columns', 'detections.columns']);
  });
});

/** One decimal more than is read on a rope: 0.01 ft, half of which is 1.5 mm; an inch to 0.1, half of which is 1.3 mm. */
const ROUNDED: Record<string, number> = {
  length_m: 0.0016,
  width_m: 0.0016,
  clarity_m: 0.0016,
  distance_m: 0.0016,
  depth_m: 0.0016,
  offset_m: 0.0013,
  // centimetres: a hundredth of an inch, half of which is 0.013 cm
  cluster_length_cm: 0.013,
  cluster_width_cm: 0.013,
};
const rounded = (column: string) => ROUNDED[column] ?? 0;

const PLANTS = ['none', 'sparse', 'moderate', 'common', 'dense'];
const CODES: Cells = {
  sand: 'Sa',
  silt: 'Si',
  mud: 'Md',
  gravel: 'Gr',
  pebble: 'Pb',
  rock: 'Rk',
  other: 'Ot',
};
const code = (substrate: string) =>
  substrate
    .split('+')
    .map((part) => CODES[part] ?? part)
    .join(' / ');

/** Columns in another order, under other names, in feet and inches, with words for codes and names for roles. */
function asAnAgencyHasThem() {
  const divers = new Map(demo('transects').map((row) => [row.transect, row]));
  return {
    dives: demo('transects').map((row) => ({
      'Survey date': row.date.replace(/(\d+)-(\d+)-(\d+)/, '$2/$3/$1'),
      'Transect #': row.transect,
      Type: row.design === 'belt' ? 'B' : 'D',
      'Diver 1': row.primary,
      'Diver 2': row.secondary,
      'Start Lat': comma(row.start_lat),
      'Start Long': comma(row.start_lon.replace('-', '')),
      'End Lat': comma(row.end_lat),
      'End Long': comma(row.end_lon.replace('-', '')),
      'Heading (mag)': row.bearing_deg,
      'Length (ft)': comma(toFeet(row.length_m, 2)),
      Width: comma(toFeet(row.width_m, 2)),
      'Vis. (ft)': comma(toFeet(row.clarity_m, 2)),
      'Reason ended': row.stop.replace('_', ' '),
      'Set-up': row.setup_min,
      'Habitat time': comma(row.habitat_min),
      'Search time': comma(row.search_min),
      Comments: row.notes,
      boat: row.boat,
    })),
    bottom: demo('habitat')
      .map((row) => ({
        'Transect #': row.transect,
        'Dist (ft)': comma(toFeet(row.distance_m, 2)),
        Bottom: code(row.substrate),
        Vég: PLANTS[Number(row.plant_cover)] ?? '',
        'Depth (ft)': comma(toFeet(row.depth_m, 2)),
      }))
      .map((row, i) => (demo('habitat')[i].plant_cover === '' ? { ...row, Vég: '' } : row)),
    mussels: demo('detections').map((row) => ({
      'Transect #': row.transect,
      Observer: divers.get(row.transect)![row.role],
      'Dist (ft)': comma(toFeet(row.distance_m, 2)),
      'Offset (in)': comma(toInches(String(100 * Number(row.offset_m)), 1)).replace(
        /^0,0$/,
        row.offset_m === '' ? '' : '0,0',
      ),
      '# mussels': row.count,
      'Clump length (in)': comma(toInches(row.cluster_length_cm, 2)),
      'Clump width (in)': comma(toInches(row.cluster_width_cm, 2)),
    })),
  };
}

function inSemicolons(year: string): Record<string, Uint8Array> {
  const { dives, bottom, mussels } = asAnAgencyHasThem();
  const text = (rows: object[]) => Papa.unparse(rows, { delimiter: ';' });
  return {
    [`Bottom ${year}.csv`]: latin1(text(bottom)),
    [`Dives ${year}.txt`]: latin1(text(dives)),
    [`Mussels ${year}.csv`]: latin1(text(mussels)),
  };
}

function expectDemo(came: Awaited<ReturnType<typeof comeIn>>) {
  const { tables, findings } = came.outcome;
  expect(findings).toEqual([]);
  for (const name of ['transects', 'habitat', 'detections'] as const)
    expect(differences(tables[name], demo(name), rounded)).toEqual([]);
}

describe('the demo lake as an agency has it', () => {
  it('semicolons, decimal commas, Windows-1252, feet, inches, lost minuses, words and names', async () => {
    const came = await comeIn(inSemicolons('2026'));
    expectDemo(came);
    expect(came.open.toSorted()).toEqual(
      [
        'transects.columns',
        'habitat.columns',
        'detections.columns',
        'transects.units',
        'transects.design',
        'transects.stop',
        'transects.longitude',
        'habitat.substrate',
        'habitat.plant-cover',
      ].toSorted(),
    );
  });

  it('next year’s files, called otherwise, come in by the same answers without a question', async () => {
    const { answers } = await comeIn(inSemicolons('2026'));
    const again = await comeIn(inSemicolons('season two'), answers);
    expect(again.open).toEqual([]);
    expectDemo(again);
  });
});

describe.skipIf(!hasOpenpyxl)('the demo lake in a workbook', () => {
  /** Titles above, a header of two lines with merged cells, a line of units, dates as numbers, numbers as text. */
  const script = `
sheet.title = 'Dive log'
sheet['A1'] = 'Invented lake, crew A'
sheet.merge_cells('A1:F1')
upper = ['Transect', 'Date', 'Design', 'Diver', '', 'Start', '', 'End', '', 'Bearing', 'Length', 'Width', 'Visibility', 'Why ended', 'Time', '', '', 'boat', 'Notes']
lower = ['', '', '', '1', '2', 'Lat', 'Lon', 'Lat', 'Lon', '', '', '', '', '', 'setup', 'habitat', 'search', '', '']
units = ['', '', '', '', '', '', '', '', '', 'deg', 'ft', 'ft', 'm', '', 'min', 'min', 'min', '', '']
for r, line in enumerate([upper, lower, units]):
    for c, text in enumerate(line):
        if text: sheet.cell(3 + r, c + 1, text)
for span in ['D3:E3', 'F3:G3', 'H3:I3', 'O3:Q3']: sheet.merge_cells(span)
number = lambda text: None if text == '' else float(text)
feet = lambda text: None if text == '' else round(float(text) / 0.3048, 2)
for i, t in enumerate(data['transects']):
    at = [t['transect'], datetime.date.fromisoformat(t['date']), t['design'], t['primary'], t['secondary'] or '-',
      number(t['start_lat']), t['start_lon'], number(t['end_lat']), t['end_lon'], number(t['bearing_deg']),
      feet(t['length_m']), feet(t['width_m']), number(t['clarity_m']), t['stop'], None, number(t['habitat_min']), number(t['search_min']), t['boat'], t['notes']]
    for c, value in enumerate(at):
        if value not in (None, ''): sheet.cell(6 + i, c + 1, value)
    if t['setup_min']:
        m, s = t['setup_min'].split(':')
        sheet.cell(6 + i, 15, datetime.time(int(m), int(s)))
habitat = book.create_sheet('Bottom')
habitat.append(['transect', 'Distance (m)', 'Substrate', 'Plant cover (0-4)', 'Water depth (m)'])
for h in data['habitat']:
    habitat.append([h['transect'], number(h['distance_m']), h['substrate'] or None, h['plant_cover'] or None, number(h['depth_m'])])
found = book.create_sheet('Mussels')
found.append(['transect', 'Seen by', 'Distance (m)', 'Perp. distance (cm)', 'Count', 'Cluster length (cm)', 'Cluster width (cm)'])
for d in data['detections']:
    offset = None if d['offset_m'] == '' else round(100 * float(d['offset_m']), 6)
    found.append([d['transect'], d['role'][0].upper(), number(d['distance_m']), offset, int(d['count']), number(d['cluster_length_cm']), number(d['cluster_width_cm'])])
`;

  it('titles, two header lines, units below, dates and times as numbers, numbers as text, codes', async () => {
    const data = {
      transects: demo('transects'),
      habitat: demo('habitat'),
      detections: demo('detections'),
    };
    const came = await comeIn({ 'Log.xlsx': writtenByOpenpyxl(script, data) });
    const { tables, findings } = came.outcome;
    expect(findings).toEqual([]);
    // only the two columns that were in feet are rounded; bearing_ref has no column
    const near = (column: string) => (column === 'length_m' || column === 'width_m' ? 0.0016 : 0);
    const transects = demo('transects').map(({ bearing_ref: _, ...row }) => row);
    expect(differences(tables.transects, transects, near)).toEqual([]);
    expect(differences(tables.habitat, demo('habitat'), exactly)).toEqual([]);
    expect(
      differences(tables.detections, demo('detections'), (c) => (c === 'offset_m' ? 1e-9 : 0)),
    ).toEqual([]);
    expect(tables.transects[0].place).toBe('sheet "Dive log" row 6');
    expect(came.open).toContain('transects.times');
    expect(came.open).toContain('detections.role');
  });
});
