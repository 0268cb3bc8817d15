/** What can be done on the page, for buttons, keys and other parts of it. */

import type { Dispatch } from 'react';
import { parseVariants, VARIANTS_FILE } from '../../../shared/variants.ts';
import type { AppActions, Edit, Work } from '../contract.ts';
import { areForImport, isOneZip } from '../storage/chosen-files.ts';
import { download, fileName } from '../storage/download.ts';
import { emptySurvey } from '../storage/empty-survey.ts';
import { fetchDemo, fetchServed } from '../storage/served.ts';
import { addedTo, gatherSurvey, NoSurvey } from '../storage/survey-files.ts';
import { surveyPackage } from '../storage/survey-package.ts';
import { zipTool } from '../storage/zip.ts';
import { forgetOpen, theShelf } from './autosave.ts';
import { bringIn } from './bring-in.ts';
import { carryOver } from './carry-over.ts';
import { editWords } from './edit-words.ts';
import { decode } from './edits.ts';
import type { Engine } from './engine.ts';
import { contentId } from './files.ts';
import { printOnWhite } from './print-on-white.ts';
import { type Action, areasBehind, type PageState } from './reducer.ts';
import { showDark } from './settings.ts';
import type { StudyRunner } from './studies.ts';

/** The page's address while the Field log is open. */
export const LOG_HASH = '#log';
/** Between two looks at whether a run is over. */
const LOOK_AGAIN_MS = 50;

