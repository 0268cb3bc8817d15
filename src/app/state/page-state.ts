/** What the page's one state holds, how it begins, and what can happen to it. */

import type { Repair } from '../../../shared/repairs.ts';
import {
  type AppState,
  type Edit,
  type Focus,
  type JudgedView,
  type LogDraft,
  type MapLook,
  NO_FOCUS,
  type RecentWork,
  type ResultView,
  type ServedChange,
  type Station,
  type Theme,
  type Units,
  USUAL_LOOK,
  type Work,
} from '../contract.ts';
import { type KeptStudy, NO_STUDIES, type Studies, type StudyKind } from '../study-contract.ts';

/** What only the page itself needs to know. */
export interface PageState extends AppState {
  /** key of the open survey in storage */
  workId: string | null;
  /** the survey as an estimate was last asked for; another record each time */
  asked: Work | null;
  /** what the last change was, to say what moved */
  change: string | null;
  /** state of the served folder when it was fetched */
  servedState: string | null;
}

export type Action =
  | { type: 'opening' }
  | { type: 'open'; work: Work; id: string }
  | { type: 'close' }
  | { type: 'trouble'; message: string | null }
  | { type: 'editor'; editor: 'here' | 'elsewhere' }
  | { type: 'follow'; work: Work }
  | { type: 'unkept'; why: string | null }
  | { type: 'served'; change: ServedChange | null }
  | { type: 'servedState'; state: string }
  | { type: 'recent'; recent: RecentWork[] }
  | { type: 'go'; station: Station }
  | { type: 'focus'; change: Partial<Focus> }
  | { type: 'mapLook'; change: Partial<MapLook> }
  | { type: 'edit'; edit: Omit<Edit, 'before'> }
  | { type: 'enter'; edits: Omit<Edit, 'before'>[]; join: boolean }
  | { type: 'note'; change: Partial<LogDraft> }
  | { type: 'log'; open: boolean }
  | { type: 'looked'; judged: JudgedView }
  | { type: 'kept'; work: Work }
  | { type: 'undo' }
  | { type: 'redo' }
  | { type: 'who'; who: string }
  | { type: 'units'; units: Units }
  | { type: 'theme'; theme: Theme }
  | { type: 'dark'; dark: boolean }
  | { type: 'working'; step: string; share: number }
  | { type: 'judged'; judged: JudgedView }
  | { type: 'estimated'; result: ResultView }
  | { type: 'faulty'; judged: JudgedView }
  | { type: 'repaired'; repairs: Repair[]; fingerprint: string }
  | { type: 'failed'; message: string }
  | { type: 'cancelled' }
  | { type: 'again' }
  | { type: 'studying'; running: Studies['running'] }
  | { type: 'studied'; study: KeptStudy }
  | { type: 'studyFailed'; kind: StudyKind; why: string };

/** An estimate of the survey as it is follows. */
export function asked(work: Work): Pick<PageState, 'asked' | 'run'> {
  return { asked: { ...work }, run: { state: 'working', step: 'read', share: 0 } };
}

export function initialState(
  units: Units,
  theme: Theme,
  dark: boolean,
  station: Station,
  who = '',
): PageState {
  return {
    work: null,
    workId: null,
    asked: null,
    undone: [],
    opening: false,
    trouble: null,
    editor: null,
    log: false,
    kept: null,
    unkept: null,
    served: null,
    stopped: false,
    recent: [],
    judged: null,
    result: null,
    before: null,
    change: null,
    servedState: null,
    run: { state: 'idle' },
    studies: NO_STUDIES,
    station,
    focus: NO_FOCUS,
    mapLook: USUAL_LOOK,
    units,
    who,
    theme,
    dark,
  };
}

/** No estimate is made while the Field log is open: a run is given up, and asked for when the log is left. */
export const WAITING: Pick<PageState, 'asked' | 'run'> = { asked: null, run: { state: 'idle' } };
