/** What is remarkable, but lets the run go on. */

import { all, dropRows, edit, setCell, setFile, setRow } from '../helpers/bend.ts';
import { type Case, D, type Expected, H, T } from './cases.ts';
import { P } from './planted-cases.ts';

function notice(name: string, bend: Case['bend'], ...expected: Omit<Expected, 'notice'>[]): Case {
  return { name, bend, expected: expected.map((each) => ({ ...each, notice: true as const })) };
}

/** Ann first on every belt. */
const neverSwapped = all(setCell(T, 3, 'primary', 'Ann'), setCell(T, 3, 'secondary', 'Ben'));
const noSecondaryOnDistance = all(
  setCell(T, 5, 'secondary', ''),
  setCell(T, 6, 'secondary', ''),
  setCell(T, 7, 'secondary', ''),
  dropRows(D, 31),
  dropRows(D, 26),
  dropRows(D, 21),
);

/** On each transect the secondary's detection lies where the primary's second one does. */
const allTwice = all(
  ...[0, 1, 2, 3, 4, 5].flatMap((i) => [
    setCell(D, 6 + 5 * i, 'distance_m', (14.24 + i / 4).toFixed(2)),
    ...(i < 3 ? [] : [setCell(D, 6 + 5 * i, 'offset_m', (0.35 + i / 20).toFixed(2))]),
  ]),
);

