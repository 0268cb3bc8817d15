/** Coordinates read straight from the bytes: the numbers of JSON.parse, to the last bit, or left to it. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { skimCoordinates } from '../../src/read/coordinates.ts';
import { readGeoJson } from '../../src/read/geojson.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const skim = (coordinates: string) =>
  skimCoordinates(bytes(`{"type":"Feature","coordinates":${coordinates}}`));

describe('coordinates', () => {
  it('are flat numbers in as many lists as there are around positions; elevations are left out', () => {
    expect(skim('[ [[1, 2],[3,4 , 5]],\n[[6e1,-7.5]] ]')?.lists).toEqual([
      { level: 2, value: [Float64Array.of(1, 2, 3, 4), Float64Array.of(60, -7.5)] },
    ]);
    expect(skim('[1,2]')?.lists).toEqual([{ level: 0, value: Float64Array.of(1, 2) }]);
    expect(skim('[[[[0,0]]]]')?.lists).toEqual([{ level: 3, value: [[Float64Array.of(0, 0)]] }]);
  });

  it('leave their number in the rest, which is as it was otherwise', () => {
    const text =
      '{"name":"coordinates","coordinates" : [[1,2]],"é":{"coordinates":[3,4]},"coordinates":[]}';
    const skimmed = skimCoordinates(bytes(text));
    expect(new TextDecoder().decode(skimmed?.rest)).toBe(
      '{"name":"coordinates","coordinates" : [0],"é":{"coordinates":[1]},"coordinates":[]}',
    );
  });

  it('are rounded as JSON.parse rounds them', () => {
    const written = fc.oneof(
      fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
      fc.double({ min: -180, max: 180, noNaN: true }).map((v) => v.toFixed(9)),
      fc.double({ min: -180, max: 180, noNaN: true }).map((v) => v.toFixed(20)),
      fc.bigInt({ min: -(10n ** 25n), max: 10n ** 25n }).map(String),
      fc.double({ min: -180, max: 180, noNaN: true }).map((v) => v.toExponential(12)),
    );
    fc.assert(
      fc.property(written, (text) => {
        const value = skim(`[${text},-0]`)?.lists[0]?.value;
        expect(value).toEqual(Float64Array.of(JSON.parse(text), -0));
      }),
      { seed: 14, numRuns: 2000 },
    );
  });

  it.each([
    '[01,2]',
    '[1.,2]',
    '[.5,2]',
    '[+1,2]',
    '[1e,2]',
    '[1e999,2]',
    '[1]',
    '["1",2]',
    '[1,2',
    '[1,2,]',
    '[[1,2],[[3,4]]]',
    '[[1,2],3]',
    '[[]]',
    '[[[[[1,2]]]]]',
    '[1 2]',
    '[NaN,2]',
    '{}, "coordinates": [--1,2]',
  ])('are left to JSON.parse where they are odd: %s', (odd) => {
    expect(skim(odd)).toBeNull();
  });
});

describe('a map', () => {
  const read = (text: string) => readGeoJson('outline.geojson', bytes(text));
  const square = '[[[9,47],[9.1,47],[9.1,47.1],[9,47]]]';

  it('is the same read either way', () => {
    const geometry = (coordinates: string) =>
      `{"type":"GeometryCollection","geometries":[{"type":"Polygon","coordinates":${square}},{"type":"MultiPoint",` +
      `"coordinates":[[1,2],[3,4]]},{"type":"LineString","coordinates":[[5,6],[7,8]]},{"type":"Point","coordinates":${coordinates}}]}`;
    const fast = read(geometry('[9,10]'));
    // a letter of the key as its number: read as a whole
    const whole = read(geometry('[9,10]').replace('"coordinates"', '"co\\u006frdinates"'));
    expect(fast.findings).toEqual([]);
    expect(fast.features[0].points).toEqual(Float64Array.of(1, 2, 3, 4, 9, 10));
    expect(whole).toEqual(fast);
  });

  it('with a geometry whose lists are not as deep as its type wants is told', () => {
    expect(read(`{"type":"MultiPolygon","coordinates":${square}}`).findings[0].code).toBe(
      'unreadable-geometry',
    );
    expect(read('{"type":"Point","coordinates":[[9,47]]}').findings[0].code).toBe(
      'unreadable-geometry',
    );
  });

  it('that breaks off is told with its place in the file', () => {
    const { findings } = read(`{"type":"Polygon",\n"coordinates":${square},\n"a":1 "b":2}`);
    expect(findings[0].message).toContain('line 3');
  });
});
