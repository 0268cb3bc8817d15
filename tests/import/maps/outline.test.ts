/**
 * A shoreline out of pieces. The lakes are made here: their rings are the answer. Chance is seeded. Areas are compared with those
 * of the rings by the shoelace formula in a plane that the test lays itself: metres east and north of the demo lake.
 */

import { describe, expect, it } from 'vitest';
import { seeded } from '../../../models/numbers/random.ts';
import type {
  Answer,
  Ask,
  Question,
  RawFeature,
  RawGeometry,
  RawLayer,
} from '../../../shared/importing.ts';
import { lakeOutline } from '../../../src/import/maps/index.ts';

type Line = [number, number][];

const [LON, LAT] = [-84.96, 44.41];
const [EAST_M, NORTH_M] = [111_320 * Math.cos((LAT * Math.PI) / 180), 111_130];
const toLngLat = ([x, y]: [number, number]): [number, number] => [
  LON + x / EAST_M,
  LAT + y / NORTH_M,
];
const toPlane = ([lon, lat]: number[]): [number, number] => [
  (lon - LON) * EAST_M,
  (lat - LAT) * NORTH_M,
];

/** A ring of a radius in m that is not round. */
function ring(x: number, y: number, radiusM: number, vertices: number): Line {
  const open = Array.from({ length: vertices }, (_, k): [number, number] => {
    const turn = (2 * Math.PI * k) / vertices;
    const r = radiusM * (1 + 0.2 * Math.sin(3 * turn) + 0.05 * Math.cos(11 * turn));
    return [x + r * Math.cos(turn), y + r * Math.sin(turn)];
  });
  return [...open, open[0]];
}

function area(rings: Line[]): number {
  const of = (line: Line) =>
    Math.abs(
      line.reduce(
        (sum, [x, y], i) => (i === 0 ? 0 : sum + line[i - 1][0] * y - x * line[i - 1][1]),
        0,
      ),
    ) / 2;
  return of(rings[0]) - rings.slice(1).reduce((sum, each) => sum + of(each), 0);
}

function layerOf(geometries: RawGeometry[], file = 'shore.shp'): RawLayer {
  const features = geometries.map(
    (geometry, i): RawFeature => ({ geometry, properties: {}, row: i + 1 }),
  );
  return {
    file,
    layer: null,
    from: 'map',
    crs: { kind: 'epsg', code: 4326 },
    features,
    remarks: [],
  };
}

const lines = (list: Line[], file?: string) =>
  layerOf(
    list.map((line) => ({ type: 'LineString', coordinates: line.map(toLngLat) })),
    file,
  );
const areas = (list: Line[][], file?: string) =>
  layerOf(
    list.map((rings) => ({
      type: 'Polygon',
      coordinates: rings.map((each) => each.map(toLngLat)),
    })),
    file,
  );

/** Answers by id, else the proposal; what was asked is kept. */
function asker(answers: Record<string, Answer> = {}) {
  const asked: Question[] = [];
  const ask: Ask = (question) => {
    asked.push(question);
    return (answers[question.id] ?? question.proposal) as never;
  };
  return { ask, asked };
}

function ringsOf(outline: RawGeometry | null): Line[][] {
  if (outline?.type === 'Polygon') return [outline.coordinates.map((each) => each.map(toPlane))];
  if (outline?.type === 'MultiPolygon')
    return outline.coordinates.map((rings) => rings.map((each) => each.map(toPlane)));
  throw new Error(`got ${outline?.type}, expected an area`);
}

/** What the review marks on the outline, in words. */
const marksOf = ({ pictures }: ReturnType<typeof lakeOutline>) =>
  pictures.flatMap((picture) =>
    picture.kind === 'map'
      ? picture.shapes.flatMap(({ look, label }) =>
          look === 'fault' && label !== '' ? [label] : [],
        )
      : [],
  );

const LAKE = ring(0, 0, 600, 900);
const ISLANDS = [ring(150, 100, 40, 60), ring(-200, -50, 25, 40), ring(50, -250, 12, 30)];

