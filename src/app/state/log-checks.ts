/** The rules, looked at while somebody types into the Field log: after each pause, without an estimate, one look at a time. */

import { type Dispatch, type RefObject, useEffect, useRef } from 'react';
import type { Engine } from './engine.ts';
import type { Action, PageState } from './reducer.ts';

const PAUSE_MS = 250;

export function useLogChecks(
  { log, work }: Pick<PageState, 'log' | 'work'>,
  dispatch: Dispatch<Action>,
  engine: RefObject<Engine | null>,
): void {
  const last = useRef<Promise<void>>(Promise.resolve());
  const files = log ? work?.files : undefined;
  const name = work?.name;
  useEffect(() => {
    if (files === undefined || name === undefined) return;
    let current = true;
    const look = async () => {
      if (!current) return;
      try {
        const judged = await engine.current!.judge({ files, name, edits: [] });
        if (current) dispatch({ type: 'looked', judged });
      } catch (error) {
        if (current) dispatch({ type: 'trouble', message: (error as Error).message });
      }
    };
    const timer = setTimeout(() => {
      last.current = last.current.then(look);
    }, PAUSE_MS);
    return () => {
      current = false;
      clearTimeout(timer);
    };
  }, [files, name, dispatch, engine]);
}
