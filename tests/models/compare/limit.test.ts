/**
 * How many times as many there can be where one of two surveys detected nothing. For Poisson counts without covariates and observers
 * who miss nothing, n clusters on a₁ against none on a₂: given the sum the second count is binomial, so that the exact conditional limit
 * (Przyborowski & Wilenski 1940, Biometrika 31:313) solves (1 + R a₂/a₁)^−n = 0.05. With everything at hand the profile is taken in
 * full, by a search of its own. Coverage by simulation; SHOALWISE_PAIRS=2000 for more.
 */

import { describe, expect, it } from 'vitest';
import { type EmptySearch, ratioLimit, STRANGER } from '../../../models/compare/limit.ts';
import type { SurveyRows } from '../../../models/data.ts';
import type { Candidate, Fit } from '../../../models/fit/fitted-model.ts';
import { compileLikelihood } from '../../../models/likelihood.ts';
import { maximise } from '../../../models/numbers/newton.ts';
import { BARE, DROP, fitConverged, NB1, NB2, POISSON, swapped } from '../../helpers/fitting.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { found, searched, truthWith } from '../../helpers/simulated-survey.ts';
import { writtenRows } from '../../helpers/written-rows.ts';

const PAIRS = Number(process.env.SHOALWISE_PAIRS ?? 100);
/** quantiles at 97.5 %: Student's t with 7 degrees of freedom, normal (Abramowitz & Stegun 1964, tables 26.10, 26.5) */
const T_7 = 2.364624;
const NORMAL_97 = 1.959964;
const NORMAL = { level: 0.95, widened: 1 };
const ANALYSIS = choices({ density: { plant_cover: 'none', depth: 'none' } });
const season = (rows: SurveyRows, candidate: Candidate = POISSON, analysis = BARE) => ({
  rows,
  members: [{ fit: fitConverged(rows, analysis, candidate), weight: 1 }],
});
const asSearch = ({ segments, transectCount }: SurveyRows): EmptySearch => ({
  segments,
  transectCount,
  share: 1,
});
/** a single pass: nobody followed, so p = 1 is held */
const counted = (counts: number[], areaM2 = 10): SurveyRows =>
  writtenRows(
    counts.map((first) => ({ primary: 0, secondary: null, segments: [{ first, areaM2 }] })),
    1,
    1,
  );

describe('a survey that detected nothing against one that did', () => {
  it.each([1, 4, 60])('has the exact conditional limit for %i counted clusters', (n) => {
    const limit = ratioLimit(season(counted([n, 0])), asSearch(counted([0, 0, 0])), NORMAL);
    // a₂/a₁ = 30/20
    expect(limit?.ratio).toBeCloseTo((0.05 ** (-1 / n) - 1) / 1.5, 5);
    expect(limit?.expected).toBeCloseTo(1.5 * n, 6);
  });

  it('could have missed as many mussels as its own search allows, whatever the other counted', () => {
    const other = season(counted([25, 35]));
    // 1000 m² of the same bed: N = 60/20 × 1000, and by all parameters it goes as the density does
    const totals = [
      {
        weight: 1,
        mussels: 3000,
        gradient: new Float64Array([3000]),
        covariance: other.members[0].fit.covariance,
      },
    ];
    const limit = ratioLimit(other, asSearch(counted([0, 0, 0])), { ...NORMAL, totals });
    // three over the area searched (Hanley & Lippman-Hand 1983)
    expect(limit?.mussels).toBeCloseTo((DROP / 30) * 1000, 5);
  });

  it('takes detection from the other: of a stranger, that of the observer who detects least', () => {
    const other = season(writtenRows(swapped(40, 8, 24, 20)));
    const once = (primary: number): EmptySearch => ({
      ...asSearch(writtenRows([{ primary, secondary: null, segments: [{ areaM2: 20 }] }])),
    });
    const limit = (primary: number): number =>
      ratioLimit(
        other,
        { ...once(0), segments: once(0).segments.map((s) => ({ ...s, primary })) },
        NORMAL,
      )?.ratio ?? Number.NaN;
    expect(limit(STRANGER)).toBe(Math.max(limit(0), limit(1)));
    expect(limit(1)).toBeGreaterThan(limit(0) * 1.2);
  });

  it('has none where nothing could have been detected', () => {
    expect(
      ratioLimit(season(counted([5])), { segments: [], transectCount: 0, share: 1 }, NORMAL),
    ).toBeNull();
  });

  it.each([
    ['poisson', POISSON],
    ['nb1', NB1],
    ['nb2', NB2],
    ['transects that differ', { ...POISSON, transectEffect: true }],
  ] as [string, Candidate][])('is near the full profile: %s', (name, candidate) => {
    const truth = truthWith({
      density: candidate.transectEffect
        ? { transect_sd: 0.7 }
        : candidate.family === 'poisson'
          ? {}
          : { family: candidate.family, dispersion: candidate.family === 'nb1' ? 2 : 1 },
    });
    const other = season(
      found(searched({ transects: 12, segments: 4 }), truth, 5),
      candidate,
      ANALYSIS,
    );
    const search = asSearch(searched({ transects: 6 }));
    const ours = ratioLimit(other, search, NORMAL)?.ratio ?? Number.NaN;
    const fall = fallAt(other.rows, other.members[0].fit, search, Math.log(ours));
    console.log(
      `${name}: limit ${ours.toFixed(4)}, where the full profile has fallen by ${fall.toFixed(4)}`,
    );
    // second order in the other survey's errors; 0.03 of 3.00 move the limit by 1 %
    expect(Math.abs(fall - DROP)).toBeLessThan(0.03);
  });
});

