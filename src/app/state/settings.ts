/** Units, theme and name: what a reader chose, kept in this browser; else what the system says. */

import type { Dispatch } from 'react';
import { LONGEST_LABEL } from '../../../shared/tables.ts';
import type { Theme, Units } from '../contract.ts';
import type { Action } from './reducer.ts';

const KEY = 'shoalwise-settings';
const DARK = '(prefers-color-scheme: dark)';

export interface Settings {
  units: Units;
  theme: Theme;
  /** kept with changes */
  who: string;
}

/** Settings of an earlier visit. Storage may be forbidden or hold anything. */
export function storedSettings(): Settings {
  let kept: Partial<Record<keyof Settings, unknown>> = {};
  try {
    kept = JSON.parse(localStorage.getItem(KEY) ?? '{}') ?? {};
  } catch {
    // without storage the settings hold for this visit
  }
  const { units, theme, who } = kept;
  return {
    units: units === 'us' || units === 'metric' ? units : 'metric',
    theme: theme === 'light' || theme === 'dark' ? theme : 'system',
    who: typeof who === 'string' ? who.slice(0, LONGEST_LABEL) : '',
  };
}

export function isDark(theme: Theme): boolean {
  return theme === 'system' ? matchMedia(DARK).matches : theme === 'dark';
}

/** Stores the settings, colours the page, and follows the system where the theme does. Returns how to stop. */
export function keepSettings(
  { units, theme, who }: Settings,
  dispatch: Dispatch<Action>,
): () => void {
  try {
    localStorage.setItem(KEY, JSON.stringify({ units, theme, who }));
  } catch {
    // as above
  }
  const media = matchMedia(DARK);
  const apply = () => showDark(isDark(theme), dispatch);
  apply();
  media.addEventListener('change', apply);
  return () => media.removeEventListener('change', apply);
}

/** Colours the page, without a word on what its reader chose. */
export function showDark(dark: boolean, dispatch: Dispatch<Action>): void {
  document.documentElement.dataset.theme = dark ? 'dark' : 'light';
  dispatch({ type: 'dark', dark });
}
