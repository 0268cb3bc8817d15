/** From the survey's records to what the map draws. The survey is written by hand; distances and counts by hand too. */

import { createExpression } from '@maplibre/maplibre-gl-style-spec';
import GeographicLib from 'geographiclib-geodesic';
import type { LineString, Point, Polygon } from 'geojson';
import { describe, expect, it } from 'vitest';
import { errorAt, noticeAt } from '../../../shared/findings.ts';
import { positionsFrom } from '../../../shared/positions.ts';
import type { LngLat } from '../../../shared/survey.ts';
import {
  countShapes,
  departureShapes,
  largestCountM,
} from '../../../src/app/map/features/counts.ts';
import { findingShapes } from '../../../src/app/map/features/findings.ts';
import { boundsOf, directionDeg, type Places, stepped } from '../../../src/app/map/features/geo.ts';
import {
  contourRanks,
  lakeShapes,
  MOST_VERTICES,
} from '../../../src/app/map/features/lake-shapes.ts';
import { lakeKey, placesToFit, transectZooms } from '../../../src/app/map/features/map-content.ts';
import { residualShapes } from '../../../src/app/map/features/residuals.ts';
import { placeAlong, transectShapes } from '../../../src/app/map/features/transects.ts';
import { countRadius } from '../../../src/app/map/layer-parts.ts';
import { metresPerPixel } from '../../../src/app/map/scale.ts';
import { detectedByTransect } from '../../../src/present/transect-counts.ts';
import { handMadeResult } from '../../helpers/result.ts';

const geodesic = GeographicLib.Geodesic.WGS84;
const metres = (a: LngLat, b: LngLat) => geodesic.Inverse(a[1], a[0], b[1], b[0]).s12!;
const azimuth = (a: LngLat, b: LngLat) =>
  (geodesic.Inverse(a[1], a[0], b[1], b[0]).azi1! + 360) % 360;

const result = handMadeResult();
const classes = result.analysis.substrates;
const detected = detectedByTransect(result.segments, result.survey);
const transects = transectShapes({ ...result, detected, classes });
const ofKind = (kind: string, from = transects.lines) =>
  from.features.filter((f) => f.properties.kind === kind);
const coordinates = (f: { geometry: unknown }) => (f.geometry as Point).coordinates as LngLat;

describe('directions and steps on the map', () => {
  it.each([0, 33, 90, 200, 341])(
    '%i°: agree with the geodesic to what a drawing needs',
    (bearing) => {
      const from: LngLat = [-84.96, 44.41];
      const to = stepped(from, bearing, 30);
      // a sphere for the ellipsoid: 0.4 % of length and 0.2° are under a pixel on a transect of 30 m
      expect(Math.abs(metres(from, to) - 30)).toBeLessThan(0.12);
      const turned = Math.abs(azimuth(from, to) - bearing) % 360;
      expect(Math.min(turned, 360 - turned)).toBeLessThan(0.2);
      expect(directionDeg(from, to)).toBeCloseTo(bearing, 3);
    },
  );
});

