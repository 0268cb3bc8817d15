/** Watches the folder that the server serves: what changes on disk under the open page is told, never passed over. */

import { type Dispatch, useEffect } from 'react';
import { servedNow } from '../storage/served.ts';
import type { Action, PageState } from './reducer.ts';

const LOOK_EVERY_MS = 4_000;

export function useServedFolder(
  { work, servedState }: Pick<PageState, 'work' | 'servedState'>,
  dispatch: Dispatch<Action>,
): void {
  const watched = work?.servedFrom !== undefined && servedState !== null;
  const corrections = work?.edits.length ?? 0;
  useEffect(() => {
    if (!watched) return;
    let over = false;
    const look = async () => {
      if (document.visibilityState === 'hidden') return;
      // a server that was stopped tells nothing: the page goes on with what it has
      const now = await servedNow().catch(() => null);
      if (!over && now !== null && now.state !== servedState)
        dispatch({ type: 'served', change: { when: 'now', corrections } });
    };
    const timer = setInterval(() => void look(), LOOK_EVERY_MS);
    return () => {
      over = true;
      clearInterval(timer);
    };
  }, [watched, servedState, corrections, dispatch]);
}
