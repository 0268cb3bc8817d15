/** Zones as handhelds write them, against the EPSG register's codes of WGS 84 / UTM. */

import { expect, it } from 'vitest';
import { zoneOf } from '../../../src/import/tables/utm-zone.ts';
import { comeIn, utf8 } from './disguised.ts';

it.each([
  [['16T', '16 t', '16T '], 32616],
  [['1N'], 32601],
  [['60M', ''], 32760],
  [['19H'], 32719],
  [['16S'], null],
  [['16'], null],
  [['16T', '17T'], null],
  [['61T'], null],
  [['16I'], null],
  [[''], null],
])('%j', (cells, code) => {
  const crs = zoneOf('UTM zone', cells)?.crs ?? null;
  expect(crs).toEqual(code === null ? null : { kind: 'epsg', code });
});

it('places ends of transects and points of a table', async () => {
  const { outcome } = await comeIn({
    'dives.csv': utf8(
      'Transect,Date,Primary,Secondary,Length (m),UTM zone,Start E,Start N,End E,End N\nT1,2026-07-01,A,B,30,16T,662434.9,4920209,662400.7,4920217\nT2,2026-07-01,B,A,30,16T,662562.7,4920243,662587.1,4920271\n',
    ),
    'soundings.csv': utf8(
      'Easting,Northing,Zone,Depth (m)\n662434,4920209,16T,1.5\n662534,4920309,16T,2.5\n662634,4920209,16T,3.5\n',
    ),
  });
  expect(outcome.points.map(({ crs }) => crs)).toEqual([
    { kind: 'epsg', code: 32616 },
    { kind: 'epsg', code: 32616 },
  ]);
  expect(outcome.points[0].remarks.join()).toContain('as "Zone" says 16T');
});