describe('transects', () => {
  it('are one line and one mark a transect, with what was found on it', () => {
    expect(ofKind('transect').map((f) => f.properties.transect)).toEqual(['T1', '=T2']);
    expect(transects.marks.features.map((f) => f.properties)).toMatchObject([
      { clusters: 2, mussels: 5, flagged: false, inferred: true },
      { clusters: 1, mussels: 7, flagged: false, inferred: true },
    ]);
    // transects run east in the plane, whose north is true north near its centre
    for (const f of transects.marks.features)
      expect(Math.abs(Number(f.properties.bearing) - 90)).toBeLessThan(0.1);
  });

  it('have a mark every half metre, longer at metres, longest at five', () => {
    const kinds = ofKind('tick').map((f) => f.properties.length);
    const each = (kind: string) => kinds.filter((k) => k === kind).length;
    // two transects of 30 m: 61 marks each, 7 of them at fives, 24 at other metres
    expect([each('five'), each('metre'), each('half')]).toEqual([14, 48, 60]);
    expect(transects.tickLabels.features.slice(0, 7).map((f) => f.properties.text)).toEqual([
      '0 m',
      '5 m',
      '10 m',
      '15 m',
      '20 m',
      '25 m',
      '30 m',
    ]);
  });

  it('are strips as wide as was searched, patterned by their bed', () => {
    const strips = ofKind('strip');
    expect(strips.map((f) => f.properties.substrate)).toEqual(['sand', 'sand+gravel', 'sand']);
    const widths = strips.map((f) => {
      const ring = (f.geometry as Polygon).coordinates[0] as LngLat[];
      return metres(ring[0], ring[3]);
    });
    // by hand: 1 m belts, 2 m distance transect; sphere for ellipsoid as above
    [1, 1, 2].forEach((w, i) => {
      expect(Math.abs(widths[i] - w)).toBeLessThan(0.01);
    });
  });

  it('name the substrates of their strips once, whether the lake’s map has them or not', () => {
    expect(transects.labels.map(({ label }) => label)).toEqual(['sand', 'sand+gravel']);
  });

  it('carry clusters at their distance along the transect, by diver', () => {
    const clusters = transects.clusters.features;
    expect(clusters.map((f) => [f.properties.count, f.properties.diver])).toEqual([
      [4, 'Ada'],
      [1, 'Ben'],
      [7, 'Ada'],
    ]);
    expect(clusters[0].properties.shape).not.toBe(clusters[1].properties.shape);
    // 1.5 m of a segment from 0 to 15 m
    const { startLngLat, endLngLat } = result.segments[0];
    expect(metres(startLngLat, coordinates(clusters[0]))).toBeCloseTo(
      0.1 * metres(startLngLat, endLngLat),
      6,
    );
  });

  it('place a mark by the transect’s horizontal length', () => {
    const p = result.placed[0];
    const half = placeAlong(p, 15);
    expect(metres(p.startLngLat, half)).toBeCloseTo(metres(half, p.endLngLat), 6);
    expect(placeAlong(p, 30)).toEqual(p.endLngLat);
  });

  it('change their looks at zooms where they are 26 and 110 px long', () => {
    const zooms = transectZooms(result.placed);
    const lat = result.placed[0].startLngLat[1];
    expect(29.5 / metresPerPixel(zooms.line, lat)).toBeCloseTo(26, 6);
    expect(29.5 / metresPerPixel(zooms.clusters, lat)).toBeCloseTo(110, 6);
    expect(zooms.ticks).toBeGreaterThan(zooms.clusters);
  });
});

describe('residuals', () => {
  it('are drawn where flagged, and only there', () => {
    const [p] = structuredClone(result.placed);
    expect(residualShapes([p!]).lines.features).toEqual([]);
    p!.residuals = [
      { of: 'start', value: 15, se: 3, flagged: true },
      { of: 'end', value: 2, se: 3, flagged: false },
      { of: 'bearing', value: 40, se: 4, flagged: true },
    ];
    Object.assign(p!.transect, { bearingDeg: 50, bearingRef: 'magnetic' });
    p!.declinationDeg = -6;
    const { lines, points } = residualShapes([p!]);
    expect(lines.features.map((f) => f.properties.of)).toEqual(['start', 'bearing']);
    expect(coordinates(points.features[0])).toEqual([p!.transect.startLon, p!.transect.startLat]);
    const written = (lines.features[1].geometry as LineString).coordinates as LngLat[];
    // 50° magnetic with a declination of −6° is 44° true
    expect(Math.abs(azimuth(written[0], written[1]) - 44)).toBeLessThan(0.2);
  });
});

describe('findings', () => {
  const findings = [
    errorAt({ table: 'transects.csv', row: result.survey.transects[0].row }, 'a', ''),
    noticeAt({ table: 'transects.csv', row: result.survey.transects[0].row }, 'b', ''),
    noticeAt({ table: 'detections.csv', row: 3 }, 'c', ''),
    noticeAt({ table: 'analysis.json' }, 'd', ''),
    noticeAt({ table: 'habitat.csv', row: 99 }, 'e', ''),
  ];
  const placed = findingShapes({ ...result, findings }).features;

  it('lie at their place, several at one place together; what has no place is left out', () => {
    expect(
      placed.map((f) => [f.properties.count, f.properties.error, f.properties.finding]),
    ).toEqual([
      [2, true, 0],
      [1, false, 2],
    ]);
    expect(coordinates(placed[0])).toEqual(result.placed[0].startLngLat);
    expect(coordinates(placed[1])).toEqual(placeAlong(result.placed[0], 20));
  });

  it('of a transect that could not be placed lie at its waypoint', () => {
    const [f] = findingShapes({ ...result, placed: [], findings: findings.slice(0, 1) }).features;
    const { startLon, startLat } = result.survey.transects[0];
    expect(coordinates(f!)).toEqual([startLon, startLat]);
  });
});

