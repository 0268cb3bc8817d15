/**
 * Detection in common between surveys. By hand: two observers who share one p on belts, roles swapped, detect x₁ first and
 * miss x₂ of them to the other: p̂ = 1 − x₂/x₁ (Seber 1982, two removals). With p in common the counts of both surveys are pooled, and
 * p̄ cancels from the ratio of the totals: var log R = 1/n₁ + 1/n₂.
 */

import { describe, expect, it } from 'vitest';
import { changeOf } from '../../../models/compare/change.ts';
import { fitTogether, sideBySide } from '../../../models/compare/joint-fit.ts';
import { pairModels, type Season, seasonTotals } from '../../../models/compare/seasons.ts';
import { sharable } from '../../../models/compare/shared-detection.ts';
import type { SurveyRows } from '../../../models/data.ts';
import { jointTotals } from '../../../models/treat/joint.ts';
import { coefficient, fitConverged, POISSON, swapped } from '../../helpers/fitting.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { writtenRows } from '../../helpers/written-rows.ts';

const ALIKE = choices({
  density: { substrate: false, plant_cover: 'none', depth: 'none' },
  detection: { observer: false },
});
const EACH = choices({ density: { substrate: false, plant_cover: 'none', depth: 'none' } });
const season = (rows: SurveyRows, analysis = ALIKE): Season => ({
  rows,
  members: [{ fit: fitConverged(rows, analysis, POISSON), weight: 1 }],
});
/** with two segments more on each transect, on which nothing was: AICc needs segments */
const spread = (...counts: Parameters<typeof swapped>): SurveyRows =>
  writtenRows(swapped(...counts).map((t) => ({ ...t, segments: [...t.segments, {}, {}] })));
const SAME = [
  [0, 1],
  [0, 1],
];
const BED = { count: 1, habitat: [0], areaM2: [100], depthM: [3], band: [3], reason: [0] };
const HABITATS = [{ classes: [0], plantCover: 0 }];
const changeWith = (before: Season, after: Season, persons: number[][] | null) => {
  const { pairs, detection } = pairModels(before, after, persons);
  const on = (own: Season, which: 0 | 1) =>
    seasonTotals(own, which, pairs, HABITATS, BED, [() => true])[0];
  const totals = jointTotals([on(before, 0), on(after, 1)]);
  return { detection, change: changeOf(totals, [-1, 1], 0.95, Number.POSITIVE_INFINITY), totals };
};

describe('detection in common', () => {
  const before = season(spread(40, 12, 36, 11));
  const after = season(spread(20, 5, 25, 7));

  it('pools both surveys, and cancels from the ratio', () => {
    const { detection, change, totals } = changeWith(before, after, SAME);
    expect(detection).toMatchObject({ used: true, persons: [0, 1], why: null });
    const p = 1 - (12 + 11 + 5 + 7) / (40 + 36 + 20 + 25);
    const pair = 1 - (1 - p) ** 2;
    // 99 detections on 30 m², 57 on 30 m²
    expect(totals.estimates[0]).toBeCloseTo((100 * 99) / 30 / pair, 5);
    expect(change?.ratio).toBeCloseTo(57 / 99, 7);
    expect(change?.seLog).toBeCloseTo(Math.sqrt(1 / 57 + 1 / 99), 7);
  });

  it('is wider with detection of its own in each', () => {
    const { detection, change } = changeWith(before, after, null);
    expect(detection).toMatchObject({ used: false, why: 'not-asked' });
    expect(change?.seLog).toBeGreaterThan(Math.sqrt(1 / 57 + 1 / 99) + 1e-3);
  });

  it('is not assumed where AICc is against it, nor of persons who are not the same', () => {
    const murky = season(spread(40, 35, 42, 36));
    expect(changeWith(before, murky, SAME).detection).toMatchObject({
      used: false,
      why: 'higher-aicc',
    });
    expect(
      changeWith(before, after, [
        [0, 1],
        [2, 3],
      ]).detection.why,
    ).toBe('no-observer');
    expect(
      changeWith(before, after, [
        [0, 1],
        [1, 2],
      ]).detection.why,
    ).toBe('other-groups');
  });

  it('takes those who dived in both, each with their own p', () => {
    const [a, b] = [swapped(40, 12, 36, 11), swapped(20, 5, 25, 7)].map((t) =>
      season(writtenRows(t), EACH),
    );
    const fits = [a.members[0].fit, b.members[0].fit] as const;
    const common = sharable(
      [fits[0], fits[1]],
      [
        [0, 1],
        [2, 0],
      ],
    );
    if (!common.shared) throw new Error(common.why);
    // Ada of the first survey is Ben of the second
    expect(common.persons).toEqual([0]);
    expect(common.places.count).toBe(fits[0].estimates.length + fits[1].estimates.length - 1);
    const joint = fitTogether(
      [a, b].map((s, i) => ({ rows: s.rows, fit: fits[i] })),
      common.places,
    );
    const separate = sideBySide([a, b].map((s, i) => ({ rows: s.rows, fit: fits[i] })));
    expect(joint?.logLikelihood).toBeLessThan(separate.logLikelihood);
    const nameOf = (s: 0 | 1, term: string) =>
      fits[s].likelihood.layout.parameters.findIndex((p) => p.term === term);
    expect(common.places.places[1][nameOf(1, 'observer:Ben:belt')]).toBe(
      common.places.places[0][nameOf(0, 'observer:Ada:belt')],
    );
    expect(coefficient(fits[0], 'observer:Ada:belt')).not.toBe(
      coefficient(fits[1], 'observer:Ben:belt'),
    );
  });

  it('is a maximum: the joint likelihood falls to both sides of every parameter', () => {
    const fits = [before.members[0].fit, after.members[0].fit] as const;
    const seasons = [
      { rows: before.rows, fit: fits[0] },
      { rows: after.rows, fit: fits[1] },
    ];
    const common = sharable([fits[0], fits[1]], SAME);
    if (!common.shared) throw new Error(common.why);
    const joint = fitTogether(seasons, common.places);
    if (joint === null) throw new Error('no maximum');
    const value = (point: Float64Array): number =>
      fits.reduce((sum, fit, s) => {
        const own = Float64Array.from(joint.places[s], (at) => point[at]);
        return sum + (fit.likelihood.evaluate(own)?.value ?? Number.NaN);
      }, 0);
    expect(value(joint.estimates)).toBeCloseTo(joint.logLikelihood, 9);
    for (let i = 0; i < joint.count; i++)
      for (const step of [-0.01, 0.01]) {
        const moved = Float64Array.from(joint.estimates);
        moved[i] += step;
        expect(value(moved)).toBeLessThan(joint.logLikelihood);
      }
  });
});
