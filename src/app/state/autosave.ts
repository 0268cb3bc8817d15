/** Keeps the open survey in storage after every change, and finds it again when the page is opened the next time. */

import { type Dispatch, useEffect, useRef } from 'react';
import { answerInShort } from '../../present/answer.ts';
import type { Work } from '../contract.ts';
import { ChangedElsewhere, KeptByNewer, openShelf, type Shelf } from '../storage/keep.ts';
import { isOneFile } from '../storage/one-file.ts';
import { fetchServed } from '../storage/served.ts';
import { contentId } from './files.ts';
import { tellKept } from './one-editor.ts';
import type { Action, PageState } from './reducer.ts';

/** Copies of the program in one file share what a browser keeps, yet each goes on with what it had open itself. */
const openKey = (): string =>
  isOneFile() ? `shoalwise-open:${location.pathname}` : 'shoalwise-open';
/** After a save that failed the next try, each later one after twice the time. */
const RETRY_MS = 3_000;
const LONGEST_RETRY_MS = 60_000;

/** One for the page: it knows what was read and kept here. */
export const theShelf: Shelf = openShelf();

/** The save under way, or the last one. */
let saving: Promise<void> = Promise.resolve();

/** The latest state of each survey that is to be kept: of those that wait for a save only this one is written. */
const newest = new Map<string, Work>();

/** Resolves when what is being kept is on disk, or could not be kept. */
export function saveOver(): Promise<void> {
  return saving;
}

/** The survey that was open when the page was left; null after it was closed. */
function leftOpen(): string | null {
  try {
    return localStorage.getItem(openKey());
  } catch {
    return null;
  }
}

function noteOpen(id: string | null): void {
  try {
    if (id === null) localStorage.removeItem(openKey());
    else localStorage.setItem(openKey(), id);
  } catch {
    // the survey is still kept, only not opened by itself
  }
}

export function useAutosave(state: PageState, dispatch: Dispatch<Action>): void {
  const { work, workId, result, editor } = state;
  const started = useRef(false);
  const headline = result === null ? null : answerInShort(result.estimate);

  useEffect(() => {
    if (started.current) return;
    started.current = true;
    void reopen(dispatch);
  }, [dispatch]);

  useEffect(() => {
    if (!started.current) return;
    if (work === null || workId === null) return;
    noteOpen(workId);
    // whoever edits keeps; a tab that follows shows what was kept
    if (editor !== 'here') return;
    let current = true;
    let again: ReturnType<typeof setTimeout> | undefined;
    const save = async (wait: number) => {
      try {
        await theShelf.save(workId, work, headline, new Date().toISOString());
        document.documentElement.dataset.saved = String(work.edits.length);
        tellKept(workId);
        if (!current) return;
        dispatch({ type: 'kept', work });
        dispatch({ type: 'unkept', why: null });
        dispatch({ type: 'recent', recent: await theShelf.recent() });
      } catch (error) {
        if (!current) return;
        dispatch({ type: 'unkept', why: whyUnkept(error as Error) });
        // trying again would meet the same
        if (error instanceof ChangedElsewhere || error instanceof KeptByNewer) return;
        again = setTimeout(() => {
          saving = save(Math.min(2 * wait, LONGEST_RETRY_MS));
        }, wait);
      }
    };
    newest.set(workId, work);
    // one after the other, the latest state alone
    saving = saving.then(() => (newest.get(workId) === work ? save(RETRY_MS) : undefined));
    return () => {
      current = false;
      clearTimeout(again);
    };
  }, [work, workId, headline, editor, dispatch]);
}

function whyUnkept(error: Error): string {
  if (error instanceof KeptByNewer)
    return 'A newer Shoalwise keeps its surveys in this browser, where this older one must not write. The changes are still here: save them as a zip, and open that in the newer one.';
  return error instanceof ChangedElsewhere
    ? 'Another tab has changed this survey since, so the last change made here is not kept. Save it as a zip, or open the survey again to go on from what the other tab kept.'
    : `This browser cannot keep the survey at the moment (${error.message || error.name}). The changes are still here; it is tried again. Save them as a zip to be sure.`;
}

/** After `close` nothing is opened by itself. */
export function forgetOpen(): void {
  noteOpen(null);
}

/**
 * The folder that the server serves, with the changes made to it here as long as its files are the same; else what was
 * left open. A served folder that has changed since it was corrected here is opened as it is, and the corrections are offered.
 */
async function reopen(dispatch: Dispatch<Action>): Promise<void> {
  dispatch({ type: 'opening' });
  try {
    const served = await fetchServed().catch(() => null); // without a network what is kept here will do
    const recent = await theShelf.recent().catch(() => null);
    const kept = recent === null ? null : theShelf;
    dispatch({ type: 'recent', recent: recent ?? [] });
    const id = served === null ? leftOpen() : await contentId(served.name, served.files);
    const earlier = id === null ? null : ((await kept?.load(id)) ?? null);
    if (earlier !== null) dispatch({ type: 'open', id: id!, work: withOrigin(earlier, served) });
    else if (served !== null) {
      const corrected = (await kept?.correctedFrom(served.servedFrom)) ?? null;
      const corrections =
        corrected === null ? 0 : ((await kept?.load(corrected))?.edits.length ?? 0);
      await kept?.load(id!); // what is written next is the folder as it is
      const { name, files, servedFrom } = served;
      dispatch({ type: 'open', id: id!, work: { name, files, edits: [], servedFrom } });
      if (corrections > 0) dispatch({ type: 'served', change: { when: 'before', corrections } });
    } else dispatch({ type: 'trouble', message: null });
    if (served !== null) dispatch({ type: 'servedState', state: served.state });
  } catch (error) {
    dispatch({ type: 'trouble', message: (error as Error).message });
  }
}

/** What earlier releases kept does not say that it came from the server. */
function withOrigin<W extends object>(
  work: W,
  served: { servedFrom: string } | null,
): W & { servedFrom?: string } {
  return served === null ? work : { ...work, servedFrom: served.servedFrom };
}
