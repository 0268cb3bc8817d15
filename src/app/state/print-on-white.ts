/**
 * Paper is white: a dark page is shown in light while it is printed. A browser waits for nothing once it has begun to print, so the
 * map is painted first; Ctrl+P comes this way too (Cmd on a Mac). A browser's own menu does not, and prints the map as it stands.
 */

import { useEffect } from 'react';
import type { AppActions } from '../contract.ts';

/** So long must the map have been idle, for a layer painted meanwhile makes it busy again. */
const STILL_MS = 300;
/** So long is waited for it at most: on paper a dark map is better than none. */
const MOST_MS = 15_000;
/** Some browsers go on after `print()` before they have drawn the page. */
const DRAWN_MS = 1000;

/** @param show the page in dark or in light, until it is called again */
export async function printOnWhite(dark: boolean, show: (dark: boolean) => void): Promise<void> {
  if (!dark) return print();
  show(false);
  try {
    await mapDrawn();
    print();
    await pause(DRAWN_MS);
  } finally {
    show(true);
  }
}

/** Ctrl+P prints in light; where the page is light, the browser has it as ever. */
export function usePrintKey(dark: boolean, print: AppActions['print']): void {
  useEffect(() => {
    if (!dark) return;
    const onKey = (event: KeyboardEvent): void => {
      const { key, ctrlKey, metaKey, altKey, shiftKey } = event;
      if (altKey || shiftKey || ctrlKey === metaKey || key.toLowerCase() !== 'p') return;
      event.preventDefault();
      print();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, [dark, print]);
}

async function mapDrawn(): Promise<void> {
  const until = performance.now() + MOST_MS;
  let busyAt = performance.now();
  while (performance.now() < Math.min(until, busyAt + STILL_MS)) {
    await pause(STILL_MS / 6);
    if (document.querySelector('.map-canvas[data-map="busy"]')) busyAt = performance.now();
  }
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));
