/**
 * A survey without a detection: 0, and at most −log(1 − interval) × area inside / Σ area searched (METHOD.md: Nothing detected).
 * Expected values by hand from that closed form: −log 0.05 = 2.9957 from printed tables of
 * logarithms, −log 0.1 = log 10. Tolerance: the profile is followed to 1e-9 of the log-likelihood.
 */

import { describe, expect, it } from 'vitest';
import { nothingDetected } from '../../models/fit/nothing-detected.ts';
import { overallLimit } from '../../models/fit/profile-limits.ts';
import type { Bed, Segment } from '../../shared/survey.ts';
import { type EstimateInput, estimateLake } from '../../src/estimate/index.ts';
import { handMadeResult } from '../helpers/result.ts';
import { writtenRows } from '../helpers/written-rows.ts';

const DROP_95 = 2.995732273553991;
const DROP_90 = Math.LN10;

/** Pieces of bed as [substrate, depth band, m², reason: 0 inside]. */
function bedOf(pieces: [string, number, number, number][]): Bed {
  const labels = [...new Set(pieces.map(([label]) => label))];
  const column = (pick: (piece: (typeof pieces)[number], i: number) => number) =>
    Int32Array.from(pieces, pick);
  return {
    frame: { x0: 0, y0: 0, cellM: 20, nx: pieces.length, ny: 1 },
    habitats: labels.map((label) => ({ substrate: label.split('+'), plantCover: 0 })),
    pieces: {
      count: pieces.length,
      cell: column((_, i) => i),
      habitat: Uint16Array.from(pieces, ([label]) => labels.indexOf(label)),
      areaM2: Float64Array.from(pieces, ([, , area]) => area),
      depthM: Float64Array.from(pieces, ([, band]) => band + 0.5),
      band: Uint16Array.from(pieces, ([, band]) => band),
      reason: Uint8Array.from(pieces, ([, , , reason]) => reason),
    },
    outlineM2: 1000,
    unmappedM2: 8,
    cellDepthM: new Float32Array(pieces.length),
  };
}

/** 20 m² of sand, 30 m² of sand and gravel, 40 m² of rock searched: 90 m². */
function searched(bed: Bed | null, treated: EstimateInput['treated'] = []): EstimateInput {
  const { survey, analysis, segments, placed, domain } = handMadeResult();
  const bare = (s: Segment, areaM2: number, substrate: string[]): Segment => ({
    ...s,
    areaM2,
    substrate,
    detections: [],
  });
  const [a, b, c] = segments;
  if (!a || !b || !c) throw new Error('the hand-made survey has three segments');
  return {
    survey: { ...survey, detections: [] },
    analysis: { ...analysis, substrates: ['silt', 'sand', 'gravel', 'rock'] },
    segments: [bare(a, 20, ['sand']), bare(b, 30, ['gravel', 'sand']), bare(c, 40, ['rock'])],
    placed,
    domain,
    bed,
    treated,
    shore: null,
    findings: [],
  };
}

const BED = bedOf([
  ['rock', 2, 200, 0],
  ['sand', 1, 100, 0],
  ['sand', 1, 50, 0],
  ['gravel+sand', 1, 30, 0],
  ['sand', 9, 70, 1],
]);

function estimated(input: EstimateInput) {
  const output = estimateLake(input);
  if (!output.ok) throw new Error(output.findings.map((f) => f.message).join('\n'));
  return output;
}

/** 0 without error, with this upper limit. */
const none = (upper: number | null) => ({
  estimate: 0,
  se: null,
  cv: null,
  lower: 0,
  upper: upper === null ? null : expect.closeTo(upper, 8),
});