/** Rings cut at random vertices; ends moved by up to half a gap in both directions, which puts them up to 1.4 gaps apart. */
function cut(rings: Line[], pieces: number, gapM: number, seed: number): Line[] {
  const { uniform: random } = seeded(seed);
  const total = rings.reduce((sum, each) => sum + each.length, 0);
  const list = rings.flatMap((each) => {
    const open = each.slice(0, -1);
    const n = Math.max(1, Math.round((pieces * each.length) / total));
    const starts = [
      ...new Set(Array.from({ length: 4 * n }, () => Math.floor(random() * open.length))),
    ]
      .slice(0, n)
      .sort((a, b) => a - b);
    return starts.map((a, k): Line => {
      const b = starts[(k + 1) % starts.length];
      const steps = (b - a + open.length) % open.length || open.length;
      const piece = Array.from(
        { length: steps + 1 },
        (_, i): [number, number] => [...open[(a + i) % open.length]] as [number, number],
      );
      for (const end of [piece[0], piece.at(-1)!]) {
        end[0] += (random() - 0.5) * gapM;
        end[1] += (random() - 0.5) * gapM;
      }
      return random() < 0.5 ? piece.reverse() : piece;
    });
  });
  for (let i = list.length - 1; i > 0; i--) {
    const k = Math.floor(random() * (i + 1));
    [list[i], list[k]] = [list[k], list[i]];
  }
  return list;
}

describe('a shoreline cut into 400 shuffled pieces, half of them reversed, with three islands', () => {
  const whole = area([LAKE, ...ISLANDS]);
  const perimeterM = 2 * Math.PI * 600 * 1.3;

  it('whose ends meet exactly: the same area, no question', () => {
    const { ask, asked } = asker();
    const pieces = cut([LAKE, ...ISLANDS], 400, 0, 1);
    expect(pieces.length).toBeGreaterThan(380);
    const made = lakeOutline([lines(pieces)], ask);
    const { outline, findings, remarks } = made;
    expect(marksOf(made)).toEqual([]);
    expect([asked, findings]).toEqual([[], []]);
    expect(remarks.length).toBe(1);
    const [rings] = ringsOf(outline);
    expect(rings.length).toBe(4);
    // degrees hold 1e-9 m here; the area adds up some 1,000 of them times 600 m
    expect(Math.abs(area(rings) - whole)).toBeLessThan(1e-3);
  });

  it('with ends 0.5 m apart: asked with the measured distance, and the ring within half a gap of the truth', () => {
    const { ask, asked } = asker();
    const pieces = cut([LAKE, ...ISLANDS], 400, 0.5, 2);
    const made = lakeOutline([lines(pieces)], ask);
    const { outline, findings } = made;
    // both ends of every piece, but for those that happen to meet within 2 cm
    expect(Number(/^\d+/.exec(marksOf(made)[0])?.[0])).toBeGreaterThan(1.9 * pieces.length);
    expect(asked.map(({ id }) => id)).toEqual(['outline.join']);
    expect(asked[0].evidence[0]).toMatch(/^\d+ of \d+ ends lie within 0\.\d m of another one/);
    expect(asked[0].proposal as number).toBeGreaterThan(0.4);
    expect(asked[0].proposal as number).toBeLessThan(1.1);
    expect(findings).toEqual([]);
    const [rings, ...more] = ringsOf(outline);
    expect(more).toEqual([]);
    expect(rings.length).toBe(4);
    // joints lie within 0.36 m of the ring, on both sides by chance
    expect(Math.abs(area(rings) - whole)).toBeLessThan(0.05 * perimeterM);
    const off = rings[0].map((p) =>
      Math.min(...LAKE.map((q) => Math.hypot(p[0] - q[0], p[1] - q[1]))),
    );
    expect(Math.max(...off)).toBeLessThan(0.36);
  });

  it('with three pieces twice and three spurs: both told, the ring the same', () => {
    const pieces = cut([LAKE, ...ISLANDS], 400, 0, 3);
    const spurs = [10, 100, 200].map(
      (k): Line => [pieces[k][0], [pieces[k][0][0] + 8, pieces[k][0][1] + 3]],
    );
    const { ask, asked } = asker();
    const made = lakeOutline([lines([...pieces, ...pieces.slice(20, 23), ...spurs])], ask);
    expect(asked).toEqual([]);
    expect(made.findings.map(({ code, message }) => [code, message.split(' ')[0]])).toEqual([
      ['shoreline-twice', '3'],
      ['shoreline-spur', '3'],
    ]);
    expect(marksOf(made)).toEqual(['3 × piece drawn twice', '3 × piece that leads nowhere']);
    const [rings] = ringsOf(made.outline);
    expect(rings.length).toBe(4);
    expect(Math.abs(area(rings) - whole)).toBeLessThan(1e-3);
  });

  it('without two of its pieces: the gaps are shown and asked, closed straight or left open', () => {
    const pieces = cut([LAKE], 60, 0, 4);
    const kept = pieces.filter((_, i) => i !== 5 && i !== 30);
    const { ask, asked } = asker({ 'outline.gaps': 'close' });
    const made = lakeOutline([lines(kept)], ask);
    const question = asked.find(({ id }) => id === 'outline.gaps')!;
    expect(question.evidence[0]).toMatch(/^2 gaps, the widest of/);
    const picture = question.pictures[0];
    expect(
      picture.kind === 'map' && picture.shapes.filter(({ look }) => look === 'fault').length,
    ).toBe(2);
    expect(ringsOf(made.outline)[0].length).toBe(1);
    expect(marksOf(made)).toEqual(['2 × gap closed by a straight line']);
    const left = lakeOutline([lines(kept)], asker({ 'outline.gaps': 'leave-out' }).ask);
    expect(left.outline).toBe(null);
    expect(left.findings.map(({ code }) => code)).toEqual(['shoreline-open', 'no-outline']);
  });
});

