import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cutSegments } from '../../src/cut/index.ts';
import { makePlane, placeTransects } from '../../src/place/index.ts';
import { analysis, NO_LAKE, readTables } from '../place/surveys.ts';

const LAKES = [
  'belt-nb1',
  'both-effect-size',
  'distance-halfnormal-point',
  'distance-hazardrate-full',
];

describe.each(LAKES)('the reference survey %s', (lake) => {
  const folder = new URL(`../reference-lakes/${lake}/`, import.meta.url);
  const json = (name: string) => JSON.parse(readFileSync(new URL(name, folder), 'utf8'));
  // owner of the expected values: the plain-R implementation described in tests/reference-lakes/README.md
  const expected = json('reference.json').data;
  const survey = readTables(folder);
  const choices = analysis({ segments: json('analysis.json').segments });
  const plane = makePlane(NO_LAKE, survey);
  const { placed, findings } = placeTransects(survey, choices, plane, null, null);
  const cut = cutSegments(survey, choices, placed, plane);

  it('is placed and cut without a remark (its noise is within its errors)', () => {
    expect(findings).toEqual([]);
    expect(cut.findings).toEqual([]);
  });

  it('has as many transects, segments and detections as the reference', () => {
    expect(placed.length).toBe(expected.transects);
    expect(cut.segments.length).toBe(expected.segments);
    expect(cut.detections.length).toBe(expected.detections);
    expect(cut.segments.flatMap((s) => s.detections).length).toBe(expected.detections);
  });

  it('has the area searched of the reference', () => {
    const area = cut.segments.reduce((sum, s) => sum + s.areaM2, 0);
    // all end rows are there, so both add the same 200 to 400 square roots: rounding alone, below 1e-12
    expect(Math.abs(area / expected.area_searched_m2 - 1)).toBeLessThan(1e-12);
  });
});
