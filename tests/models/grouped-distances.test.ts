/** Perpendicular distances taken by classes: what a class is, that narrow ones are exact, and what rounding does without them. */

import { describe, expect, it } from 'vitest';
import type { SurveyRows } from '../../models/data.ts';
import { classOf } from '../../models/detection/distance-class.ts';
import { comparedOf, tabulate } from '../../models/diagnose/expected.ts';
import { fittedSegments } from '../../models/diagnose/fitted.ts';
import { fitModel } from '../../models/fit/fit-model.ts';
import type { Candidate } from '../../models/fit/fitted-model.ts';
import { coefficient, fitConverged, POISSON, seOf } from '../helpers/fitting.ts';
import { choices } from '../helpers/made-up-rows.ts';
import { found, searched, truthWith, USUAL_TRUTH } from '../helpers/simulated-survey.ts';

const LIMITS_M = [0, 0.25, 0.75, 1];
const MODEL: Candidate = { ...POISSON, shape: 'half-normal' };

function analysis(classes: number[] | null, independence: 'full' | 'point' = 'full') {
  return choices({
    density: { plant_cover: 'none', depth: 'none' },
    detection: { independence, distance_classes: classes },
  });
}

/** As read off a tape with a mark every half metre. */
function heaped(rows: SurveyRows): SurveyRows {
  return {
    ...rows,
    clusters: rows.clusters.map((c) => ({ ...c, offsetM: Math.round(2 * (c.offsetM ?? 0)) / 2 })),
  };
}

describe('a class of perpendicular distances', () => {
  it('holds its upper limit, and the first one 0; the last ends at half the width', () => {
    expect(classOf(0, LIMITS_M, 1)).toEqual({ fromM: 0, toM: 0.25 });
    expect(classOf(0.25, LIMITS_M, 1)).toEqual({ fromM: 0, toM: 0.25 });
    expect(classOf(0.26, LIMITS_M, 1)).toEqual({ fromM: 0.25, toM: 0.75 });
    expect(classOf(0.8, LIMITS_M, 0.9)).toEqual({ fromM: 0.75, toM: 0.9 });
    expect(() => classOf(1.2, LIMITS_M, 1.5)).toThrow(RangeError);
  });
});

describe('a fit by classes', () => {
  const fine = Array.from({ length: 201 }, (_, i) => i / 200);
  it.each(['full', 'point'] as const)(
    'with narrow ones is that of exact distances: %s',
    (independence) => {
      const truth = truthWith({ detection: { independence } });
      const rows = found(searched({ design: 'distance' }), truth, 91);
      const exact = fitConverged(rows, analysis(null, independence), MODEL);
      const narrow = fitConverged(rows, analysis(fine, independence), MODEL);
      // by hand: classes of 5 mm lose (0.005/0.5)²/12 = 1e-5 of the information, which moves estimates by 0.3 % of their error
      for (const term of ['intercept', 'log_sigma'])
        expect(Math.abs(coefficient(narrow, term) - coefficient(exact, term))).toBeLessThan(
          0.02 * seOf(exact, term),
        );
    },
  );

  it('takes classes without any detection, but finds no maximum with all in the first: σ may then be as small as it likes', () => {
    const rows = found(searched({ design: 'distance' }), USUAL_TRUTH, 92);
    const near = { ...rows, clusters: rows.clusters.map((c) => ({ ...c, offsetM: 0.1 })) };
    expect(() => fitConverged(rows, analysis([0, 0.5, 1, 2]), MODEL)).not.toThrow();
    expect(fitModel(near, analysis(LIMITS_M), MODEL).converged).toBe(false);
  });

  it('leaves a survey on belts alone as it is, also its checks', () => {
    const rows = found(searched(), USUAL_TRUTH, 94);
    const plain = fitConverged(rows, analysis(null), POISSON);
    const classed = fitConverged(rows, analysis(LIMITS_M), POISSON);
    expect(classed.estimates).toEqual(plain.estimates);
    const [asMeasured, byClasses] = [plain, classed].map((fit) =>
      tabulate(rows, fit, fittedSegments(rows, fit)),
    );
    expect(comparedOf(byClasses)).toEqual(comparedOf(asMeasured));
  });

  it('holds the density where distances were rounded to half a metre', () => {
    const surveys = 20;
    const tally = { measured: 0, exact: 0, grouped: 0 };
    for (let i = 0; i < surveys; i++) {
      const measured = found(searched({ design: 'distance' }), USUAL_TRUTH, 93, i);
      const rounded = heaped(measured);
      for (const [name, rows, classes] of [
        ['measured', measured, null],
        ['exact', rounded, null],
        ['grouped', rounded, LIMITS_M],
      ] as const) {
        const fit = fitConverged(rows, analysis(classes && [...classes]), MODEL);
        tally[name] += (coefficient(fit, 'intercept') - Math.log(0.6)) / surveys; // the truth's, on sand
      }
    }
    // on the same surveys; in 200 of them exact distances lose 6 % of the density, classes nothing (METHOD.md: Grouped distances)
    expect(tally.exact - tally.measured).toBeLessThan(-0.03);
    expect(Math.abs(tally.grouped - tally.measured)).toBeLessThan(0.02);
  });
});
