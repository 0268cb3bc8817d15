/** Plain count regressions by our likelihood: every segment is a row of a data set, detection is certain, clusters are single mussels. */

import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { expect } from 'vitest';
import type { SurveyRows } from '../../models/data.ts';
import type { Term } from '../../models/density/design.ts';
import { compileLikelihood } from '../../models/likelihood.ts';
import { type Maximum, maximise } from '../../models/numbers/newton.ts';
import type { ModelParts } from '../../models/parts.ts';
import { bareTerm } from '../../models/terms.ts';
import { USUAL_NODES } from '../../models/transect-effect.ts';
import type { Family } from '../../shared/estimate.ts';

/** A published data set, a row an object of its cells. */
export function published(name: string): Record<string, string>[] {
  const text = readFileSync(new URL(`../published/data/${name}.csv`, import.meta.url), 'utf8');
  // R leaves the columns of row names and of a matrix without a name
  const transformHeader = (name: string, i: number): string => name || `column ${i}`;
  return Papa.parse<Record<string, string>>(text.trim(), { header: true, transformHeader }).data;
}

/** Dummy columns of a factor, the first level as reference. */
export function factor(values: string[], levels: string[]): Record<string, number[]> {
  return Object.fromEntries(levels.slice(1).map((l) => [l, values.map((v) => (v === l ? 1 : 0))]));
}

export interface CountData {
  counts: number[];
  /** by name, in order; an intercept is put before */
  columns: Record<string, number[]>;
  /** exposure, default 1 */
  exposure?: number[];
  /** index of the group of each row, for a random intercept */
  group?: number[];
}

export type CountFit = Maximum & {
  names: string[];
  /** by name: estimate and standard error from the observed information */
  of(name: string): { estimate: number; se: number };
};

export function countRows({ counts, exposure, group }: CountData): SurveyRows {
  const segments = counts.map((_, i) => ({
    transect: group?.[i] ?? i,
    design: 'belt' as const,
    areaM2: exposure?.[i] ?? 1,
    halfWidthM: 0.5,
    classes: [0],
    plantCover: 0,
    depthM: 1,
    clarityM: null,
    primary: 0,
    secondary: null,
  }));
  const clusters = counts.flatMap((n, segment) =>
    Array.from({ length: n }, () => ({
      segment,
      role: 'primary' as const,
      offsetM: null,
      count: 1,
    })),
  );
  const transectCount = group ? Math.max(...group) + 1 : counts.length;
  return { segments, clusters, transectCount, classNames: ['bed'], observerNames: ['A'] };
}

/** Terms that read a data set's columns by the segment's place. */
export function columnTerms(rows: SurveyRows, columns: Record<string, number[]>): Term[] {
  const place = new Map<unknown, number>(rows.segments.map((s, i) => [s, i]));
  const term = (name: string, value: (i: number) => number): Term => ({
    ...bareTerm(name, 'visibility'),
    ofDepth: false,
    value: (h) => value(place.get(h) as number),
  });
  return [
    term('intercept', () => 1),
    ...Object.entries(columns).map(([name, x]) => term(name, (i) => x[i])),
  ];
}

export const CERTAIN: Omit<ModelParts, 'family' | 'transectEffect' | 'density'> = {
  nodes: USUAL_NODES,
  plantLevel: null,
  divers: [{ design: 'belt', observers: [0], certain: true, term: 'certain' }],
  detection: [],
  shape: null,
  fixedB: null,
  independence: 'full',
  distanceClasses: null,
  offsetSlope: false,
  sizeFamily: 'single',
  size: [],
  sizeInDetection: false,
};

export function densityOf(terms: Term[]): ModelParts['density'] {
  return {
    terms,
    separated: { substrate: new Set(), plantCover: new Set() },
    reference: null,
    curve: null,
  };
}

export function fitCounts(data: CountData, family: Family, transectEffect = false): CountFit {
  const rows = countRows(data);
  const density = densityOf(columnTerms(rows, data.columns));
  const parts: ModelParts = { ...CERTAIN, family, transectEffect, density };
  return fitParts(rows, parts);
}

/** From an intercept of the overall rate and zeros. */
export function fitParts(
  rows: SurveyRows,
  parts: ModelParts,
  from: Record<string, number> = {},
): CountFit {
  const likelihood = compileLikelihood(rows, parts);
  const names = likelihood.layout.parameters.map((p) => p.term);
  const exposure = rows.segments.reduce((sum, s) => sum + s.areaM2, 0);
  const start = Float64Array.from(names, (name) => from[name] ?? 0);
  start[0] = from.intercept ?? Math.log(rows.clusters.length / exposure);
  const best = maximise(likelihood.evaluate, start);
  const n = names.length;
  return {
    ...best,
    names,
    of(name) {
      const i = names.indexOf(name);
      if (i < 0) throw new Error(`no ${name} among ${names.join(', ')}`);
      if (!best.covariance) throw new Error(`no standard error of ${name}: no maximum was reached`);
      return { estimate: best.point[i], se: Math.sqrt(best.covariance[i * n + i]) };
    },
  };
}

/** [term, estimate, standard error or null where none is published] */
export type PublishedTerm = [string, number, number | null];

/** The table of a script's output: terms with their estimates and standard errors. */
export function tableOf(figures: { terms: Record<string, number[]> }): PublishedTerm[] {
  return Object.entries(figures.terms).map(([name, [estimate, se]]) => [name, estimate, se]);
}

/** Each term within `estimate` and `se`, absolute; a difference names the term. */
export function expectTerms(
  fit: CountFit,
  table: PublishedTerm[],
  within: { estimate: number; se: number },
): void {
  for (const [name, estimate, se] of table) {
    const own = fit.of(name);
    expect(Math.abs(own.estimate - estimate), `${name}: ${own.estimate}`).toBeLessThan(
      within.estimate,
    );
    if (se !== null)
      expect(Math.abs(own.se - se), `se of ${name}: ${own.se}`).toBeLessThan(within.se);
  }
}
