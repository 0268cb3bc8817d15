/**
 * Four simulated surveys, estimated from their folders by the whole pipeline, against an independent implementation of
 * the same method in plain R 4.2 (tests/reference-lakes/README.md). Tolerances are those of that page; strata are coarser
 * because the reference integrates the lake's analytic depths and we triangulate its contours.
 */

import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { densityAt, predictor } from '../../models/predict.ts';
import type { Estimate } from '../../shared/estimate.ts';
import { type EstimatedLake, LAKES, referenceLake } from '../helpers/reference-lake.ts';

const FOLDER = new URL('../reference-lakes/', import.meta.url);

interface Reference {
  data: Estimate['data'];
  model: { log_likelihood: number; parameters: number; aicc: number };
  coefficients: { part: string; term: string; estimate: number; se: number }[];
  detection: NonNullable<Estimate['detection']>;
  cluster_size: { mean: number; se: number; k: number };
  design_based: { estimate: number; se: number };
  points: {
    substrate: string;
    plant_cover: number;
    depth_m: number;
    clusters_per_m2: number;
    clusters_se: number;
    mussels_per_m2: number;
    mussels_se: number;
  }[];
  abundance: {
    clusters: { estimate: number; se: number; cv: number };
    mussels: { estimate: number; se: number; cv: number };
    area_m2: number;
    outside_area_m2: number;
    unmapped_area_m2: number;
    strata: {
      substrate: string;
      depth_from_m: number;
      area_m2: number;
      mussels: number;
      se: number;
    }[];
  };
}

describe.each(LAKES)('%s', (name) => {
  let lake: EstimatedLake;
  let estimate: Estimate;
  const reference: Reference = JSON.parse(
    readFileSync(new URL(`${name}/reference.json`, FOLDER), 'utf8'),
  );

  beforeAll(async () => {
    lake = await referenceLake(name);
    estimate = lake.result.estimate;
  });

  it('reads the same survey', () => {
    const { area_searched_m2, ...counts } = reference.data;
    expect(estimate.data).toMatchObject(counts);
    expect(estimate.data.area_searched_m2 / area_searched_m2).toBeCloseTo(1, 9);
  });

  it('has the same log-likelihood to 0.001, parameters and AICc', () => {
    const { model } = estimate;
    expect(Math.abs(model.log_likelihood - reference.model.log_likelihood)).toBeLessThan(1e-3);
    expect(model.parameters).toBe(reference.model.parameters);
    expect(Math.abs((model.aicc ?? Number.NaN) - reference.model.aicc)).toBeLessThan(2e-3);
  });

  it('has every coefficient to 0.02 standard errors, and its standard error to 1 %', () => {
    expect(estimate.coefficients.map((c) => `${c.part} ${c.term}`).sort()).toEqual(
      reference.coefficients.map((c) => `${c.part} ${c.term}`).sort(),
    );
    for (const r of reference.coefficients) {
      const c = estimate.coefficients.find((o) => o.part === r.part && o.term === r.term);
      expect(Math.abs((c?.estimate ?? Number.NaN) - r.estimate) / r.se, r.term).toBeLessThan(0.02);
      expect(Math.abs((c?.se ?? Number.NaN) / r.se - 1), r.term).toBeLessThan(0.01);
    }
  });

  it('tells the same of divers and pairs', () => {
    const own = estimate.detection;
    expect(own?.observers).toHaveLength(reference.detection.observers.length);
    for (const r of reference.detection.observers) {
      const o = own?.observers.find((x) => x.observer === r.observer && x.design === r.design);
      for (const key of ['p', 'se', 'lower', 'upper'] as const) {
        expect(o?.[key], `${r.observer} ${key}`).toBeCloseTo(r[key] as number, 4);
      }
    }
    for (const r of reference.detection.pairs) {
      const o = own?.pairs.find(
        (x) => x.primary === r.primary && x.secondary === r.secondary && x.design === r.design,
      );
      expect(o?.p).toBeCloseTo(r.p, 4);
      expect(o?.se).toBeCloseTo(r.se as number, 4);
    }
    expect(own?.mean_p).toBeCloseTo(reference.detection.mean_p, 5);
  });

  it('has the same cluster size and design-based density', () => {
    expect(estimate.cluster_size?.mean).toBeCloseTo(reference.cluster_size.mean, 4);
    expect((estimate.cluster_size?.se ?? 0) / reference.cluster_size.se).toBeCloseTo(1, 3);
    expect(estimate.cluster_size?.k).toBeCloseTo(reference.cluster_size.k, 4);
    const design = estimate.design_based.clusters_per_m2;
    expect(design?.estimate).toBeCloseTo(reference.design_based.estimate, 6);
    expect((design?.se ?? 0) / reference.design_based.se).toBeCloseTo(1, 3);
  });

  it('predicts the same densities with the same errors', () => {
    const { rows, fits } = lake;
    const p = predictor(rows, fits[0]);
    for (const point of reference.points) {
      const classes = [rows.classNames.indexOf(point.substrate)];
      const at = densityAt(
        p,
        fits[0].covariance,
        { classes, plantCover: point.plant_cover },
        point.depth_m,
      );
      expect(at.clusters / point.clusters_per_m2).toBeCloseTo(1, 4);
      expect(at.clustersSe / point.clusters_se).toBeCloseTo(1, 2);
      expect(at.mussels / point.mussels_per_m2).toBeCloseTo(1, 4);
      expect(at.musselsSe / point.mussels_se).toBeCloseTo(1, 2);
    }
  });

  it('has the abundance to 1 %, its cv to 2 %, and the areas to 0.1 %', () => {
    const own = estimate.abundance;
    for (const key of ['clusters', 'mussels'] as const) {
      const q = own?.[key];
      expect(Math.abs((q?.estimate ?? 0) / reference.abundance[key].estimate - 1)).toBeLessThan(
        0.01,
      );
      expect(Math.abs((q?.cv ?? 0) / reference.abundance[key].cv - 1)).toBeLessThan(0.02);
    }
    for (const key of ['area_m2', 'outside_area_m2', 'unmapped_area_m2'] as const) {
      expect(Math.abs((own?.[key] ?? 0) / reference.abundance[key] - 1), key).toBeLessThan(1e-3);
    }
  });

  it('has every stratum to 2 %', () => {
    for (const r of reference.abundance.strata) {
      const s = estimate.strata?.find(
        (x) => x.substrate === r.substrate && x.depth_from_m === r.depth_from_m,
      );
      const label = `${r.substrate} from ${r.depth_from_m} m`;
      expect(Math.abs((s?.area_m2 ?? 0) / r.area_m2 - 1), label).toBeLessThan(0.02);
      expect(Math.abs((s?.mussels?.estimate ?? 0) / r.mussels - 1), label).toBeLessThan(0.02);
      expect(Math.abs((s?.mussels?.se ?? 0) / r.se - 1), label).toBeLessThan(0.02);
    }
  });
});
