/**
 * Divers who share one detection probability, because the information that a fit leaves for their intercepts does not tell
 * them apart (METHOD.md: What cannot be told apart).
 */

import { extent } from '../../shared/extent.ts';
import type { ModelNotice } from '../../shared/model-notices.ts';
import type { Design } from '../../shared/survey.ts';
import { DESIGNS, type SurveyRows } from '../data.ts';
import { inverseDefinite, symmetricEigen } from '../numbers/solve.ts';
import type { DiverGroup, Layout } from '../parts.ts';
import { effortOf, group, namesOf } from './divers.ts';

const LEAST_INFORMATION = 1e-4;
/** A logit with a greater standard error says nothing of p. */
export const GREATEST_SE = 5;
const LOADS = 0.1;

/** Observers of a design who share one detection probability. */
export interface Sharing {
  design: Design;
  /** indices in observerNames, rising */
  observers: readonly number[];
}

export const sharingOf = (groups: readonly DiverGroup[]): Sharing[] =>
  groups.map(({ design, observers }) => ({ design, observers }));

/** Joins groups that need no fit as another fit of the same survey has joined them, with its notices. */
export function joinedAs(
  rows: SurveyRows,
  groups: readonly DiverGroup[],
  sharing: readonly Sharing[],
): { groups: DiverGroup[]; notices: ModelNotice[] } {
  let joined = [...groups];
  const notices: ModelNotice[] = [];
  for (const { design, observers } of sharing) {
    const own = joined.filter(
      (g) => g.design === design && g.observers.every((o) => observers.includes(o)),
    );
    if (own.length < 2) continue;
    const together = joinGroups(rows, joined, own);
    joined = together.groups;
    notices.push(together.notice);
  }
  return { groups: joined, notices };
}

function joinGroups(
  rows: SurveyRows,
  groups: readonly DiverGroup[],
  joined: readonly DiverGroup[],
): { groups: DiverGroup[]; notice: ModelNotice } {
  const { design } = joined[0];
  const all = groups.filter((g) => g.design === design).flatMap((g) => g.observers);
  const observers = joined.flatMap((g) => g.observers).sort((a, b) => a - b);
  const effort = effortOf(rows, design);
  const nothingAfter = observers.every((o) => (effort?.foundAfter.get(o) ?? 0) === 0);
  const merged = group(rows, design, observers, all, nothingAfter);
  return {
    groups: [...groups.filter((g) => !joined.includes(g)), merged].sort(inOrder),
    notice: { code: 'divers-joined', design, observers: namesOf(rows, observers) },
  };
}

/**
 * Joins the divers of a design whom the fit cannot tell apart.
 * @param information −Hessian at the fit, over all parameters of `layout`
 * @param seOfLogit standard error of a group's logit p at the mean covariates; null where it cannot be had
 * @returns the new groups with a notice, or null when there is information on every diver
 */
export function joinDivers(
  rows: SurveyRows,
  groups: DiverGroup[],
  layout: Layout,
  information: Float64Array,
  seOfLogit: (group: number) => number | null,
): { groups: DiverGroup[]; notice: ModelNotice } | null {
  for (const design of DESIGNS) {
    const free = groups.flatMap((g, i) =>
      g.design === design && layout.divers[i] >= 0 ? [i] : [],
    );
    const ofDesign = groups.flatMap((g, i) => (g.design === design && !g.never ? [i] : []));
    if (free.length === 0 || ofDesign.length < 2) continue;
    const { value, vector } = leastInformation(
      information,
      layout.parameters.length,
      free.map((i) => layout.divers[i]),
    );
    const weak = free.some((i) => {
      const se = seOfLogit(i);
      return se === null || se > GREATEST_SE;
    });
    if (value >= LEAST_INFORMATION && !weak) continue;
    const [, top] = extent(vector.map(Math.abs));
    const loading = free.filter((_, i) => Math.abs(vector[i]) > LOADS * top);
    const joined = loading.length > 1 ? loading : ofDesign;
    return joinGroups(
      rows,
      groups,
      joined.map((i) => groups[i]),
    );
  }
  return null;
}

function inOrder(a: DiverGroup, b: DiverGroup): number {
  return DESIGNS.indexOf(a.design) - DESIGNS.indexOf(b.design) || a.observers[0] - b.observers[0];
}

/** Least eigenvalue and its vector of S = H_αα − H_αο H_οο⁻¹ H_οα, scaled by the roots of the diagonal of H_αα. */
function leastInformation(
  information: Float64Array,
  n: number,
  alpha: number[],
): { value: number; vector: number[] } {
  const others = Array.from({ length: n }, (_, i) => i).filter((i) => !alpha.includes(i));
  const m = others.length;
  const block = new Float64Array(m * m);
  for (const [i, r] of others.entries()) {
    for (const [j, c] of others.entries()) block[i * m + j] = information[r * n + c];
  }
  const inverse = inverseDefinite(block, m) ?? pseudoInverse(block, m);
  const a = alpha.length;
  const s = new Float64Array(a * a);
  for (let i = 0; i < a; i++) {
    for (let j = 0; j < a; j++) {
      let value = information[alpha[i] * n + alpha[j]];
      for (let k = 0; k < m; k++) {
        for (let l = 0; l < m; l++) {
          value -=
            information[alpha[i] * n + others[k]] *
            inverse[k * m + l] *
            information[others[l] * n + alpha[j]];
        }
      }
      const first = information[alpha[i] * n + alpha[i]];
      const second = information[alpha[j] * n + alpha[j]];
      // no information at all on one of them: 0, the least there can be
      s[i * a + j] = first > 0 && second > 0 ? value / Math.sqrt(first * second) : 0;
    }
  }
  const { values, vectors } = symmetricEigen(s, a);
  return { value: values[0], vector: vectors[0] };
}

/** Of a symmetric matrix; directions without information count as known. */
function pseudoInverse(a: Float64Array, n: number): Float64Array {
  const { values, vectors } = symmetricEigen(a, n);
  const [, top] = extent([1e-300, ...values.map(Math.abs)]);
  const out = new Float64Array(n * n);
  values.forEach((value, k) => {
    if (value < 1e-12 * top) return;
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) out[i * n + j] += (vectors[k][i] * vectors[k][j]) / value;
    }
  });
  return out;
}
