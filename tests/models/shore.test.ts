/** Density along the shore: which surveys can show it, its columns, and what is predicted without a place. */

import { describe, expect, it } from 'vitest';
import type { SurveyRows } from '../../models/data.ts';
import { shorePairs, shoreTerms } from '../../models/density/shore.ts';
import { chooseModel } from '../../models/fit/choice.ts';
import { isSpecialCase } from '../../models/fit/nested.ts';
import { predictor } from '../../models/predict.ts';
import { BARE, coefficient, fitConverged, POISSON } from '../helpers/fitting.ts';

/** A transect of two segments of 1 m² at each place, with so many single mussels detected on each by one observer. */
function surveyAt(places: (number | null)[], detected = (_: number): number => 0): SurveyRows {
  const segments = places.flatMap((shore, transect) =>
    [1, 2].map((depthM) => ({
      transect,
      design: 'belt' as const,
      areaM2: 1,
      halfWidthM: 0.5,
      classes: [0],
      plantCover: 0,
      depthM,
      shore,
      clarityM: null,
      primary: 0,
      secondary: null,
    })),
  );
  const clusters = segments.flatMap(({ shore }, segment) =>
    Array.from({ length: detected(shore ?? 0) }, () => ({
      segment,
      role: 'primary' as const,
      offsetM: null,
      count: 1,
    })),
  );
  const names = { classNames: ['sand'], observerNames: ['Ada'] };
  return { segments, clusters, transectCount: places.length, ...names };
}

const even = (n: number): number[] => Array.from({ length: n }, (_, i) => i / n);

describe('surveys that can show a change of density along the shore', () => {
  it.each<[string, (number | null)[], number[]]>([
    ['20 even ones carry two pairs', even(20), [1, 2]],
    ['19 carry one', even(19), [1]],
    ['11 none', even(11), []],
    // the 18th left out: a stretch of 2/20 where the mean is 1/19
    ['one missing of 20', even(20).filter((_, i) => i !== 17), [1]],
    // two side by side left out: a stretch of 3/20 where twice the mean is 2/18
    ['two missing side by side', even(20).filter((_, i) => i !== 17 && i !== 16), []],
    ['a third of the shore', even(30).map((x) => x / 3), []],
    ['a transect without a place', [...even(12), null], []],
  ])('%s', (_, shares, pairs) => {
    expect(shorePairs(surveyAt(shares))).toEqual(pairs);
  });
});

it('the columns are cosine and sine of the angle round the shore', () => {
  const h = { classes: [], plantCover: 0, depthM: 0 };
  const values = (shore: number): number[] => shoreTerms(2).map((t) => t.value({ ...h, shore }));
  // an eighth of the way round: 45°, and 90° for the second pair
  [Math.SQRT1_2, Math.SQRT1_2, 0, 1].forEach((x, i) => {
    expect(values(1 / 8)[i]).toBeCloseTo(x, 14);
  });
  // the end of the shore is its begin
  values(1).forEach((x, i) => {
    expect(x).toBeCloseTo(values(0)[i], 14);
  });
  expect(() => shoreTerms(1)[0].value(h)).toThrow('without a position along the shore');
});

describe('a survey whose density changes along the shore', () => {
  const rows = surveyAt(even(24), (share) =>
    Math.round(6 * Math.exp(Math.cos(2 * Math.PI * share))),
  );

  it('is fitted by a model with a smooth along the shore, where that is asked for', () => {
    const asked = { ...BARE, density: { ...BARE.density, shore: 'auto' as const } };
    const { fit, models } = chooseModel(rows, asked);
    expect(fit.candidate.shorePairs).toBeGreaterThan(0);
    expect(models.some((m) => m.shorePairs === undefined)).toBe(true);
    expect(chooseModel(rows, BARE).models.some((m) => m.shorePairs !== undefined)).toBe(false);
  });

  it('is predicted evenly along the shore where no place is named', () => {
    const fit = fitConverged(rows, BARE, { ...POISSON, shorePairs: 1 });
    const p = predictor(rows, fit);
    const { base, gradient } = p.habitat({ classes: [0], plantCover: 0 });
    // the mean of exp(a cos θ + b sin θ) round a circle is I₀(√(a² + b²)) = Σ (r²/4)^k/k!² (Abramowitz & Stegun 1964, 9.6.10)
    const r = Math.hypot(coefficient(fit, 'shore:cos1'), coefficient(fit, 'shore:sin1'));
    let [bessel, term] = [1, 1];
    for (let k = 1; k < 30; k++) {
      term *= (r * r) / 4 / (k * k);
      bessel += term;
    }
    expect(base).toBeCloseTo(coefficient(fit, 'intercept') + Math.log(bessel), 12);
    // places lie evenly: what is estimated at one of them is that of its own angle
    const there = p.habitat({ classes: [0], plantCover: 0, shore: 1 / 4 });
    expect(there.base).toBeCloseTo(
      coefficient(fit, 'intercept') + coefficient(fit, 'shore:sin1'),
      12,
    );
    expect(gradient[0]).toBeCloseTo(1, 12);
  });

  it('a model with fewer pairs is a special case of one with more', () => {
    const [one, two] = [1, 2].map((pairs) => ({ ...POISSON, shorePairs: pairs }));
    expect([isSpecialCase(POISSON, one), isSpecialCase(one, two)]).toEqual([true, true]);
    expect([isSpecialCase(two, one), isSpecialCase(one, one)]).toEqual([false, false]);
  });
});
