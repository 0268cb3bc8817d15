/** Each check in one plain sentence: holds, doubtful, fails, and what that means for the number. */

import type { CheckResult, Verdict } from '../../shared/result.ts';
import { chiSquareTail } from './chi-square.ts';
import type { Compared, ComparedTables } from './expected.ts';
import { normality } from './normality.ts';
import type { RoleTest } from './roles.ts';

const DOUBTFUL = 0.05;
const FAILS = 0.005;

function byProbability(p: number): Verdict {
  return p < FAILS ? 'fails' : p < DOUBTFUL ? 'doubtful' : 'holds';
}

/** Σ (O − E)²/V over rows where at least LEAST clusters are expected; the others are pooled into one. */
const LEAST = 3;
export function compareTest(
  rows: Compared[],
  lost = 0,
): { chi2: number; df: number; p: number } | null {
  const large = rows.filter((r) => r.expected >= LEAST);
  const small = rows.filter((r) => r.expected < LEAST);
  if (small.length > 0) {
    const pooled = small.reduce(
      (a, r) => ({
        label: 'others',
        observed: a.observed + r.observed,
        expected: a.expected + r.expected,
        variance: a.variance + r.variance,
      }),
      { label: 'others', observed: 0, expected: 0, variance: 0 },
    );
    if (pooled.expected >= LEAST) large.push(pooled);
  }
  const df = large.length - lost;
  if (df < 1) return null;
  const chi2 = large.reduce((sum, r) => sum + (r.observed - r.expected) ** 2 / r.variance, 0);
  return { chi2, df, p: chiSquareTail(chi2, df) };
}

const probability = (p: number): string =>
  p < 0.001 ? 'p < 0.001' : `p = ${p.toFixed(p < 0.1 ? 3 : 2)}`;

export function dispersionCheck(value: number | null): CheckResult | null {
  if (value === null) return null;
  const verdict: Verdict = value > 2 ? 'fails' : value > 1.4 || value < 0.5 ? 'doubtful' : 'holds';
  const meaning = {
    holds: 'the counts scatter as the model says, so the interval can be taken at its word',
    doubtful:
      value > 1
        ? 'the counts scatter more than the model says; the interval may be somewhat too narrow'
        : 'the counts scatter less than the model says; the interval may be wider than needed',
    fails:
      'the counts scatter much more than the model says; the interval is too narrow, use the bootstrap',
  }[verdict];
  return {
    name: 'dispersion',
    title: 'Scatter of the counts',
    verdict,
    sentence: `Pearson dispersion ${value.toFixed(2)} (1 is right): ${meaning}.`,
  };
}

const MEANINGS: Record<string, { title: string; holds: string; not: string }> = {
  diver: {
    title: 'Who found what',
    holds: 'each diver found about what the model expects in each role',
    not: 'what the divers found in their roles is not what the model expects; the detection, and with it the total, may be off: check the roles on the sheets, or let detection depend on more',
  },
  offset: {
    title: 'Offsets from the rope',
    holds: 'detection falls with the offset as the fitted curve says',
    not: 'the offsets do not follow the fitted curve (heaping at 0 or 1 m, or avoidance of the rope); the density from distance transects may be off',
  },
  substrate: {
    title: 'By substrate',
    holds: 'found and expected clusters agree on every substrate',
    not: 'some substrate holds more or fewer clusters than the model says; the strata of it are off, the total less so',
  },
  depth: {
    title: 'By depth',
    holds: 'found and expected clusters agree at every depth',
    not: 'some depths hold more or fewer clusters than the model says; let the depth curve bend more (density.depth_df)',
  },
};

export function tableChecks(tables: ComparedTables): CheckResult[] {
  const kinds: [keyof typeof MEANINGS, Compared[], number][] = [
    ['diver', tables.byDiver, 0],
    ['offset', tables.byOffset, 1],
    ['substrate', tables.bySubstrate, 0],
    ['depth', tables.byDepth, 0],
  ];
  return kinds.flatMap(([kind, rows, lost]) => {
    const test = compareTest(rows, lost);
    if (!test) return [];
    const verdict = byProbability(test.p);
    const { title, holds, not } = MEANINGS[kind];
    return [
      {
        name: kind,
        title,
        verdict,
        sentence: `χ² ${test.chi2.toFixed(1)} on ${test.df}, ${probability(test.p)}: ${verdict === 'holds' ? holds : not}.`,
      },
    ];
  });
}

