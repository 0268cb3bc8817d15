/** What can be done on the page, for buttons, keys and other parts of it. */

import type { Dispatch } from 'react';
import type { AppActions, Work } from '../contract.ts';
import { download, fileName } from '../storage/download.ts';
import { fetchDemo } from '../storage/served.ts';
import { addedTo, gatherSurvey } from '../storage/survey-files.ts';
import { surveyPackage } from '../storage/survey-package.ts';
import { zipTool } from '../storage/zip.ts';
import { forgetOpen, theShelf } from './autosave.ts';
import type { Engine } from './engine.ts';
import { contentId } from './files.ts';
import type { Action, PageState } from './reducer.ts';

export function startActions(
  dispatch: Dispatch<Action>,
  state: () => PageState,
  engine: () => Engine,
): AppActions {
  /** What goes wrong is told on the page. */
  const trying = (work: () => Promise<void>): void => {
    work().catch((error: Error) => dispatch({ type: 'trouble', message: error.message }));
  };
  const open = (gather: () => Promise<Omit<Work, 'edits'> & Partial<Work>>): void => {
    dispatch({ type: 'opening' });
    trying(async () => {
      const { name, files, edits = [] } = await gather();
      const id = await contentId(name, files);
      const earlier = await theShelf()
        .then((shelf) => shelf.load(id))
        .catch(() => null);
      dispatch({ type: 'open', id, work: earlier ?? { name, files, edits } });
      // asked once there is something to keep; the answer changes nothing but how long it is kept
      await navigator.storage?.persist?.().catch(() => false);
    });
  };
  const saveZip = (what: string, content: () => Promise<Map<string, Uint8Array | string>>): void =>
    trying(async () => {
      const lake = state().judged?.analysis.lake ?? state().work?.name ?? 'survey';
      const zip = await zipTool().pack(await content(), new Date().toISOString());
      download(zip, fileName(lake, what), 'application/zip');
    });

  return {
    openFiles: (files, name) => open(async () => ({ name, files })),
    openChosen: (files) => open(async () => addedTo(state().work, await gatherSurvey(files))),
    openDemo: () => open(fetchDemo),
    openRecent(id) {
      dispatch({ type: 'opening' });
      trying(async () => {
        const work = await (await theShelf()).load(id);
        if (work === null) throw new Error('This survey is not kept in this browser any more.');
        dispatch({ type: 'open', id, work });
      });
    },
    forgetRecent: (id) =>
      trying(async () => {
        const shelf = await theShelf();
        await shelf.forget(id);
        dispatch({ type: 'recent', recent: await shelf.recent() });
      }),
    close() {
      forgetOpen();
      history.replaceState(null, '', location.pathname + location.search);
      dispatch({ type: 'close' });
    },
    go(station) {
      if (location.hash !== `#${station}`) history.pushState(null, '', `#${station}`);
      dispatch({ type: 'go', station });
    },
    setFocus: (change) => dispatch({ type: 'focus', change }),
    edit: (edit) => dispatch({ type: 'edit', edit: { ...edit, at: new Date().toISOString() } }),
    undo: () => dispatch({ type: 'undo' }),
    redo: () => dispatch({ type: 'redo' }),
    cancel() {
      engine().cancel();
      dispatch({ type: 'cancelled' });
    },
    estimateAgain: () => dispatch({ type: 'again' }),
    setUnits: (units) => dispatch({ type: 'units', units }),
    setTheme: (theme) => dispatch({ type: 'theme', theme }),
    dismissTrouble: () => dispatch({ type: 'trouble', message: null }),
    saveZip() {
      const { work, judged } = state();
      if (work === null) return;
      saveZip('survey', async () => surveyPackage(work, judged?.analysis.lake ?? work.name));
    },
    saveResult: () => saveZip('results', () => engine().core().publish()),
  };
}
