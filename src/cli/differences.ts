/** shoalwise differences DIR1 DIR2: two copies of one survey, cell by cell; the folders are left as they are. */

import type { Differences } from '../../shared/differences.ts';
import { differencesSentence, differenceWords } from '../present/differences.ts';
import { toCsv } from '../publish/csv.ts';
import { EXIT, type Folder, type Terminal, worst } from './core.ts';
import { eachFolder } from './each-folder.ts';
import { refuseOthers, writeFiles } from './write-files.ts';

export interface DifferencesAsked {
  folders: [here: string, there: string];
  /** null: printed alone */
  out: string | null;
}

export type CompareCopies = (here: Folder, there: Folder) => Differences;

const HEADER = ['table', 'row_1', 'row_2', 'about', 'column', 'value_1', 'value_2', 'changed_by'];

/** One difference a line on standard output. 0 where the copies say the same, 2 where they differ. */
export async function differences(
  compareCopies: CompareCopies,
  terminal: Terminal,
  { folders, out }: DifferencesAsked,
): Promise<number> {
  if (out !== null) await refuseOthers([out], HEADER.join(','));
  const visits = await eachFolder([...folders], terminal, async (folder) => ({
    code: EXIT.done,
    value: folder,
  }));
  const [here, there] = visits;
  if (here?.value == null || there?.value == null) return worst(visits.map(({ code }) => code));
  const found = compareCopies(here.value, there.value);
  const names = { here: here.name, there: there.name };
  for (const difference of found.differences) {
    const { place, here: a, there: b, changed } = differenceWords(difference, names);
    terminal.out(`${place}: ${a} | ${b}${changed === '' ? '' : ` (${changed})`}\n`);
  }
  terminal.out(`${differencesSentence(found)}\n`);
  if (out !== null) await writeFiles(new Map([[out, asCsv(found)]]));
  return found.differences.length + found.files.length === 0 ? EXIT.done : EXIT.data;
}

function asCsv({ differences }: Differences): string {
  return toCsv(
    HEADER,
    differences.map(({ table, here, there, about, column, values, changedBy }) => [
      table,
      here,
      there,
      about,
      column,
      values.here,
      values.there,
      changedBy === null ? null : changedBy === 'here' ? 1 : 2,
    ]),
  );
}
