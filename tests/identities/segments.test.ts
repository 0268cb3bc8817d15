/** What must hold of placing and cutting whatever the survey: random ropes, seeded. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { HabitatRow, Survey } from '../../shared/survey.ts';
import { cutSegments } from '../../src/cut/index.ts';
import { makePlane, placeTransects } from '../../src/place/index.ts';
import { analysis, detection, habitat, NO_LAKE, transect } from '../place/surveys.ts';

/** A rope as it is read: breaks to 0.5 m, depths to 0.1 m that change by less than the rope, marks to 0.01 m. */
const rope = fc
  .record({
    halfMetres: fc.uniqueArray(fc.integer({ min: 1, max: 59 }), { maxLength: 8 }),
    slopes: fc.array(fc.double({ min: -0.9, max: 0.9, noNaN: true }), {
      minLength: 9,
      maxLength: 9,
    }),
    classes: fc.array(fc.constantFrom('sand', 'silt', 'rock'), { minLength: 9, maxLength: 9 }),
    endRow: fc.boolean(),
    marks: fc.array(fc.integer({ min: 0, max: 3000 }), { maxLength: 12 }),
    widthM: fc.constantFrom(1, 2),
    bearingDeg: fc.double({ min: 0, max: 359.9, noNaN: true }),
    north: fc.double({ min: -0.01, max: 0.01, noNaN: true }),
    east: fc.double({ min: -0.01, max: 0.01, noNaN: true }),
  })
  .map((r) => ({ ...r, breaks: [0, ...r.halfMetres.sort((a, b) => a - b).map((h) => h / 2)] }));

const surveys = fc.array(rope, { minLength: 1, maxLength: 4 }).map((ropes): Survey => {
  const survey: Survey = { transects: [], habitat: [], detections: [] };
  ropes.forEach((r, i) => {
    const label = `T${i}`;
    survey.transects.push(
      transect({
        transect: label,
        startLat: 47.6 + r.north,
        startLon: 9.4 + r.east,
        bearingDeg: r.bearingDeg,
        bearingRef: 'magnetic',
        widthM: r.widthM,
        row: i + 2,
      }),
    );
    let depthM = 20;
    r.breaks.forEach((distanceM, k) => {
      if (k > 0) depthM += r.slopes[k] * (distanceM - r.breaks[k - 1]);
      const substrate = [r.classes[k]];
      survey.habitat.push(habitat({ transect: label, distanceM, depthM, substrate }));
    });
    if (r.endRow) {
      const end = { distanceM: 30, depthM, substrate: null, plantCover: null };
      survey.habitat.push(habitat({ transect: label, ...end }));
    }
    for (const m of r.marks) {
      survey.detections.push(detection({ transect: label, distanceM: m / 100 }));
    }
  });
  survey.habitat.forEach((row, i) => {
    row.row = i + 2;
  });
  return survey;
});

function run(survey: Survey, maxLengthM: number | null = 5) {
  const choices = analysis({ segments: { max_length_m: maxLengthM } });
  const plane = makePlane(NO_LAKE, survey);
  const { placed } = placeTransects(survey, choices, plane, null, null);
  return { placed, ...cutSegments(survey, choices, placed, plane) };
}

const total = (values: number[]) => values.reduce((a, b) => a + b, 0);

