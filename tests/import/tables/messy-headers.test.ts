/** Sheets as a crew keeps them: a group of columns over two, words in brackets within a header, a sum below. Expected: what was typed. */

import { expect, it } from 'vitest';
import { comeIn, utf8 } from './disguised.ts';

it('headers of two lines with words in brackets, and a line of totals below', async () => {
  const { outcome, open } = await comeIn({
    'dives.csv': utf8(
      [
        'Dives of 2026,,,,,,,',
        'Transect,Date,Divers,,Start (shallow),,Compass,Line length',
        ',,Lead,Buddy,Lat,Long,(mag),(ft)',
        "A1,2026-07-01,Ann,Ben,44° 25.0171' N,84° 57.5783' W,120,100",
        "A2,2026-07-02,Ben,Ann,44° 25.0336' N,84° 57.4815' W,95,100",
        "A3,2026-07-02,Ann,none,44° 25.0459' N,84° 57.3691' W,90,50",
        ',,,,,,,',
        'Total transects,3,,,,,,',
      ].join('\n'),
    ),
  });
  expect(outcome.findings).toEqual([]);
  expect(open).toContain('transects.columns');
  // by hand: 25.0171 / 60 = 0.4169517, 57.5783 / 60 = 0.9596383; 100 ft = 30.48 m
  expect(outcome.tables.transects.map(({ cells }) => cells)).toMatchObject([
    {
      transect: 'A1',
      primary: 'Ann',
      secondary: 'Ben',
      start_lat: '44.4169517',
      start_lon: '-84.9596383',
      bearing_deg: '120',
      bearing_ref: 'magnetic',
      length_m: '30.48',
    },
    { transect: 'A2', primary: 'Ben', secondary: 'Ann' },
    { transect: 'A3', primary: 'Ann', secondary: '', length_m: '15.24' },
  ]);
  expect(outcome.remarks).toContain(
    'dives.csv row 8: "Total transects" sums up rows above it and is left out.',
  );
});
