/**
 * From substrate, plants and depth to named columns (METHOD.md: Density and count distributions), kept so that
 * prediction uses the same ones. Classes without any detection are set aside here ("separated"), and columns that
 * repeat others are left out.
 */

import type { Analysis, DepthForm } from '../../shared/analysis.ts';
import type { ModelTerm } from '../../shared/estimate.ts';
import type { ModelNotice, TermPart } from '../../shared/model-notices.ts';
import type { Habitat, SurveyRows } from '../data.ts';
import { bareTerm } from '../terms.ts';
import { type DepthCurve, depthCurve, depthKnots } from './curve.ts';
import { shoreTerms } from './shore.ts';

export interface Term extends ModelTerm {
  value(h: Habitat): number;
  /** true when the value depends on depth */
  ofDepth: boolean;
  /** where the value is a power of the depth in m */
  depthPower?: 1 | 2;
}

/** Classes with weight on which nothing was ever found. */
export interface Separated {
  substrate: Set<number>;
  plantCover: Set<number>;
}

export interface DensityDesign {
  terms: Term[];
  separated: Separated;
  /** index of the reference substrate class, or null without substrate */
  reference: number | null;
  curve: DepthCurve | null;
}

/** What the density depends on, with a stated form of depth. */
export type DensityChoices = Omit<Analysis['density'], 'depth' | 'shore'> & {
  depth: DepthForm;
  /** pairs of columns along the shore; left out: none */
  shorePairs?: number;
  /** a factor of its own for treated areas; left out: none */
  treatedArea?: boolean;
};

/** Name of the factor of treated areas. */
export const TREATED_TERM = 'treated';

export type PlantLevels = (plantCover: number) => number;

/** Level of plant cover that counts as a class: itself, or 0/1 for presence; null when plants are no factor. */
export function plantLevel(kind: Analysis['density']['plant_cover']): PlantLevels | null {
  if (kind === 'classes') return (pc) => pc;
  if (kind === 'presence') return (pc) => (pc > 0 ? 1 : 0);
  return null;
}

/** True when a habitat has weight on a class in which nothing was ever found: its density is 0. */
export function isSeparated(
  h: { classes: number[]; plantCover: number | null },
  separated: Separated,
  level: PlantLevels | null,
): boolean {
  return (
    h.classes.some((c) => separated.substrate.has(c)) ||
    (level !== null && h.plantCover !== null && separated.plantCover.has(level(h.plantCover)))
  );
}

/** Classes every segment of which is empty. */
export function findSeparated(
  rows: SurveyRows,
  choices: Pick<DensityChoices, 'substrate' | 'plant_cover'>,
): Separated {
  const counts = clusterCounts(rows);
  const level = plantLevel(choices.plant_cover);
  const empty = (keys: (s: number) => number[]): Set<number> => {
    const seen = new Set<number>();
    const found = new Set<number>();
    rows.segments.forEach((_, s) => {
      for (const key of keys(s)) {
        seen.add(key);
        if (counts[s] > 0) found.add(key);
      }
    });
    return new Set([...seen].filter((key) => !found.has(key)));
  };
  return {
    substrate: choices.substrate ? empty((s) => rows.segments[s].classes) : new Set(),
    plantCover: level ? empty((s) => [level(rows.segments[s].plantCover)]) : new Set(),
  };
}

export function clusterCounts(rows: SurveyRows): Int32Array {
  const counts = new Int32Array(rows.segments.length);
  for (const k of rows.clusters) counts[k.segment]++;
  return counts;
}

/** Surveyed classes in the order of `classNames`, less those given. */
export function surveyedClasses(rows: SurveyRows, without: Set<number> = new Set()): number[] {
  const seen = new Set<number>();
  for (const s of rows.segments) for (const c of s.classes) seen.add(c);
  return [...seen].filter((c) => !without.has(c)).sort((a, b) => a - b);
}

/** Dummy columns of substrate: the weight of each class but the first. */
export function substrateTerms(rows: SurveyRows, classes: number[]): Term[] {
  return classes.slice(1).map((c) => ({
    name: `substrate:${rows.classNames[c]}`,
    kind: 'substrate',
    class: rows.classNames[c],
    level: null,
    ofDepth: false,
    value: (h) => (h.classes.includes(c) ? 1 / h.classes.length : 0),
  }));
}

/**
 * The density's columns in term order: intercept, substrate, plant cover, shore, treated areas, depth.
 * @param leaveOut names of terms to leave out (found to rise without end)
 */