describe('segments', () => {
  it('cover each rope once, end to end', () => {
    fc.assert(
      fc.property(surveys, (survey) => {
        const { segments, placed } = run(survey);
        for (const one of placed) {
          const mine = segments.filter((s) => s.transect === one.transect.transect);
          expect(mine[0].fromM).toBe(0);
          expect(mine.at(-1)!.toM).toBe(30);
          for (let i = 1; i < mine.length; i++) expect(mine[i].fromM).toBe(mine[i - 1].toM);
          const horizontal = total(mine.map((s) => s.horizontalM));
          expect(Math.abs(horizontal / one.horizontalLengthM - 1)).toBeLessThan(1e-12); // rounding
        }
      }),
      { seed: 11 },
    );
  });

  it('cut finer have the same area in sum, in each habitat', () => {
    fc.assert(
      fc.property(surveys, fc.constantFrom(0.7, 1, 2.5, 5, null), (survey, maxLengthM) => {
        const [whole, fine] = [run(survey, null).segments, run(survey, maxLengthM).segments];
        expect(fine.length).toBeGreaterThanOrEqual(whole.length);
        for (const s of whole) {
          const pieces = fine.filter(
            (p) => p.transect === s.transect && p.fromM >= s.fromM && p.toM <= s.toM,
          );
          const area = total(pieces.map((p) => p.areaM2));
          expect(Math.abs(area / s.areaM2 - 1)).toBeLessThan(1e-12); // 43 equal parts: rounding
          expect(pieces.every((p) => p.toM - p.fromM <= (maxLengthM ?? 30) * (1 + 1e-9))).toBe(
            true,
          );
          expect(pieces.every((p) => p.substrate[0] === s.substrate[0])).toBe(true);
        }
      }),
      { seed: 12 },
    );
  });

  it('are never larger than rope × width', () => {
    fc.assert(
      fc.property(surveys, (survey) => {
        for (const s of run(survey).segments) {
          expect(s.areaM2).toBeGreaterThan(0);
          expect(s.areaM2).toBeLessThanOrEqual((s.toM - s.fromM) * s.widthM * (1 + 1e-12));
        }
      }),
      { seed: 13 },
    );
  });

  it('hold every detection once, between their ends', () => {
    fc.assert(
      fc.property(surveys, (survey) => {
        const { segments, detections } = run(survey);
        expect(detections.length).toBe(survey.detections.length);
        const listed = segments.flatMap((s) => s.detections).sort((a, b) => a - b);
        expect(listed).toEqual(survey.detections.map((_, i) => i));
        for (const d of detections) {
          const s = segments[d.segmentIndex];
          const { distanceM, transect: label } = survey.detections[d.detection];
          expect(s.detections).toContain(d.detection);
          expect(s.transect).toBe(label);
          expect(distanceM).toBeGreaterThanOrEqual(s.fromM - 1e-9);
          if (s.toM < 30) expect(distanceM).toBeLessThan(s.toM);
        }
      }),
      { seed: 14 },
    );
  });
});

describe('the order of rows', () => {
  /** Breaks stay in order within their transect, as the tables ask; everything else is turned round. */
  const turnedRound = (survey: Survey): Survey => {
    const transects = [...survey.transects].reverse();
    const rowsOf = (label: string): HabitatRow[] =>
      survey.habitat.filter((h) => h.transect === label);
    return {
      transects,
      habitat: transects.flatMap((t) => rowsOf(t.transect)),
      detections: [...survey.detections].reverse(),
    };
  };

  it('changes no segment and no detection’s place', () => {
    fc.assert(
      fc.property(surveys, (survey) => {
        const turned = turnedRound(survey);
        const [a, b] = [run(survey), run(turned)];
        const label = (given: Survey, r: typeof a) =>
          r.segments
            .map((s) => ({
              ...s,
              segment: 0,
              transectIndex: 0,
              detections: s.detections
                .map((i) => given.detections[i].distanceM)
                .sort((x, y) => x - y),
            }))
            .sort((x, y) => x.transect.localeCompare(y.transect) || x.fromM - y.fromM);
        expect(label(turned, b)).toEqual(label(survey, a));
        const n = survey.detections.length;
        for (const d of a.detections) {
          const same = b.detections.find((e) => e.detection === n - 1 - d.detection)!;
          expect(same.lngLat).toEqual(d.lngLat);
          expect(same.positionSeM).toBe(d.positionSeM);
        }
      }),
      { seed: 15 },
    );
  });
});
