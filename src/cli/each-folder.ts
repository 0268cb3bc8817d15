/** One survey folder after the other: a fault in one is told and does not stop the others. */

import { type Finding, formatFinding } from '../../shared/findings.ts';
import { visible } from '../../shared/words.ts';
import { type Core, EXIT, type Folder, InputError, type Terminal, UsageError } from './core.ts';
import { folderName, readSurveyFolder } from './folder.ts';
import { type Progress, progressLine } from './progress.ts';

export type { Core };

/** How it went with one folder; `value` is null when it did not get that far. */
export interface Visit<T> {
  path: string;
  name: string;
  code: number;
  value: T | null;
}

type Work<T> = (
  folder: Folder,
  progress: Progress,
  prefix: string,
  index: number,
) => Promise<{ code: number; value: T | null }>;

/** `prefix` is empty for a single folder, else the folder's name and a slash, to put before the names of its files. */
export async function eachFolder<T>(
  paths: string[],
  terminal: Terminal,
  work: Work<T>,
): Promise<Visit<T>[]> {
  const visits: Visit<T>[] = [];
  for (const [index, path] of paths.entries()) {
    const name = folderName(path);
    const prefix = paths.length > 1 ? `${name}/` : '';
    const progress = progressLine(terminal, name);
    try {
      const done = await work(await readSurveyFolder(path), progress, prefix, index);
      visits.push({ path, name, ...done });
    } catch (error) {
      progress.clear();
      visits.push({ path, name, code: tellFault(error, path, terminal), value: null });
    }
  }
  return visits;
}

/** One finding a line on standard error. */
export function tellFindings(findings: Finding[], terminal: Terminal, prefix: string): void {
  const lines = findings.map((f) => {
    const line = formatFinding({ ...f, table: prefix + f.table });
    return visible(line.replace(/\s*[\r\n]+\s*/g, ' '));
  });
  if (lines.length > 0) terminal.err(`${lines.join('\n')}\n`);
}

/** Says what went wrong and returns the exit code; the place in the code only when it is asked for. */
export function tellFault(error: unknown, path: string, terminal: Terminal): number {
  if (error instanceof InputError) {
    terminal.err(`${error.message}\n`);
    return EXIT.data;
  }
  if (error instanceof UsageError) {
    terminal.err(`shoalwise: ${error.message}\n`);
    return EXIT.usage;
  }
  const message = error instanceof Error ? error.message : String(error);
  terminal.err(
    process.env.SHOALWISE_DEBUG
      ? `${path}: a fault of the program: ${error instanceof Error ? error.stack : message}\n`
      : `${path}: a fault of the program, nothing was written for this folder: ${message} (SHOALWISE_DEBUG=1 shows where)\n`,
  );
  return EXIT.fault;
}
