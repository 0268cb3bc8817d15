/** The page's one state, what can be done, and the worker that holds the result. */

import type * as Comlink from 'comlink';
import {
  createContext,
  type ReactNode,
  startTransition,
  useContext,
  useEffect,
  useMemo,
  useReducer,
  useRef,
  useState,
} from 'react';
import type { AppActions, AppState, CoreWorker, Station } from '../contract.ts';
import { LOG_HASH, startActions } from './actions.ts';
import { theShelf, useAutosave } from './autosave.ts';
import { type Engine, startEngine } from './engine.ts';
import { useLogChecks } from './log-checks.ts';
import { type Editing, shareEditing } from './one-editor.ts';
import { initialState, reduce, stationOf } from './reducer.ts';
import { useServedFolder } from './served-folder.ts';
import { isDark, keepSettings, storedSettings } from './settings.ts';
import { spawnCore } from './spawn-core.ts';
import { type StudyRunner, startStudies } from './studies.ts';

/** Where cells are corrected, and choices of the analysis made. */
const CHANGED_AT: readonly Station[] = ['survey', 'density'];

export interface App {
  state: AppState;
  actions: AppActions;
  /** holds the result on the screen; another one after each new estimate */
  core: Comlink.Remote<CoreWorker>;
}

/** Filled by AppProvider. */
export const AppContext = createContext<App | null>(null);

/** What any part of the page needs. Throws outside of AppProvider. */
export function useApp(): App {
  const app = useContext(AppContext);
  if (app === null) throw new Error('useApp was called outside of AppProvider');
  return app;
}

function isLog(): boolean {
  return location.hash === LOG_HASH;
}

export function AppProvider({ children }: { children: ReactNode }) {
  const [state, dispatch] = useReducer(reduce, null, () => {
    const { units, theme, who } = storedSettings();
    const station = stationOf(location.hash);
    return { ...initialState(units, theme, isDark(theme), station, who), log: isLog() };
  });
  const engine = useRef<Engine | null>(null);
  engine.current ??= startEngine(spawnCore);
  const [core, setCore] = useState(() => ({ remote: engine.current!.core() }));
  const latest = useRef(state);
  latest.current = state;
  const studies = useRef<StudyRunner | null>(null);
  studies.current ??= startStudies(spawnCore, dispatch, () => latest.current);

  const editing = useRef<Editing | null>(null);
  const { workId } = state;
  useEffect(() => {
    if (workId === null) return;
    const follow = async () => {
      const work = await theShelf.load(workId).catch(() => null);
      if (work !== null && latest.current.workId === workId) dispatch({ type: 'follow', work });
    };
    editing.current = shareEditing(workId, {
      async edits(inherited) {
        // first what the other tab kept: nothing is written from what this one showed before
        if (inherited) await follow();
        dispatch({ type: 'editor', editor: 'here' });
      },
      follows: () => dispatch({ type: 'editor', editor: 'elsewhere' }),
      kept: () => void follow(),
    });
    return () => {
      editing.current?.leave();
      studies.current?.cancel(); // of a survey that is not shown any more
    };
  }, [workId]);

  const actions = useMemo(
    () =>
      startActions(
        dispatch,
        () => latest.current,
        () => engine.current!,
        () => studies.current!,
        () => editing.current?.takeOver(),
      ),
    [],
  );

  const { asked, units, theme, who } = state;
  useEffect(() => {
    if (asked === null) {
      engine.current!.cancel();
      return;
    }
    void engine.current!.run(asked, {
      progress: (step, share) => dispatch({ type: 'working', step, share }),
      failed: (message) => dispatch({ type: 'failed', message }),
      // what fills the page is rendered in slices, so that it stays responsive meanwhile
      judged: (judged) => startTransition(() => dispatch({ type: 'judged', judged })),
      faulty: (judged) => startTransition(() => dispatch({ type: 'faulty', judged })),
      estimated: (result, remote) =>
        startTransition(() => {
          setCore({ remote });
          dispatch({ type: 'estimated', result });
        }),
      repaired: (repairs, fingerprint) =>
        startTransition(() => dispatch({ type: 'repaired', repairs, fingerprint })),
    });
  }, [asked]);

  const mayChange = state.result !== null && !state.log && CHANGED_AT.includes(state.station);
  useEffect(() => {
    if (mayChange) engine.current!.expectChange();
  }, [mayChange]);

  useLogChecks(state, dispatch, engine);
  useAutosave(state, dispatch);
  useServedFolder(state, dispatch);

  useEffect(() => keepSettings({ units, theme, who }, dispatch), [units, theme, who]);

  useEffect(() => {
    const onHash = () =>
      dispatch(
        isLog() ? { type: 'log', open: true } : { type: 'go', station: stationOf(location.hash) },
      );
    addEventListener('hashchange', onHash);
    return () => removeEventListener('hashchange', onHash);
  }, []);

  const app = useMemo(() => ({ state, actions, core: core.remote }), [state, actions, core]);
  return <AppContext value={app}>{children}</AppContext>;
}
