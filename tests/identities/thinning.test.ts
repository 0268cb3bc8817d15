/**
 * What two divers find of N clusters, against the sum over every N that may have been there: count and detection are put
 * together in ℓ as if the found were a count of their own, thinned with its size kept (METHOD.md: Likelihood).
 */

import { expect, it } from 'vitest';
import type { SurveyRows } from '../../models/data.ts';
import { compileLikelihood, evaluateAt, type Likelihood } from '../../models/likelihood.ts';
import { logFactorial } from '../../models/numbers/special.ts';
import type { DiverGroup } from '../../models/parts.ts';
import type { Family } from '../../shared/estimate.ts';
import { CERTAIN, columnTerms, densityOf } from '../helpers/count-model.ts';

const AREA_M2 = 4;
const DENSITY = 0.9;
/** φ or θ; small, so that the size matters */
const DISPERSION = 1.7;
/** of the first and the second diver: together they find 0.79 */
const P = [0.7, 0.3] as const;
/** the chance of more is below 1e-14 */
const MOST = 250;

/** log-likelihood of one belt on which the passes found these */
function logLik(found: [number, number], family: Family, certain: boolean): number {
  const rows: SurveyRows = {
    segments: [
      {
        transect: 0,
        design: 'belt',
        areaM2: AREA_M2,
        halfWidthM: 0.5,
        classes: [0],
        plantCover: 0,
        depthM: 1,
        clarityM: null,
        primary: 0,
        secondary: 1,
      },
    ],
    clusters: (['primary', 'secondary'] as const).flatMap((role, pass) =>
      Array.from({ length: found[pass] }, () => ({ segment: 0, role, offsetM: null, count: 1 })),
    ),
    transectCount: 1,
    classNames: ['bed'],
    observerNames: ['A', 'B'],
  };
  const divers: DiverGroup[] = [0, 1].map((o) => {
    return { design: 'belt', observers: [o], certain, term: 'AB'[o] };
  });
  const density = densityOf(columnTerms(rows, {}));
  const likelihood: Likelihood = compileLikelihood(rows, {
    ...CERTAIN,
    divers,
    density,
    family,
    transectEffect: false,
  });
  const at: Record<string, number> = {
    intercept: Math.log(DENSITY),
    A: Math.log(P[0] / (1 - P[0])),
    B: Math.log(P[1] / (1 - P[1])),
    log_phi: Math.log(DISPERSION),
    log_theta: Math.log(DISPERSION),
  };
  const point = likelihood.layout.parameters.map((p) => at[p.term]);
  return evaluateAt(likelihood, Float64Array.from(point)).value;
}

it.each(['poisson', 'nb1', 'nb2'] as const)(
  '%s: the probability of what was found is the sum over all that may have been there',
  (family) => {
    const there = Array.from({ length: MOST }, (_, n) => Math.exp(logLik([n, 0], family, true)));
    expect(there.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
    const [first, second] = [P[0], (1 - P[0]) * P[1]];
    for (const [x, y] of [
      [0, 0],
      [1, 0],
      [0, 1],
      [3, 1],
      [2, 4],
      [11, 3],
    ]) {
      let sum = 0;
      for (let n = x + y; n < MOST; n++) {
        const ways = logFactorial(n) - logFactorial(x) - logFactorial(y) - logFactorial(n - x - y);
        sum +=
          there[n] *
          Math.exp(ways) *
          first ** x *
          second ** y *
          (1 - first - second) ** (n - x - y);
      }
      // ours counts the clusters one by one, not the ways to share them out between the passes
      const ways = logFactorial(x + y) - logFactorial(x) - logFactorial(y);
      expect(logLik([x, y], family, false) + ways, `${x}, ${y}`).toBeCloseTo(Math.log(sum), 11);
    }
  },
);
