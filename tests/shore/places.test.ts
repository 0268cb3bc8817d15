/** Places along the shore of a square lake with an island, by hand, and a bed told apart by them. */

import { expect, it } from 'vitest';
import type { Bed, PlacedTransect, XY, XYPolygon } from '../../shared/survey.ts';
import { bedAlong } from '../../src/estimate/bed-along.ts';
import { alongShore } from '../../src/shore/index.ts';
import { handMadeResult } from '../helpers/result.ts';

/** 100 m a side from the south-west corner northwards: west, north, east, south; an island in the middle. */
const LAKE: XYPolygon = [
  [
    [0, 0],
    [0, 100],
    [100, 100],
    [100, 0],
    [0, 0],
  ],
  [
    [45, 45],
    [55, 45],
    [55, 55],
    [45, 55],
    [45, 45],
  ],
];

function transectAt(name: string, start: XY): PlacedTransect {
  const [placed] = handMadeResult().placed;
  if (placed === undefined) throw new Error('the hand-made result has transects');
  return { ...placed, transect: { ...placed.transect, transect: name }, start, end: start };
}

const STARTS: [string, XY][] = [
  ['west', [3, 30]],
  ['east', [96, 60]],
  ['island', [43, 50]],
];
const shore = alongShore(
  [LAKE],
  STARTS.map(([name, start]) => transectAt(name, start)),
);
if (shore === null) throw new Error('got no shore');

it('transects have a share of the ring on which most of them lie, and an order on their own', () => {
  // 30 m of 400 m; 200 m and 40 m down the east side; the island's 43 m from the west shore is 50 m up it
  expect([...shore.shares]).toEqual([
    ['west', 30 / 400],
    ['east', 240 / 400],
    ['island', 50 / 400],
  ]);
  expect(shore.rings).toEqual([
    {
      lengthM: 400,
      transects: [
        { transect: 'west', alongM: 30 },
        { transect: 'east', alongM: 240 },
      ],
      greatestGapM: 210,
    },
    // 35 m along: three sides of 10 m and half of the last
    { lengthM: 40, transects: [{ transect: 'island', alongM: 35 }], greatestGapM: 40 },
  ]);
});

it('cells have the place of the nearest side, and habitats are told apart by it', () => {
  // cells of 20 m; the corner to the north-west is as far from west and north, and the earlier side counts
  const frame = { x0: 0, y0: 100, cellM: 20, nx: 5, ny: 5 };
  const places = shore.cellPlaces(frame, 4);
  const row = (y: number) => [...places.subarray(5 * y, 5 * y + 5)];
  expect(row(2)).toEqual([0, 0, expect.anything(), 2, 2]);
  expect(row(0).slice(1, 4)).toEqual([1, 1, 1]);
  expect(row(4).slice(1, 4)).toEqual([3, 3, 3]);

  const cells = [10, 14, 10, 2];
  const bed: Bed = {
    frame,
    habitats: [
      { substrate: ['sand'], plantCover: 0 },
      { substrate: ['rock'], plantCover: 1 },
    ],
    pieces: {
      count: 4,
      cell: Int32Array.from(cells),
      habitat: Uint16Array.from([0, 0, 1, 1]),
      areaM2: new Float64Array(4).fill(1),
      depthM: new Float64Array(4).fill(1),
      reason: new Uint8Array(4),
      band: new Uint16Array(4),
    },
    outlineM2: 10_000,
    unmappedM2: 0,
    cellDepthM: new Float32Array(25),
  };
  const apart = bedAlong(bed, shore);
  // middles of cells at 50 m up the west side, 50 m down the east side and 50 m along the north side, of 400 m
  expect([...apart.pieces.habitat].map((h) => apart.habitats[h].substrate[0])).toEqual([
    'sand',
    'sand',
    'rock',
    'rock',
  ]);
  [50, 250, 50, 150].forEach((alongM, i) => {
    const share = apart.habitats[apart.pieces.habitat[i]].shore ?? -1;
    expect(Math.abs(share - alongM / 400)).toBeLessThan(1 / 144 + 1e-12);
  });
});
