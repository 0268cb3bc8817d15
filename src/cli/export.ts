/** shoalwise export DIR --out OUT: the survey and its results as open files, written whole or not at all. */

import type { Credits } from '../../shared/open.ts';
import { openNotices, openText } from '../present/open.ts';
import { openFiles } from '../publish/open/index.ts';
import { type Core, EXIT, type Terminal, worst } from './core.ts';
import { eachFolder } from './each-folder.ts';
import { printFindings } from './finding-lines.ts';
import { openTools } from './open-tools.ts';
import { EXPORT, resultFolder } from './result-folder.ts';
import { tryOut, writeResult } from './write-out.ts';

export interface ExportAsked {
  folder: string;
  out: string;
  credits: Credits;
  /** no error or notice is summed up */
  listAll: boolean;
}

/** Throws UsageError before anything is read when the files have no place to go. */
export async function exportFiles(
  core: Core,
  terminal: Terminal,
  { folder: path, out, credits, listAll }: ExportAsked,
): Promise<number> {
  const target = await resultFolder(out, [path], EXPORT);
  await tryOut(target);
  const visits = await eachFolder([path], terminal, async (folder, { prefix, progress }) => {
    const done = await core.describeBed(folder, { progress: progress.report });
    progress.clear();
    if (!done.ok) {
      printFindings(done.findings, terminal, prefix, listAll);
      return { code: EXIT.data, value: null };
    }
    const { result, parts } = done;
    const notices = openNotices(result, parts, credits);
    printFindings([...result.findings, ...notices], terminal, prefix, listAll);
    const files = await openFiles({ result, parts, files: folder.files, credits }, openTools());
    await writeResult(target, files, EXPORT);
    terminal.out(openText([...files].map(([name, bytes]) => ({ name, bytes: bytes.length }))));
    terminal.out(`\nWritten to ${target}\n\n`);
    return { code: EXIT.done, value: null };
  });
  return worst(visits.map((v) => v.code));
}
