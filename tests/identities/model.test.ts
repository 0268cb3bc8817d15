/** Identities of fitted surveys: what must not change a result, and what must. Of ℓ itself: likelihood.test.ts. */

import { describe, expect, it } from 'vitest';
import { sumPieces, totalOf } from '../../models/abundance.ts';
import type { SurveyRows } from '../../models/data.ts';
import type { DensityChoices } from '../../models/density/design.ts';
import type { Fit } from '../../models/fit/fitted-model.ts';
import { seeded } from '../../models/numbers/random.ts';
import { densityAt, predictor } from '../../models/predict.ts';
import type { Family } from '../../shared/estimate.ts';
import { fitCounts } from '../helpers/count-model.ts';
import { fitConverged } from '../helpers/fitting.ts';
import { choices, madeUpRows } from '../helpers/made-up-rows.ts';

/** Twenty belts of six segments, two divers who swap, sand or rock. */
function survey(): SurveyRows {
  const random = seeded(11);
  const rows = madeUpRows(random, {
    transects: 20,
    segments: 6,
    classes: 2,
    mixed: 0,
    found: 3,
    second: 0.2,
  });
  return { ...rows, classNames: ['sand', 'rock'] };
}

function fitted(rows: SurveyRows, family: Family, density: Partial<DensityChoices> = {}): Fit {
  const analysis = choices({ density: { plant_cover: 'none', depth: 'linear', ...density } });
  return fitConverged(
    rows,
    { ...analysis, substrates: rows.classNames },
    { family, transectEffect: false, shape: null },
  );
}

const value = (fit: Fit, term: string): number => {
  const i = fit.likelihood.layout.parameters.findIndex((p) => p.term === term);
  if (i < 0) throw new Error(`no ${term} in the fit`);
  return fit.estimates[i];
};