export const NOTICE_CASES: Case[] = [
  notice(
    'planted shells that the analysis does not ask for',
    setFile(P, 'transect,planted,found_first,found_second_only\nT1,20,13,3\n'),
    { code: 'planted-not-used', table: P, says: ['in no number', '"planted"'] },
  ),
  notice(
    'planned transects',
    (texts) => {
      const commas = ','.repeat(texts[T].split('\n')[0].split(',').length - 1);
      texts[T] += `P1${commas}\nP2${commas}\n`;
    },
    {
      code: 'planned-transects',
      table: T,
      says: ['2 rows have no date', 'row 8', 'left out of the estimate'],
    },
  ),
  notice(
    'an unknown column',
    edit(D, (text) => text.replace('cluster_width_cm', 'tag')),
    {
      code: 'unknown-column',
      table: D,
      row: 1,
      column: 'tag',
      says: ['not a column of detections.csv', 'passed through'],
    },
  ),
  notice(
    'a nameless column without content',
    edit(H, (text) => text.replaceAll(/(.)$/gm, '$1,')),
    {
      code: 'column-without-name',
      table: H,
      row: 1,
      column: 'column 6',
      says: ['left out'],
    },
  ),
  notice(
    'a rope over 30 m',
    all(setCell(T, 2, 'length_m', '30.5'), setCell(H, 5, 'distance_m', '30.5')),
    {
      code: 'rope-over-30-m',
      table: T,
      row: 2,
      column: 'length_m',
      says: ['30.5 m'],
    },
  ),
  notice('roles never swapped on the belts', neverSwapped, {
    code: 'roles-never-swapped',
    table: T,
    says: ['roles never swapped', 'belt', 'one detection probability', 'swap roles'],
  }),
  notice('nobody followed on the distance transects', noSecondaryOnDistance, {
    code: 'single-pass-only',
    table: T,
    says: ['no distance transect has a secondary', 'p = 1', 'detectable'],
  }),
  notice(
    'covariates of a detection that nobody followed',
    all(
      noSecondaryOnDistance,
      setFile('analysis.json', '{"detection": {"plant_cover": true, "depth": true}}'),
    ),
    {
      code: 'single-pass-only',
      table: T,
      says: ['detection.plant_cover and detection.depth have no part there'],
    },
  ),
  notice('divers that differ in case', all(setCell(T, 4, 'primary', 'ann')), {
    code: 'observers-differ-in-case',
    table: T,
    row: 4,
    column: 'primary',
    says: ['"ann" and "Ann" (row 2)', 'two divers'],
  }),
  notice('a substrate on the end row', setRow(H, 5, 'T1,30,mud,0,3.8'), {
    code: 'end-row-substrate',
    table: H,
    row: 5,
    column: 'substrate',
    says: ['mud', 'ignored'],
  }),
  notice('plant cover on the end row', setRow(H, 5, 'T1,30,,3,3.8'), {
    code: 'end-row-substrate',
    table: H,
    row: 5,
    column: 'plant_cover',
    says: ['plant cover 3', 'ignored'],
  }),
  notice('a bed that falls, then rises', setCell(H, 5, 'depth_m', '2.6'), {
    code: 'depth-falls-then-rises',
    table: H,
    row: 5,
    column: 'depth_m',
    says: ['falls to 3 m (row 4)', 'rises to 2.6 m'],
  }),
  notice(
    'start and end exchanged',
    all(
      setCell(H, 2, 'depth_m', '3.8'),
      setCell(H, 3, 'depth_m', '3'),
      setCell(H, 4, 'depth_m', '2'),
      setCell(H, 5, 'depth_m', '0.8'),
    ),
    {
      code: 'starts-deep',
      table: H,
      row: 3,
      column: 'depth_m',
      says: ['3.8 m at the start', 'exchanged?'],
    },
  ),
  notice('depths that no search reaches', all(...deeper(40)), {
    code: 'depth-in-feet',
    table: H,
    column: 'depth_m',
    says: ['feet', '43.8 m', '13.4 m'],
  }),
  notice('ropes that are all too steep', steep(), {
    code: 'depth-in-feet',
    table: H,
    column: 'depth_m',
    says: ['feet', '55 %'],
  }),
  notice('the same clusters written by both observers', allTwice, {
    code: 'possible-double-count',
    table: D,
    row: 6,
    column: 'distance_m',
    says: [
      '6 pairs',
      'less than 5 cm',
      '0.1 expected by chance',
      '6 with 3, 11 with 8',
      'all are kept',
    ],
  }),
  notice('no outline', setFile('outline.geojson', null), {
    code: 'lake-file-missing',
    table: 'outline.geojson',
    says: ['not in the folder', 'abundance'],
  }),
  notice('no substrate map', setFile('substrate.geojson', null), {
    code: 'lake-file-missing',
    table: 'substrate.geojson',
    says: ['not in the folder', 'abundance'],
  }),
  notice('no depth map', setFile('depth.geojson', null), {
    code: 'lake-file-missing',
    table: 'depth.geojson',
    says: ['depth.tif', 'abundance'],
  }),
  notice(
    'a substrate on the map that was never surveyed',
    edit('substrate.geojson', (text) => text.replace('"gravel"', '"mud"')),
    {
      code: 'substrate-never-surveyed',
      table: 'substrate.geojson',
      row: 2,
      column: 'substrate',
      says: ['mud', 'never surveyed', 'outside'],
    },
  ),
  notice(
    'a substrate map made from points',
    edit('substrate.geojson', (text) =>
      text.replace(
        '"features"',
        '"interpolated":{"points":96,"greatest_distance_m":40,"leave_one_out_share":0.75},"features"',
      ),
    ),
    {
      code: 'substrate-interpolated',
      table: 'substrate.geojson',
      column: 'interpolated',
      says: ['96 points', '40 m', '75 %', 'interval of the total does not cover'],
    },
  ),
  notice(
    'a substrate map that says nothing sound of how it was made',
    edit('substrate.geojson', (text) =>
      text.replace('"features"', '"interpolated":{"points":-1},"features"'),
    ),
    {
      code: 'interpolated-not-understood',
      table: 'substrate.geojson',
      column: 'interpolated',
      says: ['points, greatest_distance_m', 'taken as mapped'],
    },
  ),
  notice('a longitude without its minus', setCell(T, 2, 'start_lon', '92.999899'), {
    code: 'waypoint-far-off',
    table: T,
    row: 2,
    column: 'start_lon',
    says: ['far from the outline', 'minus of its longitude missing'],
  }),
  notice(
    'a latitude with a minus too many, and no outline to tell by',
    all(setFile('outline.geojson', null), setCell(T, 2, 'end_lat', '-45.00081')),
    { code: 'lake-file-missing', table: 'outline.geojson', says: ['not in the folder'] },
    {
      code: 'waypoint-far-off',
      table: T,
      row: 2,
      column: 'end_lat',
      says: ['far from the other transects', 'minus of its latitude'],
    },
  ),
  notice(
    'a label that a spreadsheet took for a date, everywhere',
    (texts) => {
      for (const file of [T, H, D]) texts[file] = texts[file].replaceAll('T6,', '4-Mar,');
    },
    {
      code: 'label-like-date',
      table: T,
      row: 7,
      column: 'transect',
      says: ['"4-Mar" looks like a date', '3-4'],
    },
  ),
];

/** Every depth `m` deeper. */
function deeper(m: number) {
  return Array.from({ length: 24 }, (_, i) =>
    edit(H, (text) => {
      const lines = text.split('\n');
      const cells = lines[i + 1].split(',');
      cells[4] = String(Number((Number(cells[4]) + m).toFixed(2)));
      lines[i + 1] = cells.join(',');
      return lines.join('\n');
    }),
  );
}

/** From 0.5 to 17 m on each rope of 30 m: 55 % (by hand), and never more than the rope between two breaks. */
function steep() {
  const depths = ['0.5', '7', '11', '17'];
  return all(...Array.from({ length: 24 }, (_, i) => setCell(H, i + 2, 'depth_m', depths[i % 4])));
}
