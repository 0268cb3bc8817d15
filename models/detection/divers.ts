/**
 * Which divers can be told apart, as far as the sheets say it before any fit (METHOD.md: What cannot be told apart); what
 * takes a fit is in sharing.ts.
 */

import type { ModelNotice, SwapProblem } from '../../shared/model-notices.ts';
import type { Design } from '../../shared/survey.ts';
import { DESIGNS, type SurveyRows } from '../data.ts';
import { DensityNotIdentified } from '../errors.ts';
import type { DiverGroup } from '../parts.ts';
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

export function group(
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

/** Whether the observers of a group detected nothing in either role. */
export function hasDetectedNothing(
  rows: SurveyRows,
  { design, observers }: Pick<DiverGroup, 'design' | 'observers'>,
): boolean {
  return !rows.clusters.some((c) => {
    const s = rows.segments[c.segment];
    const by = c.role === 'primary' ? s.primary : s.secondary;
    return s.design === design && by !== null && observers.includes(by);
  });
}

/** Whether nobody detected anything after the observers of a group, be it that nobody followed. */
export function hasMissedNothing(
  rows: SurveyRows,
  { design, observers }: Pick<DiverGroup, 'design' | 'observers'>,
): boolean {
  return !rows.clusters.some((c) => {
    const s = rows.segments[c.segment];
    return s.design === design && c.role === 'secondary' && observers.includes(s.primary);
  });
}
