/** Tables of points, waypoints in metres, and what is no table of a survey; expected values by hand. */

import { describe, expect, it } from 'vitest';
import { comeIn, utf8 } from './disguised.ts';

const DIVES = `transect,date,design,primary,secondary,start_lat,start_lon,bearing_deg,length_m
T1,2026-06-29,belt,Ann,Ben,44.41,-84.95,10,30
T2,2026-06-30,distance,Ben,,44.42,-84.96,20,30
`;
const said = (
  found: { table: string; row: number | null; column: string | null; message: string }[],
) => found.map(({ table, row, column, message }) => `${table} ${row} ${column}: ${message}`);

describe('points', () => {
  it('soundings with a decimal comma and units behind the numbers', async () => {
    const text = 'Latitude;Longitude;Depth\n44,4169;-84,9596;3,2 m\n44,417;-84,959;4 m\n;;\n';
    const { outcome, open } = await comeIn({ 's.csv': utf8(text) });
    expect(open).toEqual([]);
    expect(outcome.points).toEqual([
      {
        file: 's.csv',
        layer: null,
        from: 'table',
        crs: { kind: 'epsg', code: 4326 },
        features: [
          {
            geometry: { type: 'Point', coordinates: [-84.9596, 44.4169] },
            properties: { 'Depth (m)': 3.2 },
            row: 2,
          },
          {
            geometry: { type: 'Point', coordinates: [-84.959, 44.417] },
            properties: { 'Depth (m)': 4 },
            row: 3,
          },
        ],
        remarks: [],
      },
    ]);
  });

  it('latitudes that hold metres name no system; columns without a header are asked about', async () => {
    const metres = await comeIn({
      'g.csv': utf8(
        'Sample,Latitude,Longitude,Bottom\na,4918000,512000,sand\nb,4918010.5,512010,mud\n',
      ),
    });
    expect(metres.outcome.points[0]).toMatchObject({ crs: { kind: 'none' } });
    expect(metres.outcome.points[0].features[1]).toMatchObject({
      geometry: { coordinates: [512_010, 4_918_010.5] },
      properties: { Sample: 'b', Bottom: 'mud' },
    });
    const bare = await comeIn({ 'xyz.txt': utf8('512000 4918000 3.2\n512001 4918000 4.5\n') });
    expect(bare.open).toEqual(['tables.kinds', 'points.columns']);
    expect(bare.outcome.points[0].features[0]).toMatchObject({
      geometry: { coordinates: [512_000, 4_918_000] },
      properties: { depth: 3.2 },
      row: 1,
    });
  });

  it('waypoints in degrees and minutes, both in one cell', async () => {
    const { outcome } = await comeIn({
      'w.csv': utf8('Name,Coordinates,Time\nT01 start,N 44 25.2 W 084 57.6,2026-06-29\n'),
    });
    const [{ geometry, properties }] = outcome.points[0].features;
    // 25.2/60 = 0.42, 57.6/60 = 0.96
    expect(geometry).toEqual({ type: 'Point', coordinates: [-84.96, 44.42] });
    expect(properties).toEqual({ Name: 'T01 start', Time: '2026-06-29' });
  });

  it.each([
    ['degrees and minutes', 'Waypoint,Lat deg,Lat min,Lon deg,Lon min\nT1,44,25.2,-84,57.6\n'],
    [
      'and seconds',
      `Waypoint,Lat (°),Lat ('),"Lat ("")",Lon (°),Lon ('),"Lon ("")"\nT1,44,25,12,-84,57,36\n`,
    ],
  ])('%s in columns of their own', async (_, text) => {
    const { outcome, open } = await comeIn({ 'w.csv': utf8(text) });
    expect(open).toEqual([]);
    const [{ geometry, properties }] = outcome.points[0].features;
    expect(properties).toEqual({ Waypoint: 'T1' });
    // 25.2/60 = 25/60 + 12/3600 = 0.42; 57.6/60 = 0.96; binary rounding
    if (geometry.type !== 'Point') throw new Error('a point expected');
    expect(geometry.coordinates[0]).toBeCloseTo(-84.96, 12);
    expect(geometry.coordinates[1]).toBeCloseTo(44.42, 12);
  });

  it('are called after transect and end, where these stand in columns of their own', async () => {
    const { outcome } = await comeIn({
      'w.csv': utf8('Transect,End,Latitude,Longitude\nT1,start,44.1,-84.1\nT1,end,44.2,-84.2\n'),
    });
    expect(outcome.points[0].features.map(({ properties }) => properties.name)).toEqual([
      'T1 start',
      'T1 end',
    ]);
  });

  it('rows without coordinates are refused by their row', async () => {
    const { outcome } = await comeIn({
      'w.csv': utf8('Name,Latitude,Longitude\na,44.1,-84.1\nb,here,-84.1\n'),
    });
    expect(said(outcome.findings)).toEqual([
      'w.csv 3 Latitude, Longitude: "here" and "-84.1": no coordinates (degrees, or metres of a projected system expected)',
    ]);
  });
});

describe('waypoints of transects in metres', () => {
  it('become points that are placed like a map, and leave the table', async () => {
    const dives = DIVES.replace('44.41,-84.95', '4918000.5,512000').replace(
      '44.42,-84.96',
      '4918100,512010',
    );
    const { outcome } = await comeIn({
      'd.csv': utf8(
        dives.replace('start_lat', 'Start Northing').replace('start_lon', 'Start Easting'),
      ),
    });
    expect(outcome.tables.transects.map(({ cells }) => [cells.start_lat, cells.start_lon])).toEqual(
      [
        ['', ''],
        ['', ''],
      ],
    );
    expect(outcome.points).toHaveLength(1);
    expect(outcome.points[0].crs).toEqual({ kind: 'none' });
    expect(outcome.points[0].features).toEqual([
      {
        geometry: { type: 'Point', coordinates: [512_000, 4_918_000.5] },
        properties: { name: 'T1 start' },
        row: 2,
      },
      {
        geometry: { type: 'Point', coordinates: [512_010, 4_918_100] },
        properties: { name: 'T2 start' },
        row: 3,
      },
    ]);
  });
});

describe('what is no table of a survey', () => {
  it('is told and left out, or asked about where it has numbers', async () => {
    const words = await comeIn({
      'list.csv': utf8('Item,Packed,By\nropes,yes,Ann\nbuoys,no,Ben\n'),
    });
    expect(words.open).toEqual([]);
    expect(words.outcome.findings).toEqual([
      expect.objectContaining({ severity: 'notice', code: 'table-left-out', table: 'list.csv' }),
    ]);
    const numbers = await comeIn({
      'list.csv': utf8('Item,Packed,Price\nropes,2,30\nbuoys,5,12\n'),
    });
    expect(numbers.open).toEqual(['tables.kinds']);
    expect(Object.values(numbers.outcome.tables).flat()).toEqual([]);
  });
});