describe('findings of rows that could not be read whole', () => {
  const sheets = [
    {
      file: 'transects.csv',
      header: ['Transect', 'start_lat', 'start_lon', 'date'],
      rows: [
        { row: 2, cells: ['A', '44.5', '-84.9', 'yesterday'] },
        { row: 3, cells: ['B', '99', '-84.9', '2026-07-01'] },
        { row: 4, cells: ['C', '', '-84.9', '2026-07-01'] },
      ],
    },
    { file: 'habitat.csv', header: ['transect'], rows: [{ row: 9, cells: ['A'] }] },
  ];
  const nothingRead = {
    ...result,
    placed: [],
    survey: { transects: [], habitat: [], detections: [] },
    sheets,
  };
  const at = (table: string, row: number) =>
    findingShapes({ ...nothingRead, findings: [errorAt({ table, row }, 'a', '')] }).features.map(
      coordinates,
    );

  it('lie at the waypoint as it is written', () => {
    expect(at('transects.csv', 2)).toEqual([[-84.9, 44.5]]);
    expect(at('habitat.csv', 9)).toEqual([[-84.9, 44.5]]);
  });

  it('have no place when the waypoint is off the globe or blank', () => {
    expect(at('transects.csv', 3)).toEqual([]);
    expect(at('transects.csv', 4)).toEqual([]);
  });
});

describe('counts', () => {
  it('draw areas in proportion: detected as a disc, detected ÷ p as a ring', () => {
    const { features } = countShapes(result.placed, detected, 0.5);
    const [two, one] = features.map((f) => f.properties as { detected: number; present: number });
    expect((two!.detected / one!.detected) ** 2).toBeCloseTo(2, 9);
    expect((two!.present / two!.detected) ** 2).toBeCloseTo(2, 9);
  });

  it('grow with the map: the largest disc leaves room between neighbours', () => {
    const at = (x: number, y: number) => ({ ...result.placed[0], start: [x, y], end: [x, y] });
    const row = [at(0, 0), at(100, 0), at(200, 0), at(500, 0)] as typeof result.placed;
    // by hand: nearest neighbours at 100, 100, 100 and 300 m; 0.6 of the median
    expect(largestCountM(row)).toBeCloseTo(60, 9);
    expect(largestCountM(row.slice(0, 1))).toBeGreaterThan(0);
    const radius = countRadius(['get', 'present'], {
      line: 15,
      clusters: 17,
      ticks: 19,
      counts: 16,
    });
    const px = (zoom: number, present: number): number => {
      const parsed = createExpression(radius as never, 'layers[0].paint.circle-radius');
      if (parsed.result === 'error') throw new Error(parsed.value.map((e) => e.message).join());
      return parsed.value.evaluate({ zoom }, { type: 'Point', properties: { present } } as never);
    };
    expect(px(16, 1)).toBeCloseTo(34, 6);
    expect(px(18, 1)).toBeCloseTo(34, 6); // no larger from near
    expect(px(15, 1)).toBeCloseTo(17, 6); // half as large a zoom farther
    expect([px(14, 0.01), px(14, 0)]).toEqual([2, 0]); // still a dot; nothing is nothing
  });

  it('draw no larger ring where p is not known', () => {
    const { features } = countShapes(result.placed, detected, null);
    for (const f of features) expect(f.properties.present).toBe(f.properties.detected);
  });

  it('draw a departure only beyond one root of what was expected', () => {
    const { features } = departureShapes(result.placed, [
      { transect: 'T1', detected: 2, expected: 1.5, scaled: 0.41 },
      { transect: '=T2', detected: 1, expected: 9, scaled: -2.67 },
    ]);
    expect(features.map((f) => [f.properties.transect, f.properties.way])).toEqual([
      ['=T2', 'fewer'],
    ]);
  });
});

