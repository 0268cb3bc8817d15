/**
 * What a model is made of, before any number is fitted: family, designs of density, detection and size, and which
 * divers share one detection probability. The likelihood is compiled from this.
 */

import type { CoefficientPart, Family } from '../shared/estimate.ts';
import type { Design } from '../shared/survey.ts';
import type { SegmentRow } from './data.ts';
import type { DensityDesign } from './density/design.ts';
import type { ShapeName } from './detection/shapes.ts';
import type { SizeFamily } from './detection/size.ts';

/** Divers of one design who share one detection probability at the covariates' zero. */
export interface DiverGroup {
  design: Design;
  /** indices in observerNames */
  observers: number[];
  /** p = 1: found everything, as far as the survey can tell */
  certain: boolean;
  /** name of the coefficient */
  term: string;
}

export interface DetectionTerm {
  name: string;
  value(s: SegmentRow): number;
}

export interface SizeTerm {
  name: string;
  value(h: { classes: number[] }): number;
}

export interface ModelParts {
  family: Family;
  transectEffect: boolean;
  density: DensityDesign;
  /** level of plant cover by which segments may be separated */
  plantLevel: ((plantCover: number) => number) | null;
  divers: DiverGroup[];
  detection: DetectionTerm[];
  /** null when there are no distance transects */
  shape: ShapeName | null;
  /** hazard-rate's b on its boundary; null = estimated */
  fixedB: number | null;
  independence: 'full' | 'point';
  /** point independence's slope is estimated */
  offsetSlope: boolean;
  sizeFamily: SizeFamily;
  size: SizeTerm[];
  sizeInDetection: boolean;
}

export interface Parameter {
  part: CoefficientPart;
  term: string;
  /** for the detection's intercepts */
  observers: number[];
  design: Design | null;
}

/** Where each part's parameters begin; −1 where there are none. */
export interface Layout {
  parameters: Parameter[];
  density: number;
  /** index of each diver group's parameter, −1 for certain ones */
  divers: number[];
  detection: number;
  logCount: number;
  slope: number;
  size: number;
  logK: number;
  dispersion: number;
  logTau: number;
  logSigma: number;
  logB: number;
}

/** The order of parameters is the order of the coefficients in the result. */
export function layOut(parts: ModelParts): Layout {
  const parameters: Parameter[] = [];
  const put = (part: CoefficientPart, term: string, group?: DiverGroup): number =>
    parameters.push({
      part,
      term,
      observers: group?.observers ?? [],
      design: group?.design ?? null,
    }) - 1;
  const many = (part: CoefficientPart, terms: { name: string }[]): number => {
    const from = parameters.length;
    for (const t of terms) put(part, t.name);
    return from;
  };
  const density = many('density', parts.density.terms);
  const divers = parts.divers.map((g) => (g.certain ? -1 : put('detection', g.term, g)));
  const anyFree = divers.some((i) => i >= 0);
  const detection = many('detection', anyFree ? parts.detection : []);
  const withSize = parts.sizeFamily !== 'lone';
  const logCount =
    anyFree && parts.sizeInDetection && withSize ? put('detection', 'log_count') : -1;
  const slope = parts.offsetSlope ? put('detection', 'offset') : -1;
  const size = many('size', withSize ? parts.size : []);
  const logK = parts.sizeFamily === 'nb2' ? put('size', 'log_k') : -1;
  const dispersion =
    parts.family === 'poisson'
      ? -1
      : put('dispersion', parts.family === 'nb1' ? 'log_phi' : 'log_theta');
  const logTau = parts.transectEffect ? put('transect', 'log_tau') : -1;
  const shaped = parts.shape !== null && parts.shape !== 'flat';
  const logSigma = shaped ? put('shape', 'log_sigma') : -1;
  const logB = parts.shape === 'hazard-rate' && parts.fixedB === null ? put('shape', 'log_b') : -1;
  return {
    parameters,
    density,
    divers,
    detection,
    logCount,
    slope,
    size,
    logK,
    dispersion,
    logTau,
    logSigma,
    logB,
  };
}

/** Key of a parameter across models that share it. */
export function parameterKey(part: string, term: string): string {
  return `${part}|${term}`;
}