export function densityDesign(
  rows: SurveyRows,
  choices: DensityChoices,
  leaveOut: ReadonlySet<string> = new Set(),
): { design: DensityDesign; notices: ModelNotice[] } {
  const notices: ModelNotice[] = [];
  const separated = findSeparated(rows, choices);
  const level = plantLevel(choices.plant_cover);
  const terms: Term[] = [{ ...bareTerm('intercept', 'intercept'), ofDepth: false, value: () => 1 }];
  const classes = choices.substrate ? surveyedClasses(rows, separated.substrate) : [];
  for (const term of substrateTerms(rows, classes)) terms.push(term);
  if (choices.plant_cover === 'score') {
    terms.push({
      ...bareTerm('plant_cover', 'plant_cover'),
      ofDepth: false,
      value: (h) => h.plantCover,
    });
  } else if (level) {
    const levels = [...new Set(rows.segments.map((s) => level(s.plantCover)))]
      .filter((v) => !separated.plantCover.has(v))
      .sort((a, b) => a - b);
    for (const v of levels.slice(1)) {
      terms.push({
        name: choices.plant_cover === 'presence' ? 'plant_cover:presence' : `plant_cover:${v}`,
        kind: 'plant_cover',
        class: null,
        level: v,
        ofDepth: false,
        value: (h) => (level(h.plantCover) === v ? 1 : 0),
      });
    }
  }
  for (const term of shoreTerms(choices.shorePairs ?? 0)) terms.push(term);
  if (choices.treatedArea === true)
    terms.push({
      ...bareTerm(TREATED_TERM, 'area'),
      ofDepth: false,
      value: (h) => (h.treated === true ? 1 : 0),
    });
  const depth = depthTerms(rows, choices, notices);
  for (const term of depth.terms) terms.push(term);
  const active = rows.segments.filter((s) => !isSeparated(s, separated, level));
  const kept = keepIndependent(
    terms.filter((t) => !leaveOut.has(t.name)),
    active,
  );
  for (const d of kept.dropped) notices.push(repeats(d, 'density'));
  return {
    design: {
      terms: kept.terms,
      separated,
      reference: classes[0] ?? null,
      curve: depth.curve,
    },
    notices,
  };
}

function depthTerms(
  rows: SurveyRows,
  choices: DensityChoices,
  notices: ModelNotice[],
): { terms: Term[]; curve: DepthCurve | null } {
  const linear: Term = {
    ...bareTerm('depth', 'depth'),
    ofDepth: true,
    depthPower: 1,
    value: (h) => h.depthM,
  };
  switch (choices.depth) {
    case 'none':
      return { terms: [], curve: null };
    case 'linear':
      return { terms: [linear], curve: null };
    case 'quadratic':
      return {
        terms: [
          linear,
          {
            ...bareTerm('depth^2', 'depth'),
            ofDepth: true,
            depthPower: 2,
            value: (h) => h.depthM ** 2,
          },
        ],
        curve: null,
      };
    case 'curve': {
      const knots = depthKnots(
        rows.segments.map((s) => s.depthM),
        choices.depth_df,
      );
      const df = Math.max(0, knots.length - 1);
      if (df < choices.depth_df) {
        notices.push({
          code: 'depth-knots-coincide',
          asked: choices.depth_df,
          used: df,
        });
      }
      if (df === 0) return { terms: [], curve: null };
      const curve = depthCurve(knots);
      const scratch = new Float64Array(df);
      const terms = Array.from({ length: df }, (_, j) => ({
        ...bareTerm(`depth:${j + 1}`, 'depth'),
        ofDepth: true,
        value: (h: Habitat) => {
          curve.columns(h.depthM, scratch);
          return scratch[j];
        },
      }));
      return { terms, curve };
    }
  }
}

/** A column whose remainder after those kept is below this share of its length repeats them. */
const COLLINEAR = 1e-9;

/** Keeps, in order, the terms whose columns over the points are not repeated by those before (Gram–Schmidt, twice). */
export function keepIndependent<P, T extends { name: string; value(p: P): number }>(
  terms: T[],
  points: P[],
): { terms: T[]; dropped: { name: string; of: string[] }[] } {
  const kept: T[] = [];
  const basis: Float64Array[] = [];
  const columns: Float64Array[] = [];
  const dropped: { name: string; of: string[] }[] = [];
  for (const term of terms) {
    const column = Float64Array.from(points, (p) => term.value(p));
    const length = norm(column);
    const rest = Float64Array.from(column);
    for (let pass = 0; pass < 2; pass++) for (const q of basis) subtract(rest, q, dot(rest, q));
    const left = norm(rest);
    if (left <= COLLINEAR * length) {
      dropped.push({
        name: term.name,
        of: combination(column, columns, basis).map((i) => kept[i].name),
      });
      continue;
    }
    kept.push(term);
    columns.push(column);
    basis.push(rest.map((x) => x / left));
  }
  return { terms: kept, dropped };
}

/** Which of the kept columns make up `column`. */
function combination(
  column: Float64Array,
  columns: Float64Array[],
  basis: Float64Array[],
): number[] {
  const n = columns.length;
  const target = basis.map((q) => dot(column, q));
  const weights = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    let sum = target[i];
    for (let j = i + 1; j < n; j++) sum -= dot(basis[i], columns[j]) * weights[j];
    weights[i] = sum / dot(basis[i], columns[i]);
  }
  const scale = norm(column) || 1;
  return weights.flatMap((w, i) => (Math.abs(w) * norm(columns[i]) > 1e-6 * scale ? [i] : []));
}

export function repeats(d: { name: string; of: string[] }, part: TermPart): ModelNotice {
  return { code: 'column-repeats', part, term: d.name, of: d.of };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
const norm = (a: Float64Array): number => Math.sqrt(dot(a, a));
function subtract(a: Float64Array, b: Float64Array, t: number): void {
  for (let i = 0; i < a.length; i++) a[i] -= t * b[i];
}
