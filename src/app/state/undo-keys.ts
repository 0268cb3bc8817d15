/** Ctrl+Z takes the last change back, Ctrl+Shift+Z or Ctrl+Y makes it again (Cmd on a Mac); a field keeps its own. */

import { useEffect } from 'react';
import type { AppActions } from '../contract.ts';

type Press = Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey'>;

export function useUndoKeys({ undo, redo }: Pick<AppActions, 'undo' | 'redo'>): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const wanted = isTyping(event.target) ? null : undoKey(event);
      if (wanted === null || event.defaultPrevented) return;
      event.preventDefault();
      if (wanted === 'undo') undo();
      else redo();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, [undo, redo]);
}

/** What a press asks for; null for any other. */
export function undoKey({
  key,
  ctrlKey,
  metaKey,
  shiftKey,
  altKey,
}: Press): 'undo' | 'redo' | null {
  if (altKey || ctrlKey === metaKey) return null;
  const letter = key.toLowerCase();
  if (letter === 'z') return shiftKey ? 'redo' : 'undo';
  return letter === 'y' && ctrlKey && !shiftKey ? 'redo' : null;
}

/** Where the browser itself takes back what was typed. */
function isTyping(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLElement &&
    (target.isContentEditable ||
      target.matches(
        'input:not([type="checkbox"], [type="radio"], [type="range"]), textarea, select',
      ))
  );
}
