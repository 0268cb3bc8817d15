/** Keeps the open survey in storage after every change, and finds it again when the page is opened the next time. */

import { type Dispatch, useEffect, useRef } from 'react';
import { answerInShort } from '../../present/answer.ts';
import { openShelf, type Shelf } from '../storage/keep.ts';
import { fetchServed } from '../storage/served.ts';
import { contentId } from './files.ts';
import type { Action, PageState } from './reducer.ts';

const OPEN_KEY = 'shoalwise-open';

let shelf: Promise<Shelf> | null = null;

/** One connection for the page. */
export function theShelf(): Promise<Shelf> {
  shelf ??= openShelf();
  return shelf;
}

/** The survey that was open when the page was left; null after it was closed. */
function leftOpen(): string | null {
  try {
    return localStorage.getItem(OPEN_KEY);
  } catch {
    return null;
  }
}

function noteOpen(id: string | null): void {
  try {
    if (id === null) localStorage.removeItem(OPEN_KEY);
    else localStorage.setItem(OPEN_KEY, id);
  } catch {
    // the survey is still kept, only not opened by itself
  }
}

export function useAutosave(state: PageState, dispatch: Dispatch<Action>): void {
  const { work, workId, result } = state;
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
    let current = true;
    const save = async () => {
      try {
        const kept = await theShelf();
        await kept.save(workId, work, headline, new Date().toISOString());
        document.documentElement.dataset.saved = String(work.edits.length);
        if (current) dispatch({ type: 'recent', recent: await kept.recent() });
      } catch (error) {
        dispatch({
          type: 'trouble',
          message: `This browser could not keep the survey (${(error as Error).message}). Save it as a zip before you leave.`,
        });
      }
    };
    void save();
    return () => {
      current = false;
    };
  }, [work, workId, headline, dispatch]);
}

/** After `close` nothing is opened by itself. */
export function forgetOpen(): void {
  noteOpen(null);
}

/**
 * The folder that the server serves, with the changes made to it here as long as its files are the same; else what was
 * left open.
 */
async function reopen(dispatch: Dispatch<Action>): Promise<void> {
  dispatch({ type: 'opening' });
  try {
    const served = await fetchServed().catch(() => null); // without a network what is kept here will do
    const kept = await theShelf().catch(() => null);
    dispatch({ type: 'recent', recent: (await kept?.recent()) ?? [] });
    const id = served === null ? leftOpen() : await contentId(served.name, served.files);
    const earlier = id === null ? null : ((await kept?.load(id)) ?? null);
    if (earlier !== null) dispatch({ type: 'open', id: id!, work: earlier });
    else if (served !== null) dispatch({ type: 'open', id: id!, work: { ...served, edits: [] } });
    else dispatch({ type: 'trouble', message: null });
  } catch (error) {
    dispatch({ type: 'trouble', message: (error as Error).message });
  }
}
