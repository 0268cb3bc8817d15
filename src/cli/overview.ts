/** The table at the end of a run over several folders. */

import { label } from '../../shared/glossary.ts';
import { visible } from '../../shared/words.ts';
import { OVERVIEW_HEADS, type OverviewRow } from '../present/overview.ts';
import { EXIT } from './core.ts';
import { columns } from './text.ts';

export interface Line {
  name: string;
  code: number;
  /** null when there is no result */
  row: OverviewRow | null;
}

/** One line a folder: its number with what it is about, and its notices; or why there is none. */
export function overview(lines: Line[]): string {
  const rows = lines.map(({ name, code, row }) => [visible(name), ...(row ?? [whyNone(code)])]);
  return `${columns(
    [[label('survey'), ...OVERVIEW_HEADS], ...rows],
    ['left', 'right', 'right', 'right', 'right', 'right'],
  )}\n`;
}

function whyNone(code: number): string {
  return code === EXIT.data ? 'errors in the data' : 'error of the program';
}
