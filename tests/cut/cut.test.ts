import { describe, expect, it } from 'vitest';
import type { Detection, HabitatRow, Survey, Transect } from '../../shared/survey.ts';
import { cutSegments } from '../../src/cut/index.ts';
import { makePlane, placeTransects } from '../../src/place/index.ts';
import { analysis, detection, flat, habitat, NO_LAKE, transect } from '../place/surveys.ts';

type Row = [distanceM: number, depthM: number, substrate?: string];

/** One transect due north with the habitat rows given; a row without substrate is an end row. */
function survey(rows: Row[], marks: number[] = [], changes: Partial<Transect> = {}): Survey {
  const one = transect({ bearingDeg: 0, ...changes });
  return {
    transects: [one],
    habitat: rows.map(([distanceM, depthM, substrate], i): HabitatRow => {
      const end = substrate === undefined;
      return habitat({
        distanceM,
        depthM,
        substrate: end ? null : [substrate],
        plantCover: end ? null : 0,
        row: i + 2,
      });
    }),
    detections: marks.map((distanceM, i): Detection => detection({ distanceM, row: i + 2 })),
  };
}

function cut(given: Survey, maxLengthM: number | null, mapDepthM: number | null = null) {
  const choices = analysis({ segments: { max_length_m: maxLengthM } });
  const plane = makePlane(NO_LAKE, given);
  const depthAt = mapDepthM === null ? null : () => mapDepthM;
  const { placed } = placeTransects(given, choices, plane, depthAt, null);
  return { plane, placed, ...cutSegments(given, choices, placed, plane) };
}

describe('cutting a rope', () => {
  it('begins a segment at every habitat row, also where only the depth changed', () => {
    const rows: Row[] = [
      [0, 1, 'sand'],
      [4, 2, 'sand'],
      [10, 2, 'rock'],
      [30, 5],
    ];
    const { segments } = cut(survey(rows), null);
    expect(segments.map((s) => [s.fromM, s.toM, s.substrate])).toEqual([
      [0, 4, ['sand']],
      [4, 10, ['sand']],
      [10, 30, ['rock']],
    ]);
    expect(segments.map((s) => s.segment)).toEqual([1, 2, 3]);
  });

  it('gives the horizontal length, area and depth at the midpoint', () => {
    const rows: Row[] = [
      [0, 1, 'sand'],
      [5, 4, 'rock'],
      [30, 11],
    ];
    const { segments } = cut(survey(rows, [], { widthM: 2 }), null);
    // by hand: 3-4-5 and 7-24-25 triangles
    expect(segments.map((s) => s.horizontalM)).toEqual([4, 24]);
    expect(segments.map((s) => s.areaM2)).toEqual([8, 48]);
    expect(segments.map((s) => s.depthM)).toEqual([2.5, 7.5]);
  });

  it('cuts a long stretch into equal pieces, horizontal length and depth in proportion', () => {
    const rows: Row[] = [
      [0, 1, 'sand'],
      [25, 8],
    ];
    const { segments } = cut(survey(rows, [], { lengthM: 25 }), 10);
    expect(segments.length).toBe(3);
    for (const [i, s] of segments.entries()) {
      // by hand: 25 m of rope and 7 m down are 24 m on the map; thirds of each (rounding of a few additions)
      expect(s.horizontalM).toBeCloseTo(8, 12);
      expect(s.fromM).toBeCloseTo((25 * i) / 3, 12);
      expect(s.depthM).toBeCloseTo(1 + (7 * (i + 0.5)) / 3, 12);
    }
    expect(segments[2].toM).toBe(25);
  });

  it.each([
    [10, 5, 2],
    [10, 10, 1],
    [10.000000001, 5, 2], // 2.0000000002 pieces: within the tolerance of 1e-9
    [10.0001, 5, 3],
    [0.3, 0.1, 3], // 0.3 / 0.1 is 2.9999999999999996 in binary fractions
    [0.7, 0.1, 7], // 6.999999999999999
    [2.1, 0.7, 3], // 3.0000000000000004
  ])('cuts %d m by %d m into %i pieces', (lengthM, maxLengthM, pieces) => {
    const rows: Row[] = [
      [0, 1, 'sand'],
      [lengthM, 1],
    ];
    expect(cut(survey(rows, [], { lengthM }), maxLengthM).segments.length).toBe(pieces);
  });

  it('takes a row within 5 mm of the rope’s end as the end row', () => {
    const rows: Row[] = [
      [0, 1, 'sand'],
      [29.996, 1],
    ];
    const { segments } = cut(survey(rows), null);
    expect(segments.map((s) => [s.fromM, s.toM, s.horizontalM])).toEqual([[0, 30, 30]]);
  });

  it('uses the end depth that placing read from the map', () => {
    // by hand: 18 m down on 30 m of rope are 24 m on the map
    const { segments } = cut(survey([[0, 2, 'sand']]), null, 20);
    expect(segments[0].horizontalM).toBe(24);
    expect(segments[0].depthM).toBe(11);
  });

  it('puts the segments on the map, end to end', () => {
    const { segments, plane, placed } = cut(
      survey([
        [0, 2, 'sand'],
        [10, 2, 'rock'],
        [30, 2],
      ]),
      null,
    );
    const near = (a: [number, number], b: [number, number]) =>
      expect(Math.hypot(a[0] - b[0], a[1] - b[1])).toBeLessThan(1e-9);
    near(segments[0].start, placed[0].start);
    near(segments[0].end, segments[1].start);
    near(segments[1].end, placed[0].end);
    const [x, y] = plane.forward(segments[1].endLngLat);
    // the way through degrees and back costs a few 1e-9 m
    expect(Math.hypot(x - segments[1].end[0], y - segments[1].end[1])).toBeLessThan(1e-7);
    // by hand, bearing only: σ_g² + h² σ_b²/2 at the midpoint h = 20 m with 4 m and 4°
    expect(segments[1].positionSeM).toBeCloseTo(
      Math.sqrt(16 + (400 * ((4 * Math.PI) / 180) ** 2) / 2),
      12,
    );
  });
});

