/** One survey folder after the other: what fails in one is said and does not stop the others. */

import { EXIT, type Folder, type Terminal } from './core.ts';
import { reportFailure } from './failure.ts';
import { folderName, readSurveyFolder } from './folder.ts';
import { PartDone } from './parts.ts';
import { type Progress, progressLine } from './progress.ts';

/** How it went with one folder; `value` is null when it did not get that far. */
export interface Visit<T> {
  path: string;
  name: string;
  code: number;
  value: T | null;
}

/** One of the folders that were named. */
interface Turn {
  index: number;
  /** what the folder is called */
  name: string;
  /** stands before the names of its files: empty for a single folder, else its name and a slash */
  prefix: string;
  progress: Progress;
}

type Work<T> = (folder: Folder, turn: Turn) => Promise<{ code: number; value: T | null }>;

/** Visits the folders in their order. */
export async function eachFolder<T>(
  paths: string[],
  terminal: Terminal,
  work: Work<T>,
): Promise<Visit<T>[]> {
  const visits: Visit<T>[] = [];
  for (const [index, path] of paths.entries()) {
    const name = nameAmong(paths, path);
    const prefix = paths.length > 1 ? `${name}/` : '';
    const progress = progressLine(terminal, name);
    try {
      const done = await work(await readSurveyFolder(path), { index, name, prefix, progress });
      visits.push({ path, name, ...done });
    } catch (error) {
      progress.clear();
      if (error instanceof PartDone) {
        terminal.out(`${error.message}\n`);
        visits.push({ path, name, code: EXIT.done, value: null });
        continue;
      }
      visits.push({ path, name, code: reportFailure(error, path, terminal), value: null });
    }
  }
  return visits;
}

/** The folder's own name; where two have the same, the path as typed. */
function nameAmong(paths: string[], path: string): string {
  const name = folderName(path);
  const alike = paths.filter((other) => folderName(other) === name);
  return alike.length === 1 ? name : path.replace(/[\\/]+$/, '');
}
