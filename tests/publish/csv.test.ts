/** The tables, read back by an independent RFC 4180 reader (papaparse). */

import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { toCsv } from '../../src/publish/csv.ts';
import { publish } from '../../src/publish/index.ts';
import { handMadeResult, withoutLake } from '../helpers/result.ts';

function read(text: unknown): Record<string, string>[] {
  const { data, errors } = Papa.parse<Record<string, string>>(text as string, {
    header: true,
    delimiter: ',',
    newline: '\r\n',
    skipEmptyLines: true,
  });
  expect(errors).toEqual([]);
  return data;
}

describe('a table', () => {
  it('ends every record with CRLF and quotes what needs it (RFC 4180, 2)', () => {
    expect(
      toCsv(
        ['a', 'b'],
        [
          ['x,y', 'say "no"'],
          ['line\nbreak', null],
        ],
      ),
    ).toBe('a,b\r\n"x,y","say ""no"""\r\n"line\nbreak",\r\n');
  });

  it('puts an apostrophe before text that a spreadsheet would run, not before numbers', () => {
    expect(
      toCsv(
        ['t', 'n'],
        [
          ['=1+1', -1],
          ['+x', 2.5],
          ['-x', 1e-7],
          ['@x', 1e21],
          ['a=b', 0],
          [' \t=x', 1],
        ],
      ),
    ).toBe("t,n\r\n'=1+1,-1\r\n'+x,2.5\r\n'-x,1e-7\r\n'@x,1e+21\r\na=b,0\r\n' \t=x,1\r\n");
  });

  it('refuses numbers that are none, and rows of another length', () => {
    expect(() => toCsv(['a'], [[Number.NaN]])).toThrow(
      'got NaN for a table, expected a finite number or null',
    );
    expect(() => toCsv(['a'], [[1, 2]])).toThrow('a row of 2 cells under 1 column names');
  });
});

describe('the tables of a result', () => {
  const files = publish(handMadeResult());

  it('segments.csv holds one row a segment with what was found', () => {
    const rows = read(files.get('segments.csv'));
    expect(rows).toHaveLength(3);
    expect(rows[0]).toMatchObject({
      segment: '1',
      transect: 'T1',
      design: 'belt',
      from_m: '0',
      to_m: '15',
      horizontal_m: '14.7',
      area_m2: '15',
      substrate: 'sand',
      plant_cover: '1',
      depth_m: '1.5',
      clarity_m: '',
      primary: 'Ada',
      secondary: 'Ben',
      clusters_primary: '1',
      clusters_secondary: '0',
      mussels_counted: '4',
      start_lat: '44.93',
      start_lon: '-93.57',
    });
    expect(rows[1]).toMatchObject({
      substrate: 'sand+gravel',
      clusters_primary: '0',
      clusters_secondary: '1',
    });
    expect(rows[2]).toMatchObject({ transect: "'=T2", design: 'distance', mussels_counted: '7' });
  });

  it('strata.csv flattens quantities and leaves what does not exist blank', () => {
    const rows = read(files.get('strata.csv'));
    expect(rows[1]).toMatchObject({
      substrate: 'rock',
      depth_from_m: '1',
      depth_to_m: '2',
      area_m2: '10000',
      mussels_per_m2_estimate: '5.2',
      mussels_per_m2_lower: '3.2',
      mussels_estimate: '52000',
      mussels_upper: '81000',
    });
    expect(rows[2]).toMatchObject({
      mussels_per_m2_estimate: '0',
      mussels_per_m2_se: '',
      mussels_estimate: '',
    });
  });

  it('strata.csv has its header alone when there is no lake', () => {
    const text = publish(withoutLake()).get('strata.csv') as string;
    expect(text).toMatch(/^substrate,depth_from_m,[^\r\n]*\r\n$/);
  });

  it('models.csv and warnings.csv hold every row of estimate.json', () => {
    expect(read(files.get('models.csv'))[1]).toEqual({
      family: 'nb2',
      transect_effect: 'false',
      shape: '',
      depth: 'curve',
      depth_df: '3',
      weight: '0',
      log_likelihood: '-124',
      parameters: '9',
      aicc: '',
      boundary: '\'=theta at its limit, "poisson"',
      in_choice: 'true',
      shore_pairs: '0',
    });
    const warnings = read(files.get('warnings.csv'));
    expect(warnings.map((w) => [w.code, w.table, w.row])).toEqual([
      ['rope-over-30-m', 'transects.csv', '3'],
      ['never-surveyed', 'substrate.geojson', '2'],
      ['left-out', 'model', ''],
    ]);
  });
});