describe('lines that fork', () => {
  it('a dam across the lake: the outermost line, or both parts', () => {
    const open = LAKE.slice(0, -1);
    const half: Line[] = [open.slice(0, 451), [...open.slice(450), open[0]]];
    const dam: Line = [open[0], open[450]];
    const outermost = asker();
    const whole = lakeOutline([lines([...half, dam])], outermost.ask);
    expect(outermost.asked.map(({ id }) => id)).toEqual(['outline.forks']);
    expect(Math.abs(area(ringsOf(whole.outline)[0]) - area([LAKE]))).toBeLessThan(1e-3);
    // the dam runs through the middle: the parts add up to the whole, and one of them holds the waypoint
    const parts = asker({ 'outline.forks': 'every-part', 'outline.lake': 'all' });
    const both = lakeOutline([lines([...half, dam])], parts.ask);
    expect(
      Math.abs(ringsOf(both.outline).reduce((sum, rings) => sum + area(rings), 0) - area([LAKE])),
    ).toBeLessThan(2);
  });
});

describe('areas', () => {
  it('one area with islands is taken as it is, vertex by vertex', () => {
    const { ask, asked } = asker();
    const layer = areas([[LAKE, ...ISLANDS]]);
    const { outline, findings } = lakeOutline([layer], ask);
    expect([asked, findings]).toEqual([[], []]);
    expect(outline).toEqual(layer.features[0].geometry);
  });

  it('of three lakes the one that holds the waypoints, certain where it holds all', () => {
    const far = [ring(3000, 0, 900, 100), ring(0, 3000, 200, 100)];
    const near = [
      [0, 400],
      [100, -400],
    ].map(([x, y]) => toLngLat([x, y]));
    const { ask, asked } = asker();
    const { outline } = lakeOutline([areas([[far[0]], [LAKE], [far[1]]])], ask, { near });
    expect(asked.map(({ id, proposal, certain }) => [id, proposal, certain])).toEqual([
      ['outline.lake', 'with-waypoints', true],
    ]);
    expect(Math.abs(area(ringsOf(outline)[0]) - area([LAKE]))).toBeLessThan(1e-3);
    const largest = lakeOutline(
      [areas([[far[0]], [LAKE]])],
      asker({ 'outline.lake': 'largest' }).ask,
      { near },
    );
    expect(Math.abs(area(ringsOf(largest.outline)[0]) - area([far[0]]))).toBeLessThan(1e-3);
  });

  it('a map of a thousand lakes over a state: those by the waypoints, told; without waypoints and over a continent, an error', () => {
    const many = Array.from({ length: 1000 }, (_, i): Line[] => [
      ring(4000 * ((i % 40) - 20), 4000 * (Math.floor(i / 40) - 12), 300, 12),
    ]);
    const near = [
      [0, 0],
      [50, 50],
    ].map(([x, y]) => toLngLat([x, y]));
    const { ask, asked } = asker();
    const made = lakeOutline([areas(many)], ask, { near });
    expect(made.remarks[0]).toMatch(/^Of 1,000 shapes of the outline \d+ lie by the waypoints/);
    expect(asked.map(({ id, proposal }) => [id, proposal])).toEqual([
      ['outline.lake', 'with-waypoints'],
    ]);
    expect(Math.abs(area(ringsOf(made.outline)[0]) - area([ring(0, 0, 300, 12)]))).toBeLessThan(
      1e-3,
    );
    const wide = lakeOutline([areas([[LAKE], [ring(2e6, 0, 300, 12)]])], ask);
    expect(wide.findings.map(({ code }) => code)).toEqual(['outline-too-wide']);
  });

  it('islands from a second file, and from closed contours of 0 m: asked, and cut out', () => {
    for (const [id, made] of [
      [
        'outline.islands',
        (ask: Ask) =>
          lakeOutline(
            [
              areas([[LAKE]]),
              areas(
                ISLANDS.map((each) => [each]),
                'islands.shp',
              ),
            ],
            ask,
          ),
      ],
      [
        'outline.islands-from-contours',
        (ask: Ask) =>
          lakeOutline([areas([[LAKE]])], ask, {
            zeroContours: [lines([LAKE, ...ISLANDS], 'contours.shp')],
          }),
      ],
    ] as const) {
      const { ask, asked } = asker();
      const { outline } = made(ask);
      expect(asked.map((q) => [q.id, q.proposal])).toEqual([[id, 'islands']]);
      expect(ringsOf(outline)[0].length).toBe(4);
      expect(Math.abs(area(ringsOf(outline)[0]) - area([LAKE, ...ISLANDS]))).toBeLessThan(1e-3);
      const water = made(asker({ [id]: 'water', 'outline.lake': 'all' }).ask);
      expect(Math.abs(area(ringsOf(water.outline)[0]) - area([LAKE]))).toBeLessThan(2);
    }
  });

  it('a layer of islands is taken for that without a question, as areas or in pieces; what lies outside is told', () => {
    const { ask, asked } = asker();
    const beside = ring(5000, 0, 30, 20);
    const made = lakeOutline([areas([[LAKE]])], ask, {
      islands: [
        areas(
          [...ISLANDS, beside].map((each) => [each]),
          'islands.shp',
        ),
      ],
    });
    expect(asked).toEqual([]);
    expect(made.findings.map(({ code, message }) => [code, message.slice(0, 6)])).toEqual([
      ['island-outside', '1 of 4'],
    ]);
    expect(Math.abs(area(ringsOf(made.outline)[0]) - area([LAKE, ...ISLANDS]))).toBeLessThan(1e-3);
    const pieces = lakeOutline([lines(cut([LAKE], 40, 0, 8))], ask, {
      islands: [lines(cut(ISLANDS, 12, 0, 9), 'islands.shp')],
    });
    expect(asked).toEqual([]);
    expect(ringsOf(pieces.outline)[0].length).toBe(4);
  });

  it('a lake in two sheets of a map is one, to the millimetre that areas are united by', () => {
    const square = (x0: number, x1: number): Line => [
      [x0, 0],
      [x1, 0],
      [x1, 400],
      [x0, 400],
      [x0, 0],
    ];
    const { ask, asked } = asker();
    const { outline } = lakeOutline([areas([[square(0, 300)], [square(300, 900)]])], ask);
    expect(asked).toEqual([]);
    expect(ringsOf(outline).length).toBe(1);
    expect(Math.abs(area(ringsOf(outline)[0]) - 900 * 400)).toBeLessThan(2);
  });

  it('a line that crosses itself is told with its place, and mended', () => {
    // two triangles of 100 × 100 / 2 each by hand, joined at a crossing
    const bow: Line = [
      [0, 0],
      [200, 200],
      [200, 0],
      [0, 200],
      [0, 0],
    ];
    const { outline, findings } = lakeOutline([areas([[bow]])], asker().ask);
    expect(findings.map(({ code, message }) => [code, message])).toEqual([
      ['outline-crosses-itself', expect.stringContaining('crosses itself at 1 place')],
    ]);
    const total = ringsOf(outline).reduce((sum, rings) => sum + area(rings), 0);
    expect(Math.abs(total - (2 * (200 * 100)) / 2)).toBeLessThan(2);
  });

  it('slivers are marked where they lie, in the picture of what is asked about the lake', () => {
    const sliver = (x: number): Line => [
      [x, 100],
      [x + 0.5, 100],
      [x + 0.5, 100.5],
      [x, 100],
    ];
    const far = sliver(9000);
    const polygons = [
      [far],
      [ring(0, 0, 200, 60)],
      [sliver(500)],
      [ring(900, 0, 150, 60)],
      [sliver(700)],
    ];
    const { ask, asked } = asker();
    lakeOutline([areas(polygons)], ask);
    // and in the review, whatever is asked
    const both = lakeOutline([areas(polygons)], asker({ 'outline.lake': 'all' }).ask);
    expect(marksOf(both)).toEqual([
      '2 × sliver of less than 1 m², left out (1 more far from the lake)',
    ]);
    const [picture] = asked[0].pictures;
    const faults = picture.kind === 'map' ? picture.shapes.filter((s) => s.look === 'fault') : [];
    expect(faults).toEqual([
      {
        look: 'fault',
        label: '2 slivers left out',
        option: null,
        geometry: {
          type: 'MultiPoint',
          coordinates: [sliver(500)[0], sliver(700)[0]].map(toLngLat),
        },
      },
    ]);
  });

  it('points in their order along the shore are its line, which is told; where two are out of order, that is told', () => {
    const shore = ring(0, 0, 300, 40);
    const layer = (places: Line) =>
      layerOf(places.map((place) => ({ type: 'Point', coordinates: toLngLat(place) }) as const));
    const made = lakeOutline([layer(shore.slice(0, -1))], asker().ask);
    expect(Math.abs(area(ringsOf(made.outline)[0]) - area([shore]))).toBeLessThan(1e-3);
    expect(made.findings).toEqual([]);
    expect(made.remarks.join(' ')).toContain('40 points are joined to a line in the order');
    // two neighbours on a circle exchanged: the line crosses itself there, which is told as of any line
    const circle = Array.from({ length: 40 }, (_, i): [number, number] => [
      300 * Math.cos((i * Math.PI) / 20),
      300 * Math.sin((i * Math.PI) / 20),
    ]);
    const swapped = [...circle.slice(0, 10), circle[11], circle[10], ...circle.slice(12)];
    const crossed = lakeOutline([layer(swapped)], asker().ask);
    expect(crossed.findings.map(({ code }) => code)).toEqual(['outline-crosses-itself']);
  });

  it('points alone, or slivers alone, give no outline, and say so', () => {
    const points = layerOf([{ type: 'Point', coordinates: [LON, LAT] }]);
    expect(lakeOutline([points], asker().ask).findings.map(({ code }) => code)).toEqual([
      'no-outline',
    ]);
    const sliver: Line = [
      [0, 0],
      [0.5, 0],
      [0.5, 0.5],
      [0, 0],
    ];
    expect(lakeOutline([areas([[sliver]])], asker().ask).findings.map(({ code }) => code)).toEqual([
      'outline-sliver',
      'no-outline',
    ]);
  });
});