describe('a detection', () => {
  const rows: Row[] = [
    [0, 2, 'sand'],
    [10, 2, 'rock'],
    [30, 2],
  ];

  it('belongs to the segment with from ≤ d < to, the last one with its end', () => {
    const { segments, detections } = cut(survey(rows, [0, 9.99, 10, 29.99, 30]), null);
    expect(segments.map((s) => s.detections)).toEqual([
      [0, 1],
      [2, 3, 4],
    ]);
    expect(detections.map((d) => d.segmentIndex)).toEqual([0, 0, 1, 1, 1]);
  });

  it('counts as on a break within 1e-9, and then goes to the later segment', () => {
    const { detections } = cut(survey(rows, [10 - 5e-10, 10 - 2e-9]), null);
    expect(detections.map((d) => d.segmentIndex)).toEqual([1, 0]);
  });

  it('goes to the later piece on a break between equal pieces', () => {
    // the second piece from 0.1 m begins at 0.30000000000000004 in binary fractions
    const rows: Row[] = [
      [0, 2, 'sand'],
      [0.1, 2, 'rock'],
      [0.4, 2],
    ];
    expect(cut(survey(rows, [0.3], { lengthM: 0.4 }), 0.1).detections[0].segmentIndex).toBe(3);
  });

  it('lies on the rope at its horizontal distance', () => {
    const given = survey(
      [
        [0, 1, 'sand'],
        [5, 4, 'rock'],
        [30, 11],
      ],
      [2.5, 17.5],
    );
    const { detections, plane, placed } = cut(given, null);
    const metres = detections.map((d) => {
      const [x, y] = plane.forward(d.lngLat);
      return Math.hypot(x - placed[0].start[0], y - placed[0].start[1]);
    });
    // by hand: halves of 4 m and 24 m; the way through degrees and back costs up to 1e-8 m
    expect(metres[0]).toBeCloseTo(2, 7);
    expect(metres[1]).toBeCloseTo(16, 7);
  });

  it('off the rope is an error at its row', () => {
    const { findings, detections } = cut(survey(rows, [5, 31]), null);
    expect(detections.length).toBe(1);
    expect(findings).toMatchObject([
      { severity: 'error', code: 'past-rope-end', table: 'detections.csv', row: 3 },
    ]);
  });

  it('keeps the order of the survey when the transects are mixed', () => {
    const both = flat({ transect: 'T1', bearingDeg: 0 });
    const second = flat({ transect: 'T2', bearingDeg: 90, row: 3 });
    both.transects.push(...second.transects);
    both.habitat.push(...second.habitat);
    both.detections = [
      detection({ transect: 'T2', distanceM: 3 }),
      detection({ transect: 'T1', distanceM: 1 }),
      detection({ transect: 'T2', distanceM: 8 }),
    ];
    const { detections, segments } = cut(both, 5);
    expect(detections.map((d) => d.detection)).toEqual([0, 1, 2]);
    expect(detections.map((d) => segments[d.segmentIndex].transect)).toEqual(['T2', 'T1', 'T2']);
    expect(segments.find((s) => s.transect === 'T2')!.transectIndex).toBe(1);
  });
});