describe('the lake', () => {
  const square = (x: number, y: number, side: number): LngLat[] => [
    [x, y],
    [x + side, y],
    [x + side, y + side],
    [x, y + side],
    [x, y],
  ];
  const lake = {
    outline: [[square(0, 0, 1), square(0.4, 0.4, 0.1)]],
    substrate: [
      {
        substrate: ['gravel', 'sand'],
        plantCover: null,
        polygons: [[positionsFrom(square(0, 0, 0.5))]],
        feature: 1,
      },
      {
        substrate: ['mud'],
        plantCover: 1,
        polygons: [[positionsFrom(square(0.5, 0, 0.5))]],
        feature: 2,
      },
    ],
    depth: {
      kind: 'lines' as const,
      lines: [{ depthM: 2, points: positionsFrom(square(0.2, 0.2, 0.5)) }],
    },
    treatments: [],
  };

  it('covers the land around it and its islands', () => {
    const land = ofKind('land', lakeShapes(lake, classes).shapes);
    expect(land).toHaveLength(2);
    const [around, island] = land.map((f) => (f.geometry as Polygon).coordinates);
    expect(around!.slice(1)).toEqual([square(0, 0, 1)]);
    expect(island).toEqual([square(0.4, 0.4, 0.1)]);
  });

  it('names a mixture in the order of the survey’s classes', () => {
    expect(lakeShapes(lake, classes).labels).toEqual([
      { label: 'mud', classes: ['mud'] },
      { label: 'sand+gravel', classes: ['sand', 'gravel'] },
    ]);
  });

  it('labels contours with their depth, and draws few of them from afar', () => {
    const [contour] = ofKind('contour', lakeShapes(lake, classes).shapes);
    expect(contour.properties).toMatchObject({ label: '2 m', rank: 0 });
    const [us] = ofKind('contour', lakeShapes(lake, classes, 'us').shapes);
    expect(us.properties.label).toBe('6.56 ft'); // by hand: 2/0.3048
    const rank = contourRanks([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
    // twelve depths, every third from the deepest up; every second beside them
    expect([12, 9, 6, 3].map(rank)).toEqual([0, 0, 0, 0]);
    expect([10, 8, 4, 2].map(rank)).toEqual([1, 1, 1, 1]);
    expect([11, 7, 5, 1, 0].map(rank)).toEqual([2, 2, 2, 2, 2]);
  });

  it('has no contours of soundings or a raster', () => {
    const soundings = {
      ...lake,
      depth: { kind: 'lines' as const, lines: [{ depthM: 1, points: Float64Array.of(0, 0) }] },
    };
    expect(ofKind('contour', lakeShapes(soundings, classes).shapes)).toEqual([]);
    expect(ofKind('contour', lakeShapes(lake, classes).shapes)).toHaveLength(1);
  });

  it('thins very long borders so that neighbours keep the same vertices', () => {
    const n = 200_000;
    const shared = Array.from({ length: n }, (_, i): LngLat => [0.5, i / n]);
    const left: LngLat[] = [[0, 0], ...shared, [0, 1], [0, 0]];
    const right: LngLat[] = [[1, 1], ...shared.toReversed(), [1, 0], [1, 1]];
    const patch = (ring: LngLat[]) => ({
      substrate: ['sand'],
      plantCover: 0,
      polygons: [[positionsFrom(ring)]],
      feature: 1,
    });
    const drawn = lakeShapes({ ...lake, substrate: [patch(left), patch(right)] }, classes);
    const kept = ofKind('substrate', drawn.shapes).map((f) =>
      ((f.geometry as Polygon).coordinates[0] as LngLat[])
        .filter((p) => p[0] === 0.5)
        .map((p) => p[1]),
    );
    expect(new Set(kept[0])).toEqual(new Set(kept[1]));
    expect(kept[0].length).toBeGreaterThan(1000);
    // chosen by their coordinates, so about the number wanted: within a fifth
    expect(2 * kept[0].length).toBeLessThan(1.2 * MOST_VERTICES);
  });

  it('is known again by its key, and told from a lake that was moved', () => {
    const copy = structuredClone(lake);
    expect(lakeKey(copy)).toBe(lakeKey(lake));
    copy.depth.lines[0].points[2] += 1e-6;
    expect(lakeKey(copy)).not.toBe(lakeKey(lake));
  });

  it('is fitted by its outline, else by its transects, else not at all', () => {
    const shown = { ...result, findings: [] };
    const box = (places: Places | null) => boundsOf(places?.flat() ?? []);
    expect(box(placesToFit({ ...shown, lake }))).toEqual({ west: 0, south: 0, east: 1, north: 1 });
    const without = { outline: null, substrate: null, depth: null, treatments: [] };
    expect(placesToFit({ ...shown, lake: without })).toEqual(
      shown.placed.map((p) => [p.startLngLat, p.endLngLat]),
    );
    const nothing = {
      ...shown,
      lake: without,
      placed: [],
      survey: { ...result.survey, transects: [] },
    };
    expect(placesToFit(nothing)).toBeNull();
  });
});