describe('a survey without a detection', () => {
  it('on the lake: 3.00 × area / effort at 95 %, mussels without a limit', () => {
    const { abundance } = estimated(searched(BED)).estimate;
    expect(abundance).toEqual({
      clusters: none((DROP_95 * 380) / 90),
      mussels: none(null),
      area_m2: 380,
      outside_area_m2: 70,
      unmapped_area_m2: 8,
    });
  });

  it('follows the level of the interval', () => {
    const input = searched(BED);
    input.analysis.interval = 0.9;
    expect(estimated(input).estimate.abundance?.clusters).toEqual(none((DROP_90 * 380) / 90));
  });

  it('by class: effort is that on all segments where the class is, mixed ones too', () => {
    const limits = estimated(searched(BED)).estimate.upper_limits;
    const row = (name: string, areaM2: number) => ({
      part: 'density',
      class: name,
      clusters_per_m2: expect.closeTo(DROP_95 / areaM2, 8),
      mussels_per_m2: null,
    });
    expect(limits).toEqual([row('sand', 50), row('gravel', 30), row('rock', 40)]);
  });

  it('by treatment area: what of it is inside, or nothing', () => {
    const half = bedOf([
      ['sand', 1, 45, 0],
      ['sand', 9, 5, 1],
    ]);
    const beyond = bedOf([['sand', 9, 60, 1]]);
    const { treatments } = estimated(
      searched(BED, [
        { name: 'half', bed: half },
        { name: 'beyond', bed: beyond },
        { name: 'off', bed: null },
      ]),
    ).estimate;
    expect(treatments).toEqual([
      {
        name: 'half',
        area_m2: 45,
        outside_area_m2: 13,
        clusters: none((DROP_95 * 45) / 90),
        mussels: none(null),
      },
      { name: 'beyond', area_m2: 0, outside_area_m2: 68, clusters: null, mussels: null },
      { name: 'off', area_m2: 0, outside_area_m2: 0, clusters: null, mussels: null },
    ]);
  });

  it('strata in the order of the substrates, a mixed bed behind its first class', () => {
    const { strata } = estimated(searched(BED)).estimate;
    expect(strata?.map((s) => [s.substrate, s.depth_from_m, s.area_m2])).toEqual([
      ['sand', 1, 150],
      ['sand+gravel', 1, 30],
      ['rock', 2, 200],
    ]);
    for (const s of strata ?? [])
      expect([s.mussels, s.mussels_per_m2]).toEqual([none(null), none(null)]);
  });

  it('paints 0 where the bed is inside, without an error or a probability', () => {
    const input = searched(BED);
    input.analysis.map.threshold_per_m2 = 1;
    const { surface } = estimated(input);
    expect([...(surface?.densityPerM2 ?? [])]).toEqual([0, 0, 0, 0, Number.NaN]);
    expect([...(surface?.inside ?? [])]).toEqual([1, 1, 1, 1, 0]);
    expect(surface?.cv.every(Number.isNaN)).toBe(true);
    expect(surface?.aboveThreshold?.every(Number.isNaN)).toBe(true);
  });

  it('knows nothing of detection, cluster size and checks, and says so once', () => {
    const output = estimated(searched(BED));
    const { estimate, models } = output;
    expect(estimate.detection).toBeNull();
    expect(estimate.cluster_size).toBeNull();
    expect(estimate.design_based.clusters_per_m2).toBeNull();
    expect(estimate.coefficients).toEqual([]);
    expect([output.checks, output.curves, output.again]).toEqual([null, [], null]);
    // n = 3 segments, no parameter: AICc 0
    expect(estimate.model).toMatchObject({ family: 'poisson', log_likelihood: 0, parameters: 0 });
    expect(estimate.models.map((m) => m.aicc)).toEqual([0]);
    expect(models.map((m) => m.boundaries)).toEqual([[{ parameter: 'lambda', limit: 0 }]]);
    expect(output.findings.map((f) => f.code)).toEqual(['nothing-found']);
  });

  it('gives its limits without a lake, and says when none of the bed is inside', () => {
    const bare = estimated(searched(null)).estimate;
    expect([bare.abundance, bare.strata, bare.treatments]).toEqual([null, null, null]);
    expect(bare.upper_limits).toHaveLength(3);
    const beyond = estimated(searched(bedOf([['sand', 9, 60, 1]])));
    expect(beyond.estimate.abundance).toBeNull();
    expect(beyond.findings.map((f) => f.code)).toEqual(['nothing-found', 'nothing-inside']);
  });

  it('with distance transects searched by one observer or two: p = 1, so that area alone counts', () => {
    const rows = writtenRows([
      { design: 'distance', primary: 0, secondary: 1, segments: [{ areaM2: 12 }] },
      { primary: 0, secondary: null, segments: [{ areaM2: 8, classes: [1] }] },
    ]);
    const { fit } = nothingDetected(rows);
    expect(overallLimit(rows, fit, 0.95)).toBeCloseTo(DROP_95 / 20, 8);
  });

  it('is refused when there are detections', () => {
    const rows = writtenRows([{ primary: 0, secondary: null, segments: [{ first: 2 }] }]);
    expect(() => nothingDetected(rows)).toThrow('got 2 detections, expected none');
  });
});
