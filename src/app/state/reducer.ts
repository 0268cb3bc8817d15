/** From one state of the page to the next. Pure: no worker, no storage, no clock. */

import { TREATMENTS_FILE } from '../../../shared/survey-files.ts';
import { beforeOf } from '../../present/before.ts';
import { type AppState, type Focus, type ResultView, STATIONS, type Station } from '../contract.ts';
import type { Studies } from '../study-contract.ts';
import { EDITED_ELSEWHERE, edited, entered, redone, undone } from './changes.ts';
import { editWords } from './edit-words.ts';
import { makeEdit } from './edits.ts';
import { draftOf } from './log-draft.ts';
import { type Action, asked, initialState, type PageState, WAITING } from './page-state.ts';

export { type Action, initialState, type PageState } from './page-state.ts';

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

function logged(state: PageState, open: boolean): PageState {
  if (state.log === open) return state;
  const { work } = state;
  if (open) return { ...state, log: open, ...(work === null ? {} : WAITING) };
  return { ...state, log: open, ...(work === null ? {} : asked(work)), change: null };
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
