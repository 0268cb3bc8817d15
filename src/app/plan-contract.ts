/** What page and worker agree on about the next dives. */

import type {
  FewMore,
  PlanAlternative,
  PlanCheck,
  PlanFile,
  PlanWishes as PlanWanted,
} from '../../shared/planning.ts';

export type { PlanWishes as PlanWanted } from '../../shared/planning.ts';

/** A made thing, or why there is none, in words. */
export type Made<T> = ({ ok: true } & T) | { ok: false; why: string };

/** Answered from the last estimate; the last plan is kept for what is asked of it afterwards. */
export interface PlanWorker {
  /** some seconds for another kind of dive, at once for another target */
  planDives(wishes: PlanWanted): Promise<Made<{ plan: PlanFile }>>;
  /** the same dive minutes spent in other ways; some seconds */
  planAlternatives(): Promise<PlanAlternative[]>;
  /** by itself, whatever was estimated and planned before: asked of a worker that can be ended */
  checkPlan(
    files: Map<string, Uint8Array>,
    name: string,
    wishes: PlanWanted,
    surveys: number,
    progress: (step: string, share: number) => void,
  ): Promise<Made<{ check: PlanCheck }>>;
  /** of the usual dive, added to the survey */
  fewMore(goal: number | null): Promise<Made<{ few: FewMore }>>;
  /** the same for each goal, estimated by itself as `checkPlan` does */
  fewMoreOf(
    files: Map<string, Uint8Array>,
    name: string,
    goals: readonly number[],
    progress: (step: string, share: number) => void,
  ): Promise<Made<{ few: FewMore[] }>>;
  /**
   * Before any survey: from the maps and what is stated (the text of stated.json), with what is left out in words. Kept for
   * `statedFiles`.
   */
  planStated(
    files: Map<string, Uint8Array>,
    name: string,
    stated: string,
    wishes: PlanWanted,
  ): Promise<Made<{ plan: PlanFile; notices: string[] }>>;
  /** of the last plan before a survey, as `planFiles` */
  statedFiles(): Promise<Map<string, Uint8Array | string>>;
  /** every file of the plan's folder, by name; the check is in plan.json where there is one */
  planFiles(check: PlanCheck | null): Promise<Map<string, Uint8Array | string>>;
}
