/**
 * Which divers can be told apart (METHOD.md: What cannot be told apart). Two rules can be read off the sheets before
 * any fit; the third needs the information that a fit leaves for the divers' intercepts.
 */

import { extent } from '../../shared/extent.ts';
import type { ModelNotice, SwapProblem } from '../../shared/model-notices.ts';
import type { Design } from '../../shared/survey.ts';
import { DESIGNS, type SurveyRows } from '../data.ts';
import { DensityNotIdentified } from '../errors.ts';
import { inverseDefinite, symmetricEigen } from '../numbers/solve.ts';
import type { DiverGroup, Layout } from '../parts.ts';
import { swapProblem } from './swap.ts';

/** What the divers of one design did, counted over two-pass transects. */
export interface Effort {
  design: Design;
  /** observers of the design, in order */
  observers: number[];
  twoPass: boolean;
  /** somebody was primary on one two-pass transect and secondary on another */
  swapped: boolean;
  /** clusters that each found as primary, and that others found after them, by observer */
  foundFirst: Map<number, number>;
  foundAfter: Map<number, number>;
}

export function effortOf(rows: SurveyRows, design: Design): Effort | null {
  const own = rows.segments.filter((s) => s.design === design);
  if (own.length === 0) return null;
  const firsts = new Set<number>();
  const seconds = new Set<number>();
  const all = new Set<number>();
  for (const s of own) {
    all.add(s.primary);
    if (s.secondary === null) continue;
    all.add(s.secondary);
    firsts.add(s.primary);
    seconds.add(s.secondary);
  }
  const foundFirst = new Map<number, number>();
  const foundAfter = new Map<number, number>();
  for (const c of rows.clusters) {
    const s = rows.segments[c.segment];
    if (s.design !== design || s.secondary === null) continue;
    const tally = c.role === 'primary' ? foundFirst : foundAfter;
    tally.set(s.primary, (tally.get(s.primary) ?? 0) + 1);
  }
  return {
    design,
    observers: [...all].sort((a, b) => a - b),
    twoPass: seconds.size > 0,
    swapped: [...firsts].some((o) => seconds.has(o)),
    foundFirst,
    foundAfter,
  };
}

const total = (tally: Map<number, number>): number =>
  [...tally.values()].reduce((a, b) => a + b, 0);

/** Groups by the rules that need no fit. */
export function firstGroups(
  rows: SurveyRows,
  byObserver: boolean,
): { groups: DiverGroup[]; notices: ModelNotice[] } {
  const groups: DiverGroup[] = [];
  const notices: ModelNotice[] = [];
  for (const design of DESIGNS) {
    const effort = effortOf(rows, design);
    if (!effort) continue;
    refuseEmpty(rows, effort);
    if (!effort.twoPass) {
      groups.push(group(rows, design, effort.observers, effort.observers, true));
      continue;
    }
    const nothingAfter = total(effort.foundAfter) === 0;
    if (!nothingAfter && total(effort.foundFirst) === 0) {
      throw new DensityNotIdentified({
        code: 'density-not-identified',
        cause: 'nothing-detected-first',
        design,
        detectedAfter: total(effort.foundAfter),
      });
    }
    const certain = nothingAfter
      ? effort.observers
      : byObserver && effort.swapped
        ? effort.observers.filter(
            (o) => (effort.foundFirst.get(o) ?? 0) > 0 && (effort.foundAfter.get(o) ?? 0) === 0,
          )
        : [];
    if (certain.length > 0 && total(effort.foundFirst) > 0) {
      notices.push({
        code: 'nothing-missed',
        design,
        observers: namesOf(rows, certain),
      });
    }
    const rest = effort.observers.filter((o) => !certain.includes(o));
    if (!byObserver || !effort.swapped || nothingAfter) {
      groups.push(group(rows, design, effort.observers, effort.observers, nothingAfter));
    } else {
      for (const o of certain) groups.push(group(rows, design, [o], effort.observers, true));
      for (const o of rest) groups.push(group(rows, design, [o], effort.observers, false));
    }
  }
  return { groups, notices };
}

/** Where a design found nothing, its detection has no maximum: it would run to 0. */
function refuseEmpty(rows: SurveyRows, { design, twoPass }: Effort): void {
  if (rows.clusters.some((c) => rows.segments[c.segment].design === design)) return;
  if (design === 'belt' && !twoPass) return; // p is fixed at 1
  throw new DensityNotIdentified({
    code: 'density-not-identified',
    cause: 'nothing-detected',
    design,
  });
}

function group(
  rows: SurveyRows,
  design: Design,
  observers: number[],
  all: number[],
  certain: boolean,
): DiverGroup {
  const names = observers.map((o) => rows.observerNames[o]).join('=');
  const everybody = observers.length === all.length;
  return {
    design,
    observers,
    certain,
    term: everybody ? `intercept:${design}` : `observer:${names}:${design}`,
  };
}

/** Why the passes of a design hold no detection probability; null where more than their totals would have to say it. */
export function whyNoDetection(rows: SurveyRows, design: Design): SwapProblem | null {
  const effort = effortOf(rows, design);
  if (effort?.observers.length === 2) {
    const [a, b] = effort.observers;
    const of = (tally: Map<number, number>, o: number): number => tally.get(o) ?? 0;
    const totals = {
      aa: of(effort.foundFirst, a),
      ab: of(effort.foundAfter, a),
      bb: of(effort.foundFirst, b),
      ba: of(effort.foundAfter, b),
    };
    return swapProblem(totals, rows.observerNames[a], rows.observerNames[b]);
  }
  return null;
}

export function namesOf(rows: SurveyRows, observers: number[]): string[] {
  return observers.map((o) => rows.observerNames[o]);
}

const LEAST_INFORMATION = 1e-4;
/** A logit with a greater standard error says nothing of p. */
export const GREATEST_SE = 5;
const LOADS = 0.1;

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
    const ofDesign = groups.flatMap((g, i) => (g.design === design ? [i] : []));
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
    const all = ofDesign.flatMap((i) => groups[i].observers).sort((a, b) => a - b);
    const observers = joined.flatMap((i) => groups[i].observers).sort((a, b) => a - b);
    const effort = effortOf(rows, design);
    const nothingAfter = observers.every((o) => (effort?.foundAfter.get(o) ?? 0) === 0);
    const merged = group(rows, design, observers, all, nothingAfter);
    return {
      groups: [...groups.filter((_, i) => !joined.includes(i)), merged].sort(inOrder),
      notice: { code: 'divers-joined', design, observers: namesOf(rows, observers) },
    };
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
