/**
 * What a model is made of, before any number is fitted: family, designs of density, detection and size, and which
 * divers share one detection probability. The likelihood is compiled from this.
 */

import type { CoefficientPart, Family, ModelTerm, TermKind } from '../shared/estimate.ts';
import type { Design } from '../shared/survey.ts';
import type { SegmentRow } from './data.ts';
import type { DensityDesign } from './density/design.ts';
import { FAMILIES } from './density/families.ts';
import type { ShapeName } from './detection/shapes.ts';
import { SIZE_FAMILIES, type SizeFamily } from './detection/size.ts';
import { bareTerm } from './terms.ts';

/** Divers of one design who share one detection probability at the covariates' zero. */
export interface DiverGroup {
  design: Design;
  /** indices in observerNames */
  observers: number[];
  /** p = 1: found everything, as far as the survey can tell */
  certain: boolean;
  /** p = 0: detected nothing, and cannot share the p of others; left out: no */
  never?: boolean;
  /** name of the coefficient */
  term: string;
}

/** Whether a group's p is estimated, not on its boundary. */
export const isFree = ({ certain, never }: DiverGroup): boolean => !certain && never !== true;

/** Place of the group that an observer belongs to on a design; −1 where there is none. */
export function groupOf(
  { divers }: Pick<ModelParts, 'divers'>,
  design: DiverGroup['design'],
  observer: number,
): number {
  return divers.findIndex((g) => g.design === design && g.observers.includes(observer));
}

export interface DetectionTerm extends ModelTerm {
  value(s: SegmentRow): number;
}

export interface SizeTerm extends ModelTerm {
  value(h: { classes: number[] }): number;
}

export interface ModelParts {
  family: Family;
  transectEffect: boolean;
  /** of the quadrature over the transect effect */
  nodes: number;
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
  /** limits of the classes that perpendicular distances are known by, m; null = exact */
  distanceClasses: readonly number[] | null;
  /** point independence's slope is estimated */
  offsetSlope: boolean;
  sizeFamily: SizeFamily;
  size: SizeTerm[];
  sizeInDetection: boolean;
}

export interface Parameter {
  part: CoefficientPart;
  term: string;
  kind: TermKind;
  /** as in ModelTerm */
  class: string | null;
  level: number | null;
  /** for the detection's intercepts */
  observers: number[];
  design: Design | null;
}

/** Where each part's parameters begin; −1 where there are none. */
export interface Layout {
  parameters: Parameter[];
  density: number;
  /** index of each diver group's parameter, −1 for those on a boundary */
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
  const put = (part: CoefficientPart, term: ModelTerm, group?: DiverGroup): number =>
    parameters.push(parameter(part, term, group)) - 1;
  const one = (part: CoefficientPart, name: string, kind: TermKind): number =>
    put(part, bareTerm(name, kind));
  const many = (part: CoefficientPart, terms: ModelTerm[]): number => {
    const from = parameters.length;
    for (const t of terms) put(part, t);
    return from;
  };
  const density = many('density', parts.density.terms);
  const divers = parts.divers.map((g) => {
    if (!isFree(g)) return -1;
    const alone = parts.divers.every((other) => other === g || other.design !== g.design);
    return put('detection', bareTerm(g.term, alone ? 'intercept' : 'observer'), g);
  });
  const anyFree = divers.some((i) => i >= 0);
  const detection = many('detection', anyFree ? parts.detection : []);
  const withSize = parts.sizeFamily !== 'single';
  const logCount =
    anyFree && parts.sizeInDetection && withSize
      ? one('detection', 'log_count', 'cluster_size')
      : -1;
  const slope = parts.offsetSlope ? one('detection', 'offset', 'perpendicular_distance') : -1;
  const size = many('size', withSize ? parts.size : []);
  const logK = SIZE_FAMILIES[parts.sizeFamily].k ? one('size', 'log_k', 'k') : -1;
  const own = FAMILIES[parts.family].dispersion;
  const dispersion = own === null ? -1 : one('dispersion', own.term, own.boundary.parameter);
  const logTau = parts.transectEffect ? one('transect', 'log_tau', 'tau') : -1;
  const shaped = parts.shape !== null && parts.shape !== 'flat';
  const logSigma = shaped ? one('shape', 'log_sigma', 'sigma') : -1;
  const logB =
    parts.shape === 'hazard-rate' && parts.fixedB === null ? one('shape', 'log_b', 'b') : -1;
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

/** Standard deviation of the transect effect at a point of the parameters; 0 without one. */
export const tauAt = ({ logTau }: Layout, point: Float64Array): number =>
  logTau < 0 ? 0 : Math.exp(point[logTau]);

/** Logarithm of the count family's dispersion; 0, which nothing reads, where it has none. */
export const logDispersionAt = ({ dispersion }: Layout, point: Float64Array): number =>
  dispersion < 0 ? 0 : point[dispersion];

/** @param group for the detection's intercepts */
export function parameter(part: CoefficientPart, term: ModelTerm, group?: DiverGroup): Parameter {
  const { name, kind, level } = term;
  const { observers = [], design = null } = group ?? {};
  return { part, term: name, kind, class: term.class, level, observers, design };
}

/** The value of a parameter in one model, from which another model that shares it may start. */
export interface KnownValue {
  part: CoefficientPart;
  term: string;
  value: number;
}

/** Writes the known values of a layout's parameters over `into`. */
export function fillKnown(
  { parameters }: Layout,
  known: readonly KnownValue[],
  into: Float64Array,
): Float64Array {
  parameters.forEach(({ part, term }, i) => {
    const same = known.find((k) => k.part === part && k.term === term);
    if (same) into[i] = same.value;
  });
  return into;
}
