/**
 * A model at stated values, before any survey: densities by substrate, detection, cluster size and how clumped clusters lie,
 * as somebody believes them (METHOD.md: Next dives).
 */

import type { Analysis } from '../../shared/analysis.ts';
import type { Design } from '../../shared/survey.ts';
import type { Pieces } from '../abundance.ts';
import type { ClusterRow, SegmentRow, SurveyRows } from '../data.ts';
import { aiccOf, at, type Candidate, type FittedModel } from '../fit/fitted-model.ts';
import { Specification } from '../fit/specification.ts';
import { compileLikelihood } from '../likelihood.ts';
import { fillKnown, type KnownValue } from '../parts.ts';
import type { MappedHabitat } from '../predict.ts';
import { type PlanningModel, totalGradient } from './planning-model.ts';

export interface StatedValues {
  /** clusters per m² of each class; classes that are left out have no transects' habitat */
  clustersPerM2: Readonly<Record<string, number>>;
  /** of each observer: on a belt, or on the line */
  p: number;
  /** of the half-normal detection function, m; null on belts */
  sigmaM: number | null;
  /** mean mussels in a cluster, 1 and more */
  clusterSize: number;
  /** φ of NB1; 0 = Poisson */
  dispersion: number;
  /** τ; 0 = none */
  transectSd: number;
}

/** How cluster sizes vary beyond their mean: a long tail, as counts of mussels have (ours). */
const SIZE_K = 1;
const logit = (p: number): number => Math.log(p / (1 - p));

/**
 * The form of the model, and a small survey that has it: every class, both observers in both roles. Its counts are no data: they
 * only say which terms there are.
 * @param observers two names
 */
export function statedForm(
  { clustersPerM2, clusterSize, dispersion, transectSd }: StatedValues,
  base: Analysis,
  design: Design,
  observers: readonly string[],
): { rows: SurveyRows; analysis: Analysis; candidate: Candidate } {
  const classNames = base.substrates.filter((c) => c in clustersPerM2);
  const segments: SegmentRow[] = [];
  const clusters: ClusterRow[] = [];
  for (const transect of [0, 1])
    for (const c of classNames.keys()) {
      for (const [role, count] of [
        ['primary', 1],
        ['primary', clusterSize > 1 ? 2 : 1],
        ['secondary', 1],
      ] as const)
        clusters.push({
          segment: segments.length,
          role,
          offsetM: design === 'belt' ? null : 0.1,
          count,
        });
      segments.push({
        transect,
        design,
        areaM2: 10,
        halfWidthM: design === 'belt' ? 0.5 : 1,
        classes: [c],
        plantCover: 0,
        depthM: 2,
        clarityM: null,
        primary: transect,
        secondary: 1 - transect,
      });
    }
  const family = dispersion > 0 ? 'nb1' : 'poisson';
  const transectEffect = transectSd > 0;
  const shape = design === 'belt' ? null : 'half-normal';
  return {
    rows: { segments, clusters, transectCount: 2, classNames, observerNames: [...observers] },
    candidate: { family, transectEffect, shape, depth: { form: 'none', df: 0 } },
    analysis: {
      ...base,
      models: 'best',
      substrates: classNames,
      density: {
        ...base.density,
        substrate: true,
        plant_cover: 'none',
        depth: 'none',
        family,
        transect_effect: transectEffect,
        shore: 'none',
      },
      detection: {
        ...base.detection,
        observer: true,
        plant_cover: false,
        substrate: false,
        depth: false,
        clarity: false,
        cluster_size: false,
        shape: 'half-normal',
        independence: 'full',
        distance_classes: null,
        availability: null,
      },
      cluster_size: { substrate: false },
    },
  };
}

/** The stated values in the form; @throws RangeError where a class of the form has no density */
export function statedModel(
  { rows, analysis, candidate }: ReturnType<typeof statedForm>,
  values: StatedValues,
  habitats: readonly MappedHabitat[],
  pieces: Pieces,
): PlanningModel {
  const likelihood = compileLikelihood(rows, new Specification(rows, analysis, candidate).parts());
  const { layout } = likelihood;
  const [reference, ...others] = rows.classNames;
  const densityOf = (name: string | undefined): number => {
    const density = name === undefined ? undefined : values.clustersPerM2[name];
    if (density === undefined || !(density > 0))
      throw new RangeError(`got a density of ${density} on ${name}, expected one above 0`);
    return density;
  };
  const own: KnownValue[] = [
    { part: 'density', term: 'intercept', value: Math.log(densityOf(reference)) },
    ...others.map((name) => ({
      part: 'density' as const,
      term: `substrate:${name}`,
      value: Math.log(densityOf(name) / densityOf(reference)),
    })),
    { part: 'size', term: 'intercept', value: Math.log(Math.max(1e-6, values.clusterSize - 1)) },
    { part: 'size', term: 'log_k', value: Math.log(SIZE_K) },
    { part: 'dispersion', term: 'log_phi', value: Math.log(values.dispersion) },
    { part: 'transect', term: 'log_tau', value: Math.log(values.transectSd) },
    { part: 'shape', term: 'log_sigma', value: Math.log(values.sigmaM ?? 1) },
  ];
  const point = fillKnown(layout, own, new Float64Array(layout.parameters.length));
  for (const i of layout.divers) if (i >= 0) point[i] = logit(values.p);
  const fit: FittedModel = {
    candidate,
    ...at(likelihood, point),
    // no maximum of anything
    logLikelihood: 0,
    parameters: point.length,
    aicc: aiccOf(0, point.length, rows.segments.length),
    gradientMax: 0,
    boundaries: [],
    notices: [],
  };
  return {
    fit,
    classNames: rows.classNames,
    observerNames: rows.observerNames,
    ...totalGradient(rows, fit, habitats, pieces),
    inHand: null,
    fixedVariance: 0,
    inflation: 1,
  };
}