export function startActions(
  dispatch: Dispatch<Action>,
  state: () => PageState,
  engine: () => Engine,
  studies: () => StudyRunner,
  takeOver: () => void,
): AppActions {
  /** What goes wrong is told on the page. */
  const trying = (work: () => Promise<void>): void => {
    work().catch((error: Error) => dispatch({ type: 'trouble', message: error.message }));
  };
  const open = (gather: () => Promise<Omit<Work, 'edits'> & Partial<Work>>): void => {
    bringIn.hide();
    dispatch({ type: 'opening' });
    trying(async () => {
      const { name, files, edits = [] } = await gather();
      const id = await contentId(name, files);
      const earlier = await theShelf.load(id).catch(() => null);
      dispatch({ type: 'open', id, work: earlier ?? { name, files, edits } });
      // asked once there is something to keep; the answer changes nothing but how long it is kept
      await navigator.storage?.persist?.().catch(() => false);
    });
  };
  /** A survey of ours is opened; files of others, and more of them while some are being brought in, go to their own place. */
  const openChosen = async (files: File[]): Promise<void> => {
    const brings = bringIn.get().shown;
    if (!isOneZip(files) && (brings || (await areForImport(files))))
      return bringIn.add(files, state().work);
    dispatch({ type: 'opening' });
    const gathered = await gatherSurvey(files).catch((error) => {
      if (error instanceof NoSurvey) return null;
      throw error;
    });
    if (gathered === null || brings) {
      dispatch({ type: 'trouble', message: null });
      return bringIn.add(files, state().work);
    }
    open(async () => addedTo(state().work, gathered));
  };
  const saveZip = (what: string, content: () => Promise<Map<string, Uint8Array | string>>): void =>
    trying(async () => {
      const lake = state().judged?.analysis.lake ?? state().work?.name ?? 'survey';
      const zip = await zipTool().pack(await content(), new Date().toISOString());
      download(zip, fileName(lake, what), 'application/zip');
    });

  /** Over when the estimate was made of the areas that the survey has now, or was given up. */
  const areasCaughtUp = async (): Promise<void> => {
    if (!areasBehind(state())) return;
    dispatch({ type: 'again' });
    while (areasBehind(state()) || state().run.state === 'working')
      await new Promise((resolve) => setTimeout(resolve, LOOK_AGAIN_MS));
  };

  /** When, and by whom where that was told. */
  const now = (): { at: string; who?: string } => {
    const { who } = state();
    return { at: new Date().toISOString(), ...(who === '' ? {} : { who }) };
  };

  /** What one press does is taken back by one. */
  const atOnce = (edits: readonly Omit<Edit, 'at' | 'before'>[], join: boolean): void => {
    const stamp = now();
    const together = edits.length > 1 ? { together: stamp.at } : {};
    dispatch({
      type: 'enter',
      edits: edits.map((edit) => ({ ...edit, ...stamp, ...together })),
      join,
    });
  };

  return {
    openFiles: (files, name) => open(async () => ({ name, files })),
    openImported: (work) => open(async () => work),
    openChosen: (files) => trying(() => openChosen(files)),
    openDemo: () => open(fetchDemo),
    begin: (lake) => open(async () => emptySurvey(lake)),
    openRecent(id) {
      bringIn.hide();
      dispatch({ type: 'opening' });
      trying(async () => {
        const work = await theShelf.load(id);
        if (work === null) throw new Error('This survey is not kept in this browser any more.');
        dispatch({ type: 'open', id, work });
      });
    },
    forgetRecent: (id) =>
      trying(async () => {
        await theShelf.forget(id);
        dispatch({ type: 'recent', recent: await theShelf.recent() });
      }),
    close() {
      forgetOpen();
      history.replaceState(null, '', location.pathname + location.search);
      dispatch({ type: 'close' });
    },
    go(station) {
      bringIn.hide();
      if (location.hash !== `#${station}`) history.pushState(null, '', `#${station}`);
      dispatch({ type: 'go', station });
    },
    setFocus: (change) => dispatch({ type: 'focus', change }),
    setMapLook: (change) => dispatch({ type: 'mapLook', change }),
    edit: (edit) => dispatch({ type: 'edit', edit: { ...edit, ...now() } }),
    repair: (edits) => atOnce(edits, false),
    enter: (edits, join = false) => atOnce(edits, join),
    note: (change) => dispatch({ type: 'note', change }),
    openLog() {
      if (location.hash !== LOG_HASH) history.pushState(null, '', LOG_HASH);
      dispatch({ type: 'log', open: true });
    },
    closeLog() {
      // the estimate follows, and tells it at its station
      if (state().studies.running?.kind === 'few') studies().cancel();
      history.pushState(null, '', `#${state().station}`);
      dispatch({ type: 'log', open: false });
    },
    undo: () => dispatch({ type: 'undo' }),
    redo: () => dispatch({ type: 'redo' }),
    cancel() {
      engine().cancel();
      dispatch({ type: 'cancelled' });
    },
    editHere: takeOver,
    openServed() {
      dispatch({ type: 'opening' });
      trying(async () => {
        const served = await fetchServed();
        if (served === null) throw new Error('This page is not served with a survey.');
        const { name, files, servedFrom } = served;
        const id = await contentId(name, files);
        const edits = await earlierCorrections(state().work, servedFrom);
        await theShelf.load(id).catch(() => null); // what is written next is the folder as it is
        const carried = carryOver(edits, { name, files, edits: [], servedFrom });
        dispatch({ type: 'open', id, work: carried.work });
        dispatch({ type: 'servedState', state: served.state });
        if (carried.left.length > 0)
          dispatch({ type: 'trouble', message: notCarried(carried.left) });
      });
    },
    leaveServed: () => dispatch({ type: 'served', change: null }),
    estimateAgain: () => dispatch({ type: 'again' }),
    startStudy(kind, count) {
      const { work } = state();
      if (work !== null) studies().start(kind, work, count);
    },
    proposeAreas(request) {
      const { work } = state();
      if (work !== null) studies().proposeAreas(work, request);
    },
    checkPlan(wanted, surveys) {
      const { work } = state();
      if (work !== null) studies().checkPlan(work, wanted, surveys);
    },
    fewMore(goals) {
      const { work } = state();
      if (work !== null) studies().fewMore(work, goals);
    },
    updateVariants(names) {
      const { work } = state();
      if (work !== null) studies().updateVariants(work, names);
    },
    cancelStudy: () => studies().cancel(),
    async fieldSheets(wanted) {
      const { work } = state();
      if (work === null) throw new Error('No survey is open.');
      const made = await engine().core().fieldSheets(work.files, work.name, wanted);
      if ('why' in made) throw new Error(made.why);
      return made.html;
    },
    setWho: (who) => dispatch({ type: 'who', who }),
    setUnits: (units) => dispatch({ type: 'units', units }),
    setTheme: (theme) => dispatch({ type: 'theme', theme }),
    print: () => trying(() => printOnWhite(state().dark, (dark) => showDark(dark, dispatch))),
    dismissTrouble: () => dispatch({ type: 'trouble', message: null }),
    saveZip() {
      const { work, judged } = state();
      if (work === null) return;
      saveZip('survey', async () => surveyPackage(work, judged?.analysis.lake ?? work.name));
    },
    saveResult: () =>
      saveZip('results', async () => {
        await areasCaughtUp();
        const kept = state().work?.files.get(VARIANTS_FILE);
        const variants = kept === undefined ? [] : parseVariants(decode(kept)).variants;
        return engine().core().publish(variants);
      }),
    saveOpenFiles: () =>
      saveZip('open files', async () => {
        await areasCaughtUp();
        return engine().core().openFiles();
      }),
  };
}

/** Those of the open survey, or of what was kept of this folder when it was corrected here the last time. */
async function earlierCorrections(open: Work | null, servedFrom: string): Promise<readonly Edit[]> {
  if (open !== null && open.servedFrom === servedFrom && open.edits.length > 0) return open.edits;
  // without a store the folder opens as it is
  const id = await theShelf.correctedFrom(servedFrom).catch(() => null);
  const kept = id === null ? null : await theShelf.load(id).catch(() => null);
  return kept?.edits ?? [];
}

function notCarried(left: readonly Edit[]): string {
  const list = left.map((edit) => editWords(edit)).join('; ');
  return `Not carried over, since the files say something else there now: ${list}. The survey as it was, with these corrections, stays among the recent ones.`;
}
