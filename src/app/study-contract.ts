/**
 * Long work beside the estimate: a bootstrap, a simulation study, variants estimated again, a choice of areas, the check of a plan, what a
 * few more dives would bring. */

import type { AreasFile } from '../../shared/areas.ts';
import type { FewMore, PlanCheck, PlanWishes } from '../../shared/planning.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { RehearsalSummary } from '../present/simulation-study.ts';

export type StudyKind = 'bootstrap' | 'rehearsal' | 'variants' | 'areas' | 'check' | 'few';

/** What a bootstrap, a simulation study, a choice of areas, the check of a plan or a look at a few more dives gave. */
export type Study =
  | { kind: 'areas'; areas: AreasFile }
  | { kind: 'check'; check: PlanCheck; wanted: PlanWishes }
  | { kind: 'few'; few: FewMore[] }
  | { kind: 'bootstrap'; result: Pick<SurveyResult, 'estimate' | 'analysis'> }
  | { kind: 'rehearsal'; summary: RehearsalSummary; level: number };

/** With the survey's files from which it was computed. */
export type KeptStudy = Study & { files: Map<string, Uint8Array> };

export interface Studies {
  /** null while nothing runs */
  running: { kind: StudyKind; step: string; share: number } | null;
  /** the last of each kind, as long as the page stands */
  bootstrap: KeptStudy | null;
  rehearsal: KeptStudy | null;
  areas: KeptStudy | null;
  check: KeptStudy | null;
  few: KeptStudy | null;
  /** why the last one gave nothing, in words; null when it gave something */
  problem: { kind: StudyKind; why: string } | null;
}

export const NO_STUDIES: Studies = {
  running: null,
  bootstrap: null,
  rehearsal: null,
  areas: null,
  check: null,
  few: null,
  problem: null,
};
