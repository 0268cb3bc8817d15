/** One line on the screen that says what is being done; nothing where nobody is looking. */

import { visible } from '../../shared/words.ts';
import { stepWords } from '../present/steps.ts';
import type { Terminal } from './core.ts';

const ERASE_LINE = '\r\u001b[2K';

export interface Progress {
  report(step: string, share: number): void;
  clear(): void;
}

/** Rewrites the line only when what it says has changed, so that a fast step costs nothing. */
export function progressLine(terminal: Terminal, name: string): Progress {
  let shown = '';
  return {
    report(step, share) {
      if (!terminal.live) return;
      const part = share > 0 && share < 1 ? ` ${Math.round(share * 100)} %` : '';
      const line = `${visible(name)}: ${stepWords(step)}${part} …`;
      if (line === shown) return;
      terminal.err(ERASE_LINE + line.slice(0, 79));
      shown = line;
    },
    clear() {
      if (shown !== '') terminal.err(ERASE_LINE);
      shown = '';
    },
  };
}