/** @param names of the transects */
export function rolesCheck(test: RoleTest | null, names: string[]): CheckResult | null {
  if (!test) return null;
  const verdict = byProbability(test.p);
  const { transect, found, second, expected } = test.oddest;
  const meaning =
    verdict === 'holds'
      ? 'on every rope the second diver found about the share that the model expects'
      : `on some ropes the second diver found far more or less than the model expects, most of all on ${names[transect]} (${second} of ${found} clusters, ${expected.toFixed(1)} expected); detection, and with it the total, may be far off: check whether roles were exchanged on their sheets`;
  return {
    name: 'roles',
    title: 'Roles rope by rope',
    verdict,
    sentence: `${test.transects} ropes compared, ${probability(test.p)}: ${meaning}.`,
  };
}

export function moranCheck(test: { i: number; p: number } | null): CheckResult | null {
  if (!test) return null;
  const verdict = byProbability(test.p);
  const meaning =
    verdict === 'holds'
      ? 'neighbouring transects do not err alike, so they count as separate evidence'
      : 'neighbouring transects err alike: something that the model does not know changes along the shore; the interval is likely too narrow';
  return {
    name: 'moran',
    title: 'Neighbouring transects',
    verdict,
    sentence: `Moran's I ${test.i.toFixed(2)}, ${probability(test.p)}: ${meaning}.`,
  };
}

export function residualCheck(residuals: number[]): CheckResult | null {
  const test = normality(residuals);
  if (!test) return null;
  const verdict = byProbability(test.p);
  const meaning = {
    holds: 'the counts of single segments follow the chosen family',
    doubtful:
      'the counts of single segments do not quite follow the chosen family; the total is little affected',
    fails:
      'the counts of single segments do not follow the chosen family; prefer the bootstrap interval',
  }[verdict];
  return {
    name: 'residuals',
    title: 'Counts of single segments',
    verdict,
    sentence: `Quantile residuals with skewness ${test.skewness.toFixed(2)} and kurtosis ${test.kurtosis.toFixed(2)} (0 and 3 are right), ${probability(test.p)}: ${meaning}.`,
  };
}

/** @param largest transect with the greatest relative influence on the total */
export function influenceCheck(
  largest: { name: string; influence: number } | null,
): CheckResult | null {
  if (!largest) return null;
  const share = Math.abs(largest.influence);
  const verdict: Verdict = share > 0.3 ? 'fails' : share > 0.15 ? 'doubtful' : 'holds';
  const change = `Without ${largest.name} the total would be ${(100 * share).toFixed(0)} % ${largest.influence < 0 ? 'lower' : 'higher'}`;
  const meaning = {
    holds: 'no single rope carries the answer',
    doubtful: 'the answer leans on this rope; look at its sheet again',
    fails:
      'this rope carries the answer; check its sheet, and add transects like it before acting on the total',
  }[verdict];
  return {
    name: 'influence',
    title: 'Which rope carries the answer',
    verdict,
    sentence: `${change}: ${meaning}.`,
  };
}

/** Model against design, both as clusters per m² of searched bed. */
export function designCheck(
  model: number,
  design: { estimate: number; se: number | null },
): CheckResult | null {
  if (design.se === null || design.se === 0) return null;
  const z = (model - design.estimate) / design.se;
  const verdict: Verdict = Math.abs(z) > 3 ? 'fails' : Math.abs(z) > 2 ? 'doubtful' : 'holds';
  const figures = `${model.toPrecision(3)} clusters per m² of searched bed by the model, ${design.estimate.toPrecision(3)} by plain effort`;
  const meaning =
    verdict === 'holds'
      ? 'they agree within their errors'
      : 'they disagree beyond their errors: the habitat model does not fit the searched bed; do not rely on the total before the other checks are understood';
  return {
    name: 'design',
    title: 'With and without a habitat model',
    verdict,
    sentence: `${figures}: ${meaning}.`,
  };
}
