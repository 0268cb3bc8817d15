/**
 * shoalwise batch LIST.csv --out OUT: every lake of a list, each written whole or not at all; what is done already with the same
 * files stays. One lake's fault never stops the others.
 */

import { mkdir, readdir, stat } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { endsInWords, readBatch } from '../present/batch.ts';
import { BATCH_FILES, batchFiles, LAKES_FOLDER } from '../publish/batch.ts';
import { gather } from './batch/gather.ts';
import type { LakeTask } from './batch/lake.ts';
import { doLakes, type LakeEnd } from './batch/lanes.ts';
import { readList, type Share, shareOf } from './batch/list.ts';
import { dryRun, ownCommand, SLURM_FOLDER, slurmScripts, submit } from './batch/slurm.ts';
import { EXIT, type Terminal, UsageError } from './core.ts';
import { columns, wrap } from './text.ts';
import { writeFiles } from './write-files.ts';
import { tryOut } from './write-out.ts';

export interface BatchCommand {
  list: string;
  out: string;
  /** bootstrap replicates; null = as each lake's analysis says */
  replicates: number | null;
  /** null = one a core */
  threads: number | null;
  /** one share of the lakes, without the files of all; null = all of them */
  shard: Share | null;
  /** the total also with the observers' detection in common across lakes */
  sharedDetection: boolean;
  /** the files of all alone, from what is done */
  gather: boolean;
  slurm: 'submit' | 'print' | null;
  /** of the array; null = one a lake, up to MOST_TASKS */
  tasks: number | null;
}

/** Arrays are bounded on most clusters. */
const MOST_TASKS = 100;
/** Longer tables are in lakes.csv. */
const MOST_ROWS = 60;

export async function batch(terminal: Terminal, asked: BatchCommand): Promise<number> {
  const lakes = await readList(asked.list);
  const out = resolve(asked.out);
  await refuseForeignOut(out);
  const tasks: LakeTask[] = lakes.map((lake) => ({
    lake,
    lakes: join(out, LAKES_FOLDER),
    choices: { replicates: asked.replicates },
  }));
  if (asked.slurm !== null) return onSlurm(terminal, asked, out, lakes.length);
  await tryOut(join(out, LAKES_FOLDER));
  if (!asked.gather) {
    await mkdir(join(out, LAKES_FOLDER), { recursive: true });
    const failed = await doAll(terminal, asked, tasks);
    if (asked.shard !== null) return failed > 0 ? EXIT.program : EXIT.done;
  }
  const file = await gather(tasks, asked.sharedDetection);
  await writeFiles(new Map([...batchFiles(file)].map(([name, text]) => [join(out, name), text])));
  const { opening, notes, rows } = readBatch(file);
  const shown = rows.slice(0, MOST_ROWS + 1).map(({ cells }) => cells);
  terminal.out(`${columns(shown, ['left', 'left', ...new Array(8).fill('right')], '')}\n`);
  if (rows.length > shown.length) terminal.out(`… the others are in ${join(out, 'lakes.csv')}\n`);
  for (const line of [opening, ...notes]) terminal.out(`${wrap(line)}\n`);
  terminal.out(`\nWritten to ${out}\n`);
  const { missing, with_errors: faulty } = file.programme;
  return missing.length > 0 || faulty > 0 ? EXIT.data : EXIT.done;
}

/** How many failed: by no fault of their data. */
async function doAll(terminal: Terminal, asked: BatchCommand, all: LakeTask[]): Promise<number> {
  const own = asked.shard === null ? all : shareOf(all, asked.shard);
  const counts = { done: 0, kept: 0, errors: 0, failed: 0 };
  let ended = 0;
  const tell = ({ name, how, why }: LakeEnd): void => {
    counts[how]++;
    ended++;
    if (why !== null) terminal.err(why);
    if (terminal.live) terminal.err(`\r\u001b[2K${ended} of ${own.length}: ${name}`.slice(0, 84));
  };
  await doLakes(own, asked.threads ?? availableParallelism(), tell);
  if (terminal.live) terminal.err('\r\u001b[2K');
  terminal.out(`${wrap(endsInWords(counts))}\n`);
  return counts.failed;
}

async function onSlurm(
  terminal: Terminal,
  { list, out: _, replicates, tasks, slurm, sharedDetection }: BatchCommand,
  out: string,
  lakes: number,
): Promise<number> {
  const own = [...ownCommand(), 'batch', resolve(list), '--out', out];
  if (replicates !== null) own.push('--bootstrap', String(replicates));
  if (sharedDetection) own.push('--shared-detection');
  const folder = join(out, SLURM_FOLDER);
  const scripts = slurmScripts({
    work: own,
    gather: own,
    tasks: tasks ?? Math.min(lakes, MOST_TASKS),
    folder,
  });
  if (slurm === 'print') terminal.out(dryRun(scripts, folder));
  else await submit(scripts, folder, terminal);
  return EXIT.done;
}

/** OUT holds nothing but what a batch leaves there. @throws UsageError */
async function refuseForeignOut(out: string): Promise<void> {
  const there = await stat(out).catch(() => null);
  if (there === null) return;
  if (!there.isDirectory())
    throw new UsageError(`${out}: this is a file, a folder for the results was expected`);
  const ours = new Set<string>([...BATCH_FILES, LAKES_FOLDER, SLURM_FOLDER]);
  const foreign = (await readdir(out)).find((name) => !ours.has(name) && !name.startsWith('.'));
  if (foreign !== undefined)
    throw new UsageError(
      `${out}: this folder holds "${basename(foreign)}", which no batch has written; name another folder`,
    );
}
