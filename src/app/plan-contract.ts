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
type Made<T> = ({ ok: true } & T) | { ok: false; why: string };

/** Answered from the last estimate; the last plan is kept for what is asked of it afterwards. */
export interface PlanWorker {
  /** some seconds for another kind of dive, at once for another target */
  planDives(wishes: PlanWanted): Promise<Made<{ plan: PlanFile }>>;
  /** the same dive minutes spent in other ways; some seconds */
  planAlternatives(): Promise<PlanAlternative[]>;
  checkPlan(
    surveys: number,
    progress: (step: string, share: number) => void,
  ): Promise<Made<{ check: PlanCheck }>>;
  /** of the usual dive, added to the survey */
  fewMore(goal: number | null): Promise<Made<{ few: FewMore }>>;
  /** every file of the plan's folder, by name */
  planFiles(): Promise<Map<string, Uint8Array | string>>;
}