/** How far the maximum over all of the other survey's parameters lies below that without the search, at a log ratio. */
function fallAt(rows: SurveyRows, fit: Fit, search: EmptySearch, log: number): number {
  const here = fit.likelihood;
  const there = compileLikelihood(
    { ...rows, clusters: [], segments: [...search.segments], transectCount: search.transectCount },
    fit.parts,
  );
  const at = here.layout.density; // of the intercept
  const both = (point: Float64Array) => {
    const moved = Float64Array.from(point);
    moved[at] += log;
    const [a, b] = [here.evaluate(point), there.evaluate(moved)];
    if (a === null || b === null) return null;
    return {
      value: a.value + b.value,
      gradient: a.gradient.map((g, i) => g + b.gradient[i]),
      hessian: a.hessian.map((h, i) => h + b.hessian[i]),
    };
  };
  return fit.logLikelihood - maximise(both, fit.estimates, { reach: here.reach }).value;
}

/** Probability that the search detects nothing at a ratio: densities, p and effects of the truth written out, by the trapezoid rule. */
function chanceOfNothing({ segments }: SurveyRows, sd: number, ratio: number): number {
  const pair = 1 - (1 - 0.8) * (1 - 0.6);
  const byTransect = new Map<number, number>();
  for (const s of segments) {
    const perM2 = s.classes[0] === 0 ? 0.6 : 1.2;
    byTransect.set(s.transect, (byTransect.get(s.transect) ?? 0) + s.areaM2 * perM2 * pair);
  }
  let log = 0;
  for (const expected of byTransect.values()) {
    let chance = 0;
    for (let z = -8; z <= 8; z += 0.05)
      chance +=
        (0.05 / Math.sqrt(2 * Math.PI)) *
        Math.exp((-z * z) / 2 - ratio * expected * Math.exp(sd * z));
    log += Math.log(chance);
  }
  return Math.exp(log);
}

describe(`the limit over ${PAIRS} pairs of surveys of which one detected nothing`, () => {
  it.each([
    ['Poisson', 0, POISSON],
    ['transects that differ', 0.6, { ...POISSON, transectEffect: true }],
  ] as [string, number, Candidate][])(
    '%s: lies below the truth 5 times in 100 at most',
    (name, sd, candidate) => {
      const before = searched({ transects: 8, segments: 4, areaM2: 2 });
      const after = searched({ transects: 4, segments: 3, areaM2: 2 });
      const truth = truthWith({ density: { transect_sd: sd } });
      const widened = sd === 0 ? 1 : T_7 / NORMAL_97;
      const limits = Array.from({ length: PAIRS }, (_, i) => {
        const other = season(found(before, truth, 71, i), candidate, ANALYSIS);
        return (
          ratioLimit(other, asSearch(after), { level: 0.95, widened })?.ratio ??
          Number.POSITIVE_INFINITY
        );
      }).sort((a, b) => a - b);
      // at any true ratio: the share of limits below it, times the chance that the search detects nothing there
      const missed = limits.map(
        (limit, i) => ((i + 1) / PAIRS) * chanceOfNothing(after, sd, limit),
      );
      console.log(
        `${name}: below the truth in ${(100 * Math.max(...missed)).toFixed(1)} % at most; limits ${limits[PAIRS / 20].toFixed(2)} to ${limits[PAIRS - PAIRS / 20].toFixed(2)}`,
      );
      expect(Math.max(...missed)).toBeLessThanOrEqual(0.05);
      // and is no number that always holds: with the truth known it would be 5 % everywhere
      expect(Math.max(...missed)).toBeGreaterThan(0.005);
    },
  );
});