describe('a fitted survey', () => {
  /** Every segment in two parts of the same habitat, its clusters shared out between them. */
  const cutInTwo = (rows: SurveyRows): SurveyRows => ({
    ...rows,
    segments: rows.segments.flatMap((s) => [
      { ...s, areaM2: s.areaM2 * 0.4 },
      { ...s, areaM2: s.areaM2 * 0.6 },
    ]),
    clusters: rows.clusters.map((c, i) => ({ ...c, segment: 2 * c.segment + (i % 2) })),
  });

  it('cut in two: a Poisson fit stays, with its standard errors; nb2 finds another θ', () => {
    const rows = survey();
    const [whole, cut] = [fitted(rows, 'poisson'), fitted(cutInTwo(rows), 'poisson')];
    expect(cut.estimates).toHaveLength(whole.estimates.length);
    // each search ends within 1e-8 standard errors of its maximum
    whole.estimates.forEach((x, i) => {
      expect(cut.estimates[i]).toBeCloseTo(x, 7);
    });
    whole.covariance.forEach((x, i) => {
      expect(cut.covariance[i]).toBeCloseTo(x, 7);
    });
    const theta = value(fitted(rows, 'nb2'), 'log_theta');
    expect(Math.abs(value(fitted(cutInTwo(rows), 'nb2'), 'log_theta') - theta)).toBeGreaterThan(
      0.1,
    );
  });

  it('turned round, with the divers’ names exchanged: each keeps his own p', () => {
    const rows = survey();
    const last = rows.segments.length - 1;
    const turned: SurveyRows = {
      ...rows,
      segments: [...rows.segments].reverse().map((s) => {
        return { ...s, primary: 1 - s.primary, secondary: 1 - (s.secondary as number) };
      }),
      clusters: [...rows.clusters].reverse().map((c) => ({ ...c, segment: last - c.segment })),
      observerNames: [...rows.observerNames].reverse(),
    };
    const [a, b] = [fitted(rows, 'nb1'), fitted(turned, 'nb1')];
    expect(b.logLikelihood).toBeCloseTo(a.logLikelihood, 9);
    const terms = a.likelihood.layout.parameters.map((p) => p.term);
    expect(terms).toContain('observer:Ada:belt');
    for (const term of terms) expect(value(b, term), term).toBeCloseTo(value(a, term), 7);
  });

  it('with interspersed segments: a class weighs by its share of the label, in whatever order it is written', () => {
    const rows = survey();
    const mixed: SurveyRows = {
      ...rows,
      segments: rows.segments.map((s, i) =>
        i % 4 === 0
          ? { ...s, classes: i % 8 === 0 ? [0, 1] : [1, 0], secondary: null }
          : { ...s, secondary: null },
      ),
      clusters: rows.clusters.map((c) => ({ ...c, role: 'primary', count: 1 })),
    };
    const fit = fitted(mixed, 'nb1');
    // the same regression with the share of rock as a bare column
    const bare = fitCounts(
      {
        counts: rows.segments.map((_, i) => rows.clusters.filter((c) => c.segment === i).length),
        exposure: rows.segments.map((s) => s.areaM2),
        columns: {
          rock: rows.segments.map((s, i) => (i % 4 === 0 ? 0.5 : s.classes[0])),
          depth: rows.segments.map((s) => s.depthM),
        },
      },
      'nb1',
    );
    expect(fit.logLikelihood).toBeCloseTo(bare.value, 9);
    expect(value(fit, 'substrate:rock')).toBeCloseTo(bare.of('rock').estimate, 7);
    const p = predictor(mixed, fit);
    const at = (classes: number[]): number =>
      densityAt(p, fit.covariance, { classes, plantCover: 0 }, 2).clusters;
    expect(at([0, 1])).toBeCloseTo(Math.sqrt(at([0]) * at([1])), 10);
    expect(at([1, 0])).toBeCloseTo(at([0, 1]), 12);
    expect(Math.abs(Math.log(at([1]) / at([0])))).toBeGreaterThan(0.02); // else the mean tells nothing
  });

  it('a mixed label of two classes of equal density has that density', () => {
    // each segment once as sand and once as rock, so that the two are equal
    const rows = survey();
    const n = rows.segments.length;
    const twice: SurveyRows = {
      ...rows,
      transectCount: 2 * rows.transectCount,
      segments: [0, 1].flatMap((c) =>
        rows.segments.map((s) => {
          return { ...s, classes: [c], transect: s.transect + c * rows.transectCount };
        }),
      ),
      clusters: [0, 1].flatMap((c) =>
        rows.clusters.map((k) => ({ ...k, segment: k.segment + c * n })),
      ),
    };
    const fit = fitted(twice, 'nb1');
    expect(value(fit, 'substrate:rock')).toBeCloseTo(0, 7);
    const p = predictor(twice, fit);
    const [sand, rock, both] = [[0], [1], [0, 1]].map((classes) =>
      densityAt(p, fit.covariance, { classes, plantCover: 0 }, 2),
    );
    expect(both.clusters / sand.clusters).toBeCloseTo(1, 7);
    expect(both.clusters / rock.clusters).toBeCloseTo(1, 7);
    // and is known better than either: it draws on the segments of both
    expect(both.clustersSe).toBeLessThan(0.9 * sand.clustersSe);
  });

  it('with p = 1 and one density: N̂ = n/Σa × A, its error √n/Σa × A (Poisson, by hand)', () => {
    const rows = survey();
    const single: SurveyRows = {
      ...rows,
      segments: rows.segments.map((s) => ({ ...s, secondary: null })),
      clusters: rows.clusters.map((c) => ({ ...c, role: 'primary' as const })),
    };
    const fit = fitted(single, 'poisson', { substrate: false, depth: 'none' });
    const n = single.clusters.length;
    const searchedM2 = single.segments.reduce((sum, s) => sum + s.areaM2, 0);
    const mussels = single.clusters.reduce((sum, c) => sum + c.count, 0);
    const p = predictor(single, fit);
    const habitats = [p.habitat({ classes: [0], plantCover: null })];
    const pieces = {
      count: 2,
      habitat: [0, 0],
      areaM2: [25_000, 15_000],
      depthM: [2, 9],
      band: [2, 9],
      reason: [0, 0],
    };
    const total = totalOf(sumPieces(pieces, habitats, p), habitats, p, fit.covariance);
    expect(total.clusters / ((n / searchedM2) * 40_000)).toBeCloseTo(1, 8);
    expect(total.clustersSe / ((Math.sqrt(n) / searchedM2) * 40_000)).toBeCloseTo(1, 8);
    // and of mussels all that were counted: the mean size is the sample's
    expect(total.mussels / ((mussels / searchedM2) * 40_000)).toBeCloseTo(1, 8);
  });
});
