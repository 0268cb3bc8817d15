/**
 * A transect left out, by Newton steps, against the model refitted without it: both designs, with and without a
 * transect effect. Refits start at the fit and run to |gradient| × se ≤ 1e-8.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { condense, sumPieces, totalOf } from '../../../models/abundance.ts';
import type { SurveyRows } from '../../../models/data.ts';
import { type LeftOut, leaveOneOut, onlyTransect } from '../../../models/diagnose/leave-out.ts';
import { at, type Fit } from '../../../models/fit/fitted-model.ts';
import { compileLikelihood, evaluateAt } from '../../../models/likelihood.ts';
import { maximise } from '../../../models/numbers/newton.ts';
import { predictor } from '../../../models/predict.ts';
import { mappedHabitats } from '../../../src/estimate/rows.ts';
import { fitConverged } from '../../helpers/fitting.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { type EstimatedLake, referenceLake } from '../../helpers/reference-lake.ts';
import { found, searched, USUAL_TRUTH } from '../../helpers/simulated-survey.ts';

function without(rows: SurveyRows, transect: number): SurveyRows {
  const index = new Map<number, number>();
  const segments = rows.segments.filter((s, i) => {
    if (s.transect === transect) return false;
    index.set(i, index.size);
    return true;
  });
  return {
    ...rows,
    segments,
    clusters: rows.clusters.flatMap((c) => {
      const segment = index.get(c.segment);
      return segment === undefined ? [] : [{ ...c, segment }];
    }),
  };
}

function musselsOf({ rows, analysis, bed }: EstimatedLake): (fit: Fit) => {
  total: number;
  gradient: Float64Array;
} {
  const habitats = mappedHabitats(bed.habitats, analysis);
  const pieces = condense(bed.pieces);
  return (fit) => {
    const p = predictor(rows, fit);
    const densities = habitats.map((h) => p.habitat(h));
    const { mussels, gradient } = totalOf(
      sumPieces(pieces, densities, p),
      densities,
      p,
      fit.covariance,
    );
    return { total: mussels, gradient: gradient.map((g) => g / mussels) };
  };
}

describe.each(['belt-nb1', 'both-effect-size'] as const)('%s', (name) => {
  let lake: EstimatedLake;
  let stepped: LeftOut[];
  let refitted: { logScore: number; influence: number }[];

  beforeAll(async () => {
    lake = await referenceLake(name);
    const { rows, fit } = lake;
    const mussels = musselsOf(lake);
    const whole = mussels(fit);
    stepped = leaveOneOut(rows, fit, whole.gradient);
    refitted = Array.from({ length: rows.transectCount }, (_, k) => {
      const best = maximise(compileLikelihood(without(rows, k), fit.parts).evaluate, fit.estimates);
      if (!best.converged) throw new Error(`the refit without transect ${k} did not converge`);
      const own = evaluateAt(compileLikelihood(onlyTransect(rows, k), fit.parts), best.point);
      return {
        logScore: own.value,
        influence: mussels({ ...fit, ...at(fit.likelihood, best.point) }).total / whole.total - 1,
      };
    });
  });

  it('predicts each transect as the refit does', () => {
    // measured: 0.001 on belts, 0.009 with a transect effect; one transect's score itself is 40 to 50
    stepped.forEach((l, k) => {
      expect(l.transect).toBe(k);
      expect(Math.abs((l.logScore as number) - refitted[k].logScore)).toBeLessThan(0.02);
    });
    const total = (all: { logScore: number | null }[]) =>
      all.reduce((sum, l) => sum + (l.logScore as number), 0);
    // measured: 0.0001 and 0.005; models are told apart by differences of 1 and more
    expect(Math.abs(total(stepped) - total(refitted))).toBeLessThan(0.02);
  });

  it('moves the total as the refit does', () => {
    // the log of the total is taken as linear in the parameters; measured: 0.0033 and 0.0035 of the total at most
    stepped.forEach((l, k) => {
      expect(Math.abs((l.influence as number) - refitted[k].influence)).toBeLessThan(0.005);
    });
    const most = (all: { influence: number | null }[]) =>
      all.reduce((a, l) => Math.max(a, Math.abs(l.influence as number)), 0);
    expect(most(refitted)).toBeGreaterThan(0.02); // so that the bound above says something
    expect(Math.abs(most(stepped) / most(refitted) - 1)).toBeLessThan(0.2);
  });

  it('predicts worse than the fit describes', () => {
    const inside = lake.fit.logLikelihood;
    const outside = stepped.reduce((sum, l) => sum + (l.logScore as number), 0);
    // by hand: a transect of gradient g loses gᵀI⁻¹g, and Σ ggᵀ is near I for a right model: one unit for each parameter
    expect(outside).toBeLessThan(inside);
    expect(inside - outside).toBeLessThan(3 * lake.fit.parameters);
  });
});

describe('what cannot be had', () => {
  const rows = found(searched(), USUAL_TRUTH, 31);
  const analysis = choices({ density: { plant_cover: 'none', depth: 'none' } });
  const poisson = { family: 'poisson', transectEffect: false, shape: null } as const;

  it('no influence without a total', () => {
    for (const l of leaveOneOut(rows, fitConverged(rows, analysis, poisson), null)) {
      expect(l.influence).toBeNull();
      expect(Number.isFinite(l.logScore)).toBe(true);
    }
  });

  it('no score for a transect that alone holds a class', () => {
    const lone: SurveyRows = {
      ...rows,
      classNames: ['sand', 'rock', 'clay'],
      segments: rows.segments.map((s) => (s.transect === 3 ? { ...s, classes: [2] } : s)),
    };
    const fit = fitConverged(lone, analysis, poisson);
    expect(fit.likelihood.layout.parameters.map((p) => p.term)).toContain('substrate:clay');
    leaveOneOut(lone, fit, new Float64Array(fit.estimates.length)).forEach((l, k) => {
      if (k === 3) expect(l).toEqual({ transect: 3, logScore: null, influence: null });
      else expect(l.logScore).not.toBeNull();
    });
  });
});

it('the transects’ own likelihoods sum to the whole', async () => {
  for (const name of ['belt-nb1', 'both-effect-size'] as const) {
    const { rows, fit } = await referenceLake(name);
    let sum = 0;
    for (let k = 0; k < rows.transectCount; k++)
      sum += evaluateAt(compileLikelihood(onlyTransect(rows, k), fit.parts), fit.estimates).value;
    // with a transect effect the quadrature's nodes are found anew: to its digits
    expect(Math.abs(sum - fit.logLikelihood)).toBeLessThan(1e-6);
  }
});
