/** From one state of the page to the next. Pure: no worker, no storage, no clock. */

import type { Repair } from '../../../shared/repairs.ts';
import { TREATMENTS_FILE } from '../../../shared/survey-files.ts';
import { VARIANTS_FILE } from '../../../shared/variants.ts';
import { beforeOf } from '../../present/before.ts';
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
  STATIONS,
  type Station,
  type Theme,
  type Units,
  USUAL_LOOK,
  type Work,
} from '../contract.ts';
import { type KeptStudy, NO_STUDIES, type Studies, type StudyKind } from '../study-contract.ts';
import { isAreaFile } from './area-edits.ts';
import { editWords } from './edit-words.ts';
import { makeEdit, takeBack, takeBackAtOnce } from './edits.ts';
import { draftOf } from './log-draft.ts';

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
function asked(work: Work): Pick<PageState, 'asked' | 'run'> {
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

export function reduce(state: PageState, action: Action): PageState {
  switch (action.type) {
    case 'opening':
      return { ...state, opening: true, trouble: null };
    case 'open':
      return {
        ...initialState(state.units, state.theme, state.dark, state.station, state.who),
        recent: state.recent,
        servedState: state.servedState,
        editor: state.workId === action.id ? state.editor : null,
        work: action.work,
        workId: action.id,
        log: state.log,
        ...(state.log ? WAITING : asked(action.work)),
      };
    case 'close':
      return {
        ...initialState(state.units, state.theme, state.dark, 'survey', state.who),
        recent: state.recent,
        servedState: state.servedState,
      };
    case 'trouble':
      return { ...state, trouble: action.message, opening: false };
    case 'editor':
      return {
        ...state,
        editor: action.editor,
        trouble: state.trouble === EDITED_ELSEWHERE ? null : state.trouble,
      };
    case 'follow':
      return {
        ...state,
        work: action.work,
        undone: [],
        trouble: null,
        ...(state.log ? {} : asked(action.work)),
      };
    case 'unkept':
      return state.unkept === action.why ? state : { ...state, unkept: action.why };
    case 'served':
      return { ...state, served: action.change };
    case 'servedState':
      return { ...state, servedState: action.state };
    case 'recent':
      return { ...state, recent: action.recent };
    case 'go':
      return gone(state, action.station);
    case 'focus':
      return { ...state, focus: { ...state.focus, ...action.change } };
    case 'mapLook':
      return { ...state, mapLook: { ...state.mapLook, ...action.change } };
    case 'edit':
      return edited(
        state,
        (work) => makeEdit(work, action.edit),
        action.edit,
        editWords(action.edit),
        [],
      );
    case 'enter':
      return entered(state, action.edits, action.join);
    case 'note':
      return state.work === null || state.editor === 'elsewhere'
        ? state
        : {
            ...state,
            work: { ...state.work, draft: { ...draftOf(state.work), ...action.change } },
          };
    case 'log':
      return logged(state, action.open);
    case 'looked':
      return { ...state, judged: action.judged, focus: { ...state.focus, finding: null } };
    case 'kept':
      return { ...state, kept: action.work };
    case 'undo':
      return undone(state);
    case 'redo':
      return redone(state);
    case 'who':
      return { ...state, who: action.who };
    case 'units':
      return { ...state, units: action.units };
    case 'theme':
      return { ...state, theme: action.theme };
    case 'dark':
      return { ...state, dark: action.dark };
    case 'working':
      return { ...state, run: { state: 'working', step: action.step, share: action.share } };
    case 'judged':
      return { ...state, judged: action.judged, focus: { ...state.focus, finding: null } };
    case 'faulty':
      return {
        ...state,
        judged: action.judged,
        // numbered anew: what was pointed at may be another one now
        focus: { ...state.focus, finding: null },
        result: null,
        before: headline(state) ?? state.before,
        run: { state: 'idle' },
      };
    case 'repaired':
      // those of another survey, or of one that was changed meanwhile, come too late
      return state.judged?.repairs === null && state.judged.fingerprint === action.fingerprint
        ? { ...state, judged: { ...state.judged, repairs: action.repairs } }
        : state;
    case 'estimated':
      return estimated(state, action.result);
    case 'failed':
      return { ...state, run: { state: 'failed', message: action.message } };
    case 'cancelled':
      return { ...state, run: { state: 'idle' }, stopped: true };
    case 'again':
      return state.work === null ? state : { ...state, stopped: false, ...asked(state.work) };
    case 'studying':
      return studies(state, {
        running: action.running,
        ...(action.running === null ? {} : { problem: null }),
      });
    case 'studied':
      return studies(state, { [action.study.kind]: action.study });
    case 'studyFailed':
      return studies(state, { problem: { kind: action.kind, why: action.why } });
  }
}

/** No estimate is made while the Field log is open: a run is given up, and asked for when the log is left. */
const WAITING: Pick<PageState, 'asked' | 'run'> = { asked: null, run: { state: 'idle' } };

function logged(state: PageState, open: boolean): PageState {
  if (state.log === open) return state;
  const { work } = state;
  if (open) return { ...state, log: open, ...(work === null ? {} : WAITING) };
  return { ...state, log: open, ...(work === null ? {} : asked(work)), change: null };
}

function entered(
  state: PageState,
  edits: readonly Omit<Edit, 'before'>[],
  join: boolean,
): PageState {
  const [first] = edits;
  if (first === undefined) return state;
  const last = state.work?.edits.at(-1);
  const joined =
    join &&
    edits.length === 1 &&
    last?.together === undefined &&
    (['file', 'row', 'column', 'reason'] as const).every((key) => last?.[key] === first[key]);
  const make = (work: Work): Work => {
    const from = joined ? takeBack(work)!.work : work;
    return edits.reduce((made, edit) => makeEdit(made, edit), from);
  };
  const words = first.together === undefined ? editWords(first) : first.reason;
  return edited(state, make, first, words, []);
}

function studies(state: PageState, change: Partial<Studies>): PageState {
  return { ...state, studies: { ...state.studies, ...change } };
}

/** Areas that changed at their station are in the estimate's own tables once that is left. */
function gone(state: PageState, station: Station): PageState {
  const left = logged(state, false);
  const there = { ...left, station, focus: elsewhere(state) };
  const { work } = state;
  if (state.log) return there;
  return work !== null && station !== 'areas' && state.result !== null && areasBehind(state)
    ? { ...there, ...asked(work), change: null }
    : there;
}

/** The estimate was made with other treatment areas than the survey has now. */
export function areasBehind({ work, asked: last }: PageState): boolean {
  return work?.files.get(TREATMENTS_FILE) !== last?.files.get(TREATMENTS_FILE);
}

/** What was pinned on the map belongs to its station. */
function elsewhere({ focus }: PageState): Focus {
  return { ...focus, depthM: null, spot: null, treatment: null, lookAt: null };
}

const EDITED_ELSEWHERE =
  'This survey is being edited in another tab or window. Edit it there, or take over here first.';

function undone(state: PageState): PageState {
  const back = state.work && takeBackAtOnce(state.work);
  if (!back) return state;
  const { work, edits } = back;
  const first = edits.at(-1)!;
  return edited(state, () => work, first, `undone: ${wordsOfAll(edits)}`, [
    ...state.undone,
    ...edits,
  ]);
}

function redone(state: PageState): PageState {
  const edit = state.undone.at(-1);
  if (edit === undefined) return state;
  const { undone } = state;
  let from = undone.length - 1;
  if (edit.together !== undefined) while (undone[from - 1]?.together === edit.together) from--;
  const edits = undone.slice(from).reverse();
  const make = (work: Work) => edits.reduce((made, one) => makeEdit(made, one), work);
  return edited(state, make, edit, wordsOfAll(edits), undone.slice(0, from));
}

/** Of one change; of several at once, what they were made for. */
function wordsOfAll(edits: readonly Edit[]): string {
  const [first] = edits;
  if (first === undefined) return '';
  return edits.length === 1 ? editWords(first) : `${edits.length} changes: ${first.reason}`;
}

/**
 * A change that cannot be made is told and changes nothing. No number depends on a variant, and areas have their numbers at
 * their own station without an estimate: what is shown stays.
 */
function edited(
  state: PageState,
  change: (work: Work) => Work,
  { file, row }: Pick<Edit, 'file' | 'row'>,
  words: string,
  undoneLeft: Edit[],
): PageState {
  if (state.work === null) return state;
  if (state.editor === 'elsewhere') return { ...state, trouble: EDITED_ELSEWHERE };
  try {
    const work = change(state.work);
    const changed = { ...state, work, undone: undoneLeft, trouble: null };
    const stays =
      state.log ||
      (file === VARIANTS_FILE && row !== null) ||
      (isAreaFile(file) && state.station === 'areas' && state.result !== null);
    return stays ? changed : { ...changed, ...asked(work), change: words, stopped: false };
  } catch (error) {
    return { ...state, trouble: (error as Error).message };
  }
}

function estimated(state: PageState, result: ResultView): PageState {
  const before = headline(state) ?? state.before;
  return {
    ...state,
    result,
    // what the model remarked is read and counted with what the tables did
    judged: state.judged && { ...state.judged, findings: result.findings },
    before: before && state.change !== null ? { ...before, label: state.change } : null,
    run: { state: 'idle' },
  };
}

function headline({ result, change }: PageState): AppState['before'] {
  return result === null ? null : { ...beforeOf(result), label: change ?? '' };
}

/** The station that an address's hash names. */
export function stationOf(hash: string): Station {
  const name = hash.replace(/^#/, '');
  return STATIONS.find((station) => station === name) ?? 'survey';
}