describe('a stretch without area', () => {
  const vertical: Row[] = [
    [0, 2, 'sand'],
    [10, 2, 'rock'],
    [12.3, 4.3, 'sand'], // 2.3 m of rope, 2.3 m down; neither difference is exact in binary fractions
    [30, 4.3],
  ];

  it('is left out with a notice, and the numbers go on without a gap', () => {
    const { segments, findings } = cut(survey(vertical), null);
    expect(segments.map((s) => [s.segment, s.fromM, s.toM])).toEqual([
      [1, 0, 10],
      [2, 12.3, 30],
    ]);
    expect(findings).toMatchObject([
      { severity: 'notice', code: 'stretch-without-area', table: 'habitat.csv', row: 3 },
    ]);
  });

  it('makes a detection on it an error, but not one on the break behind it', () => {
    const { findings, detections } = cut(survey(vertical, [11, 12.3]), null);
    expect(findings.filter((f) => f.severity === 'error')).toMatchObject([
      { code: 'detection-without-area', table: 'detections.csv', row: 2, column: 'distance_m' },
    ]);
    expect(detections.map((d) => d.detection)).toEqual([1]);
  });

  it('is an error where the depth changes by more than the rope', () => {
    const { findings } = cut(
      survey([
        [0, 2, 'sand'],
        [10, 2, 'rock'],
        [12, 4.01, 'sand'],
        [30, 4],
      ]),
      null,
    );
    expect(findings).toMatchObject([
      { severity: 'error', code: 'depth-change-above-rope', table: 'habitat.csv', row: 3 },
    ]);
  });

  it('is an error that says so where it is the depth map that asks too much of the rope', () => {
    const given = survey([
      [0, 2, 'sand'],
      [28, 4, 'rock'],
    ]);
    const { findings } = cut(given, null, 9);
    expect(findings).toMatchObject([
      { severity: 'error', code: 'depth-change-above-rope', row: 3 },
    ]);
    expect(findings[0].message).toContain('depth map');
  });
});

it('refuses to cut into more than 200,000 segments', () => {
  const given = survey([[0, 2, 'sand']], [], { lengthM: 1000 });
  expect(cut(given, 0.005).segments.length).toBe(200_000);
  const { segments, findings } = cut(given, 0.004);
  expect(segments).toEqual([]);
  expect(findings).toMatchObject([
    { severity: 'error', code: 'too-many-segments', table: 'analysis.json' },
  ]);
});
