/** What of the bed is inside of the survey, what is not and why, and what is said about faulty maps. */

import { describe, expect, it } from 'vitest';
import { DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import { formatFinding } from '../../shared/findings.ts';
import { REASONS, type XY } from '../../shared/survey.ts';
import { layBed } from '../../src/lake/bed.ts';
import { tooSteep } from '../../src/lake/bounds.ts';
import { BedCollector } from '../../src/lake/collector.ts';
import { lakeMaps, OUTLINE, PATCH } from '../../src/lake/maps.ts';
import {
  ANYWHERE,
  areaBy,
  bedOf,
  FLAT,
  formula,
  lakeOf,
  lay,
  mappedM2,
  type Patch,
  random,
  rectangle,
  round,
  shoelace,
} from './ground.ts';

const POOL = [rectangle(0, 0, 100, 100)];
const strip = (x0: number, x1: number) => [rectangle(x0, 0, x1, 100)];

describe('depth that changes by many metres within cells', () => {
  const frame = { x0: 0, y0: 10, cellM: 1, nx: 10, ny: 10 };
  // 0 m and 30 m in turn at the corners: some hundred pieces a cell
  const depth = formula((x, y) => ((Math.round(x) + Math.round(y)) % 2) * 30);
  const collect = (mostPieces: number) => {
    const collector = new BedCollector({
      frame,
      depth,
      layerOf: [OUTLINE, PATCH],
      areaOf: [100, 100],
      restricted: false,
      habitatOf: [0, 0],
      reasonOf: [0, 0],
      depthFromM: 0,
      depthToM: 1000,
      mostPieces,
    });
    collector.block({ x0: 0, y0: 0, x1: 10, y1: 10 }, [0, 1, 1, 1]);
    return collector;
  };

  it('is looked at no further once the bed has more pieces than are kept', () => {
    const whole = collect(1e6);
    expect(whole.tooSteep).toBe(false);
    expect(whole.pieces.length).toBeGreaterThan(2000);
    const refused = collect(500);
    expect(refused.tooSteep).toBe(true);
    expect(refused.done).toBe(true);
    expect(refused.pieces.length).toBeLessThan(1000);
  });

  it('is an error of the map of depth', () => {
    expect(formatFinding(tooSteep('depth.geojson', frame))).toBe(
      'depth.geojson: within cells of 1 m the depth changes by so many metres that the bed falls into more than 10,000,300 pieces ' +
        '(one or a few a cell expected, which is cut at each whole metre; are there wrong depths, or noise?)',
    );
  });
});

describe('inside and outside of the surveyed domain', () => {
  it('names the first reason that applies, in the order of the list', () => {
    const patches = [
      { polygons: [strip(0, 20)] },
      { polygons: [strip(20, 40)], substrate: ['silt'] },
      { polygons: [strip(40, 60)], plantCover: 4 },
      { polygons: [strip(60, 80)], plantCover: 0 },
      { polygons: [strip(80, 100)], substrate: ['sand', 'silt'], plantCover: 4 },
    ];
    // by height: unmapped above 50, too deep from 25 to 50, within reach below
    const depth = formula((_, y) => (y > 51 ? Number.NaN : y > 26 ? 9 : 2));
    const domain = { ...ANYWHERE, depthToM: 5, plantCover: { from: 0, to: 3 } };
    const bed = bedOf([POOL], patches, { depth, domain, cellM: 1 });
    const sums = areaBy(bed, (i) => `${bed.pieces.habitat[i]} ${REASONS[bed.pieces.reason[i]]}`);
    expect(Object.keys(sums).sort()).toEqual([
      '0 depth',
      '0 depth unmapped',
      '0 inside',
      '1 substrate',
      '2 plant cover',
      '3 depth',
      '3 depth unmapped',
      '3 inside',
      '4 substrate',
    ]);
    for (const key of ['1 substrate', '2 plant cover', '4 substrate'])
      expect(sums[key]).toBeCloseTo(2000, 8);
    expect(sums['0 depth'] + sums['0 depth unmapped'] + sums['0 inside']).toBeCloseTo(2000, 8);
  });

  it('takes a mixture for inside only when all of its classes were surveyed', () => {
    const patches = [
      { polygons: [strip(0, 50)], substrate: ['sand', 'gravel'] },
      { polygons: [strip(50, 100)], substrate: ['gravel', 'mud'] },
    ];
    const bed = bedOf([POOL], patches);
    const sums = areaBy(bed, (i) => REASONS[bed.pieces.reason[i]]);
    expect(sums).toEqual({ inside: 5000, substrate: 5000 });
  });

  it('takes a polygon without plant cover for inside when the model uses plants', () => {
    const domain = { ...ANYWHERE, plantCover: { from: 1, to: 2 } };
    const patches = [{ polygons: [strip(0, 30)] }, { polygons: [strip(30, 100)], plantCover: 0 }];
    const bed = bedOf([POOL], patches, { domain });
    expect(areaBy(bed, (i) => REASONS[bed.pieces.reason[i]])).toEqual({
      inside: 3000,
      'plant cover': 7000,
    });
  });

  it('ignores plant cover when the model does', () => {
    const bed = bedOf([POOL], [{ polygons: [POOL], plantCover: 4 }]);
    expect(areaBy(bed, (i) => REASONS[bed.pieces.reason[i]])).toEqual({ inside: 10000 });
  });

  it('counts a depth at a limit as inside', () => {
    for (const depthM of [2, 5]) {
      const domain = { ...ANYWHERE, depthFromM: 2, depthToM: 5 };
      const bed = bedOf([POOL], [{ polygons: [POOL] }], { depth: formula(() => depthM), domain });
      expect(areaBy(bed, (i) => `${REASONS[bed.pieces.reason[i]]} ${bed.pieces.band[i]}`)).toEqual({
        [`inside ${depthM}`]: 10000,
      });
    }
  });

  it('lists each habitat of the map once', () => {
    const patches = [
      { polygons: [strip(0, 30)], plantCover: 1 },
      { polygons: [strip(30, 60)], substrate: ['rock'] },
      { polygons: [strip(60, 100)], plantCover: 1 },
    ];
    const bed = bedOf([POOL], patches);
    expect(bed.habitats).toEqual([
      { substrate: ['sand'], plantCover: 1 },
      { substrate: ['rock'], plantCover: null },
    ]);
    expect(areaBy(bed, (i) => bed.pieces.habitat[i])).toEqual({ 0: 7000, 1: 3000 });
  });

  it('cuts the map off at the outline and leaves the rest of the lake as unmapped', () => {
    const bed = bedOf([POOL], [{ polygons: [[rectangle(-500, -500, 40, 500)]] }]);
    expect(mappedM2(bed)).toBeCloseTo(4000, 8);
    expect(bed.unmappedM2).toBeCloseTo(6000, 8);
    expect(bed.outlineM2).toBeCloseTo(10000, 8);
  });

  it('finds nothing unmapped where polygons share the whole of a round lake', () => {
    // of 30 lakes tried, sums of this one's pieces differ most: by 1.4e-12 m²
    const ring = Array.from({ length: 49 }, (_, i): XY => {
      const angle = (2 * Math.PI * (i % 48)) / 48;
      return [51 * Math.cos(angle), 27 * Math.sin(angle)];
    });
    const sixths = [0, 8, 16, 24, 32, 40].map((from): Patch => {
      const centre: XY = [0, 0];
      return { polygons: [[[centre, ...ring.slice(from, from + 9), centre]]] };
    });
    const bed = bedOf([[ring]], sixths);
    expect(bed.unmappedM2).toBe(0);
  });

  it('says so when the map misses the lake', () => {
    const { bed, findings } = lay([POOL], [{ polygons: [[rectangle(500, 500, 600, 600)]] }]);
    expect(bed?.pieces.count).toBe(0);
    expect(bed?.unmappedM2).toBeCloseTo(10000, 8);
    expect(findings.map(formatFinding)).toEqual([
      'notice: substrate.geojson: no polygon lies within the outline; all of the lake is left as unmapped',
    ]);
  });

  it('is nothing without an outline or a substrate map', () => {
    const lake = lakeOf([POOL], [{ polygons: [POOL] }]);
    const depth = formula(() => 1);
    for (const part of [{ outline: null }, { substrate: null }]) {
      const { bed, findings } = layBed(
        lakeMaps({ ...lake, ...part }, 'outline' in part ? null : [POOL], FLAT),
        DEFAULT_ANALYSIS,
        depth,
        ANYWHERE,
      );
      expect(bed).toBeNull();
      expect(findings).toEqual([]);
    }
  });
});

describe('the grid', () => {
  it('has its lines at multiples of the cell, around the outline', () => {
    const bed = bedOf([[rectangle(-7, 12, 21, 33)]], [{ polygons: [POOL] }], { cellM: 10 });
    expect(bed.frame).toEqual({ x0: -10, y0: 40, cellM: 10, nx: 4, ny: 3 });
  });

  it('numbers cells by rows from the top', () => {
    const bed = bedOf([POOL], [{ polygons: [[rectangle(90, 0, 100, 10)]] }], { cellM: 10 });
    expect([...bed.pieces.cell]).toEqual([99]);
  });

  it('gives the depth at the centre of each cell of the lake, no data elsewhere', () => {
    const triangle: XY[] = [
      [0, 0],
      [30, 0],
      [0, 30],
      [0, 0],
    ];
    const bed = bedOf([[triangle]], [], { cellM: 10, depth: formula((x) => x / 10) });
    const row = (r: number) => [...bed.cellDepthM.slice(3 * r, 3 * r + 3)];
    expect(row(0)).toEqual([0.5, Number.NaN, Number.NaN]);
    expect(row(1)).toEqual([0.5, 1.5, Number.NaN]);
    expect(row(2)).toEqual([0.5, 1.5, 2.5]);
  });

  it('is refused above 50 million cells, with a cell that would do', () => {
    const { bed, findings } = lay([[rectangle(0, 0, 40000, 40000)]], [], { cellM: 5 });
    expect(bed).toBeNull();
    expect(findings.map(formatFinding)).toEqual([
      'analysis.json, map.cell_m: 5 gives a grid of 8000 × 8000 cells around the outline, ' +
        'which is 40 km wide and 40 km high (at most 50 million cells expected; 5.8 would do)',
    ]);
    expect(Math.ceil(40000 / 5.8) ** 2).toBeLessThan(50e6);
  });
});

describe('treatment areas', () => {
  it('restrict the bed to their polygons', () => {
    const area = [[rectangle(20, 20, 40, 60)]];
    const bed = bedOf([POOL], [{ polygons: [strip(0, 30)] }], { within: area });
    expect(bed.outlineM2).toBeCloseTo(800, 9);
    expect(mappedM2(bed)).toBeCloseTo(400, 9);
    expect(bed.unmappedM2).toBeCloseTo(400, 9);
  });

  it('count once where their polygons overlap, and only within the outline', () => {
    const area = [[rectangle(-50, 0, 10, 10)], [rectangle(5, 5, 15, 15)]];
    const bed = bedOf([POOL], [{ polygons: [POOL] }], { within: area });
    expect(bed.outlineM2).toBeCloseTo(100 + 100 - 25, 9);
    expect(mappedM2(bed)).toBeCloseTo(175, 9);
  });

  it('off the lake hold nothing', () => {
    for (const area of [[[rectangle(200, 0, 300, 10)]], [[rectangle(-50, 40, -10, 60)]]]) {
      const bed = bedOf([POOL], [{ polygons: [POOL] }], { within: area });
      expect([bed.outlineM2, bed.unmappedM2, bed.pieces.count]).toEqual([0, 0, 0]);
    }
  });

  it('agree with the whole lake, piece for piece, when they hold all of it', () => {
    const next = random(4);
    const outline = [round(0, 0, () => 60 + 40 * next(), 90)];
    const patches = [{ polygons: [[rectangle(-200, -200, 3, 200)]] }];
    const depth = formula((x, y) => Math.hypot(x, y) / 20);
    const whole = bedOf([outline], patches, { depth });
    const within = bedOf([outline], patches, {
      depth,
      within: [[rectangle(-300, -300, 300, 300)]],
    });
    expect(within.pieces).toEqual(whole.pieces);
  });

  // of 3,000 vertices most lie beyond a half's frame and are passed over
  it.each([90, 3000])('that together make up a lake of %d vertices add up to it', (vertices) => {
    const next = random(9);
    const outline = [round(0, 0, () => 60 + 40 * next(), vertices)];
    const patches = [{ polygons: [[rectangle(-200, -200, 3, 200)]] }];
    const halves = [rectangle(-200, -200, 7.3, 200), rectangle(7.3, -200, 200, 200)].map((half) =>
      bedOf([outline], patches, { within: [[half]] }),
    );
    const whole = bedOf([outline], patches);
    expect(halves[0].outlineM2 + halves[1].outlineM2).toBeCloseTo(whole.outlineM2, 8);
    expect(mappedM2(halves[0]) + mappedM2(halves[1])).toBeCloseTo(mappedM2(whole), 8);
    expect(whole.outlineM2).toBeCloseTo(shoelace(outline[0]), 8);
  });
});

describe('overlapping polygons', () => {
  it('are an error above 1 m² and 0.1 % of the smaller', () => {
    const { bed, findings } = lay(
      [POOL],
      [{ polygons: [strip(0, 50)] }, { polygons: [strip(48, 100)] }],
    );
    expect(bed).toBeNull();
    expect(findings.map(formatFinding)).toEqual([
      'substrate.geojson feature 2: overlaps feature 1 by 200 m², 4 % of the smaller (polygons side by side expected)',
    ]);
  });

  it('are told for every pair, the later feature naming the earlier', () => {
    const { findings } = lay(
      [POOL],
      [{ polygons: [strip(0, 50)] }, { polygons: [strip(30, 70)] }, { polygons: [strip(60, 100)] }],
    );
    expect(findings.map((f) => [f.severity, f.row, f.message.slice(0, 31)])).toEqual([
      ['error', 2, 'overlaps feature 1 by 2000 m², '],
      ['error', 3, 'overlaps feature 2 by 1000 m², '],
    ]);
  });

  it('are a notice below either limit, and the first one counts', () => {
    // 100 × 0.04 m = 4 m², 0.08 % of 5,004 m²; and a small square wholly within, 0.81 m²
    const patches = [
      { polygons: [strip(0, 50.02)], plantCover: 0 },
      { polygons: [strip(49.98, 100)], plantCover: 1 },
      { polygons: [[rectangle(10, 10, 10.9, 10.9)]], plantCover: 2 },
    ];
    const { bed, findings } = lay([POOL], patches);
    expect(findings.map(formatFinding)).toEqual([
      'notice: substrate.geojson: 2 pairs of polygons overlap slightly, by 4.81 m² in all ' +
        '(most: features 1 and 2); the first in the file counts there',
    ]);
    const sums = areaBy(bed!, (i) => bed!.pieces.habitat[i]);
    expect(sums[0]).toBeCloseTo(5002, 8);
    expect(sums[1]).toBeCloseTo(4998, 8);
    expect(sums[2]).toBeUndefined();
    expect(bed!.unmappedM2).toBeCloseTo(0, 8);
  });

  it('are measured within the outline alone', () => {
    const far = rectangle(80, 0, 300, 100);
    const { bed, findings } = lay(
      [POOL],
      [
        { polygons: [strip(0, 50)] },
        { polygons: [[far]] },
        { polygons: [[rectangle(150, 0, 300, 100)]] },
      ],
    );
    expect(findings).toEqual([]);
    expect(mappedM2(bed!)).toBeCloseTo(7000, 8);
  });

  it('that share a border rounded differently are one notice, however many they are', () => {
    // 40 sectors of a disc: the arcs between them have their vertices at different places
    const next = random(8);
    const sectors = Array.from({ length: 40 }, (_, k) => {
      const [from, to] = [(2 * Math.PI * k) / 40, (2 * Math.PI * (k + 1)) / 40];
      const wiggle = () => (next() - 0.5) * 0.02;
      const at = (angle: number, r: number): XY => [
        r * Math.cos(angle) + wiggle(),
        r * Math.sin(angle) + wiggle(),
      ];
      const ring = [
        at(0, 0),
        at(from, 30),
        at(from, 80),
        at((from + to) / 2, 80),
        at(to, 80),
        at(to, 50),
      ];
      return { polygons: [[[...ring, ring[0]]]] };
    });
    const { bed, findings } = lay([[round(0, 0, 100, 200)]], sectors);
    expect(findings.map((f) => [f.severity, f.code])).toEqual([
      ['notice', 'polygons-overlap-slightly'],
    ]);
    expect(bed!.unmappedM2 + mappedM2(bed!)).toBeCloseTo(bed!.outlineM2, 8);
  });

  it('that share a border exactly are no overlap', () => {
    const next = random(6);
    const border: XY[] = Array.from({ length: 60 }, (_, k) => [
      40 + 20 * next(),
      (100 * (k + 1)) / 61,
    ]);
    const left: XY[] = [[0, 0], [50, 0], ...border, [50, 100], [0, 100], [0, 0]];
    const right: XY[] = [[100, 0], [50, 0], ...border, [50, 100], [100, 100], [100, 0]];
    const { bed, findings } = lay(
      [POOL],
      [{ polygons: [[left]] }, { polygons: [[right]], plantCover: 1 }],
    );
    expect(findings).toEqual([]);
    const sums = areaBy(bed!, (i) => bed!.pieces.habitat[i]);
    expect(sums[0]).toBeCloseTo(shoelace(left), 8);
    expect(sums[1]).toBeCloseTo(shoelace(right), 8);
  });

  it('within one feature, or of the outline, are an error too', () => {
    const twice = [strip(0, 50), strip(40, 100)];
    const patch = lay([POOL], [{ polygons: twice }]);
    expect(patch.findings.map(formatFinding)).toEqual([
      'substrate.geojson feature 1: one of its polygons overlaps itself by 1000 m², 20 % of the smaller ' +
        '(polygons side by side expected, islands as holes)',
    ]);
    const outline = lay([POOL, [rectangle(30, 30, 50, 50)]], [{ polygons: [POOL] }]);
    expect(outline.findings.map(formatFinding)).toEqual([
      'outline.geojson feature 2: one of its polygons overlaps another polygon of the outline by 400 m², ' +
        '100 % of the smaller (polygons side by side expected, islands as holes)',
    ]);
  });

  it('with three deep give each place to the first', () => {
    const tiny = (x: number) => [rectangle(x, 10, x + 0.9, 10.9)];
    const patches = [0, 0.3, 0.6].map((dx, k) => ({ polygons: [tiny(10 + dx)], plantCover: k }));
    const { bed } = lay([POOL], patches);
    const sums = areaBy(bed!, (i) => bed!.pieces.habitat[i]);
    expect(sums[0]).toBeCloseTo(0.81, 9);
    expect(sums[1]).toBeCloseTo(0.27, 9);
    expect(sums[2]).toBeCloseTo(0.27, 9);
  });
});

describe('polygons on one place', () => {
  const copies = (n: number) => Array.from({ length: n }, () => strip(0, 30));

  it('are refused as soon as there are more pairs than can be listed', () => {
    const patches = copies(300).map((polygon) => ({ polygons: [polygon] }));
    const { bed, findings } = lay([POOL], patches);
    expect(bed).toBeNull();
    const lines = findings.map(formatFinding);
    expect(lines).toHaveLength(21);
    expect(lines[0]).toMatch(/^substrate.geojson feature 2: overlaps feature 1 by /);
    expect(lines[20]).toMatch(/^substrate.geojson: more pairs of polygons overlap; /);
  });

  it('are refused as parts of the outline too', () => {
    const { bed, findings } = lay(
      Array.from({ length: 300 }, () => POOL),
      [],
    );
    expect(bed).toBeNull();
    expect(findings[0]?.message).toMatch(
      /^one of its polygons overlaps another polygon of the outline by /,
    );
  });

  it('count once within a treatment area', () => {
    const within = Array.from({ length: 30 }, () => [rectangle(20, 20, 40, 60)]);
    const bed = bedOf([POOL], [{ polygons: [strip(0, 30)] }], { within });
    expect(bed.outlineM2).toBeCloseTo(800, 9);
  });
});
