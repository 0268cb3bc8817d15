/** Next dives from the estimate that the worker holds: frames are kept, so that another target is answered at once. */

import type { PlanCheck, PlanFile } from '../../../shared/planning.ts';
import { NO_DIVE_FILE } from '../../../shared/survey-files.ts';
import {
  checkPlan,
  fewMore,
  makePlan,
  type PlanFrame,
  type PlanGround,
  planAlternatives,
  planFrame,
  planGround,
  planRequest,
} from '../../pipeline/plan.ts';
import {
  type Again,
  type Judged,
  type LaidLake,
  type PlannedBy,
  readPlaces,
} from '../../pipeline.ts';
import type { Made as MadeOf, PlanWorker } from '../plan-contract.ts';
import { planFolder } from './plan-folder.ts';

export interface PlanBench
  extends Omit<PlanWorker, 'checkPlan' | 'fewMoreOf' | 'planStated' | 'statedFiles'> {
  /** of the last plan */
  checkPlan(
    surveys: number,
    progress: (share: number) => void,
  ): Promise<MadeOf<{ check: PlanCheck }>>;
}

/** Frames that are remembered: kinds of dive that somebody compares. */
const MOST_FRAMES = 6;
/** Places looked at for a few more dives: only their mean counts. */
const FEW_PLACES = 80;

type Made = Extract<ReturnType<typeof makePlan>, { ok: true }>;

export function planBench(kept: {
  files: ReadonlyMap<string, Uint8Array>;
  result: PlannedBy;
  again: Again | null;
  laid: LaidLake | null;
  prepared: Judged['prepared'];
}): PlanBench {
  const { files, result } = kept;
  const bytes = files.get(NO_DIVE_FILE);
  const noDive = bytes === undefined ? [] : readPlaces(NO_DIVE_FILE, bytes).polygons;
  const ground = planGround(kept, kept.prepared, kept.laid, noDive);
  const frames = new Map<string, PlanFrame>();
  let last: { frame: PlanFrame; made: Made; plan: PlanFile } | null = null;

  const framed = (own: PlanGround, asked: Parameters<typeof planFrame>[1]): PlanFrame => {
    const { dive, added, sections, startDepthsM, allocation, seed, places } = asked;
    const key = JSON.stringify({ dive, added, sections, startDepthsM, allocation, seed, places });
    const frame = frames.get(key) ?? planFrame(own, asked);
    frames.delete(key);
    frames.set(key, frame);
    const [oldest] = frames.keys();
    if (frames.size > MOST_FRAMES && oldest !== undefined) frames.delete(oldest);
    return frame;
  };

  const current = () => {
    if (ground === null || last === null) throw new Error('no dives are planned yet');
    return { ground, last };
  };

  return {
    async planDives(wishes) {
      if (ground === null) return { ok: false, why: NOTHING };
      const request = planRequest(ground, wishes);
      const frame = framed(ground, request);
      const made = makePlan(ground, frame, request, noDive);
      if (!made.ok) return { ok: false, why: made.finding.message };
      last = { frame, made, plan: made.plan };
      return { ok: true, plan: made.plan };
    },
    async planAlternatives() {
      const { ground: own, last: now } = current();
      const alternatives = planAlternatives(own, now.frame, now.plan);
      now.plan = { ...now.plan, alternatives };
      return alternatives;
    },
    async checkPlan(surveys, progress) {
      const { ground: own, last: now } = current();
      if (now.plan.expected_cv === null)
        return { ok: false, why: 'this plan cannot tell how many there are' };
      const check = await checkPlan(own, now.frame, now.made.places, surveys, {
        progress,
      });
      return { ok: true, check };
    },
    async fewMore(goal) {
      if (ground === null) return { ok: false, why: NOTHING };
      const target = { kind: 'transects', transects: 0 } as const;
      const usual = planRequest(ground, { ...USUAL, target, added: true });
      const frame = framed(ground, { ...usual, places: FEW_PLACES });
      if (frame.zones.length === 0)
        return { ok: false, why: 'there is no room for another transect in the surveyed habitat' };
      return { ok: true, few: fewMore(frame, goal) };
    },
    async planFiles(check) {
      const plan = { ...current().last.plan, check };
      return planFolder(plan, files, result);
    },
  };
}

const USUAL = {
  dive: {},
  allocation: 'best',
  sections: null,
  startDepthsM: null,
  seed: null,
} as const;

const NOTHING =
  'without a number of mussels on the lake nothing is known to plan by (detections, outline, substrate and depth expected)';
