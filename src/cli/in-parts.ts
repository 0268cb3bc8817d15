/** Bootstrap and rehearsal in parts, as typed: a share, the gathering, or both handed to Slurm. */

import { resolve } from 'node:path';
import { type Command, Option } from 'commander';
import type { RunMany } from '../../models/index.ts';
import type { Share } from './batch/list.ts';
import { dryRun, ownCommand, slurmScripts, submit } from './batch/slurm.ts';
import { shardOf } from './batch-command.ts';
import { type Terminal, UsageError } from './core.ts';
import { resultFolderName, wholeNumber } from './options.ts';
import { doingPart, gatheringParts } from './parts.ts';
import { pool, poolOfSome } from './pool.ts';

export interface PartsAsked {
  /** where the parts are kept */
  folder: string;
  way: { shard: Share } | 'gather' | 'slurm' | 'slurm-dry-run';
  /** of an array; null = USUAL_TASKS */
  tasks: number | null;
}

export interface TypedParts {
  work?: string;
  shard?: Share;
  gather?: boolean;
  slurm?: boolean;
  slurmDryRun?: boolean;
  tasks?: number;
}

const USUAL_TASKS = 8;

export function addPartsOptions(command: Command): Command {
  return command
    .addOption(
      new Option('--work <FOLDER>', 'folder that processes share, for work in parts').argParser(
        resultFolderName('--work'),
      ),
    )
    .addOption(
      new Option('--shard <I/N>', 'only the I-th of N parts, kept in --work').argParser(shardOf),
    )
    .option('--gather', 'the result of all parts that are kept in --work')
    .option('--slurm', 'hand the work to Slurm: an array of parts and a job that gathers')
    .option('--slurm-dry-run', 'print what --slurm would submit')
    .addOption(
      new Option('--tasks <N>', `parts of the array (default: ${USUAL_TASKS})`).argParser(
        wholeNumber('--tasks', 1, 10_000),
      ),
    );
}

/** Null: in one piece. @throws UsageError where the options do not go together */
export function partsAsked(command: string, typed: TypedParts, folders: number): PartsAsked | null {
  const ways: [boolean, PartsAsked['way']][] = [
    [typed.shard !== undefined, { shard: typed.shard ?? { part: 1, of: 1 } }],
    [typed.gather === true, 'gather'],
    [typed.slurm === true, 'slurm'],
    [typed.slurmDryRun === true, 'slurm-dry-run'],
  ];
  const asked = ways.flatMap(([is, way]) => (is ? [way] : []));
  if (typed.work === undefined && asked.length === 0) return null;
  if (typed.work === undefined)
    throw new UsageError(`${command}: --work FOLDER is expected, where the parts are kept`);
  if (asked.length !== 1)
    throw new UsageError(
      `${command}: with --work one of --shard, --gather, --slurm and --slurm-dry-run is expected`,
    );
  if (folders !== 1) throw new UsageError(`${command}: with --work one survey folder is expected`);
  return { folder: resolve(typed.work), way: asked[0], tasks: typed.tasks ?? null };
}

/** What runs the work of many pieces. */
export function runnerFor(parts: PartsAsked | null, threads: number | null): RunMany {
  if (parts === null) return pool(threads ?? undefined);
  if (parts.way === 'gather') return gatheringParts(parts.folder);
  if (typeof parts.way === 'object')
    return doingPart(parts.folder, parts.way.shard, poolOfSome(threads ?? undefined));
  throw new RangeError(`got ${parts.way}, which runs nothing here`);
}

/** Whether the work was handed over, so that nothing is to be done here. */
export async function handedOver(
  parts: PartsAsked | null,
  words: readonly string[],
  terminal: Terminal,
): Promise<boolean> {
  if (parts === null || (parts.way !== 'slurm' && parts.way !== 'slurm-dry-run')) return false;
  const own = [...ownCommand(), ...words, '--work', parts.folder];
  const scripts = slurmScripts({
    work: own,
    gather: own,
    tasks: parts.tasks ?? USUAL_TASKS,
    folder: parts.folder,
  });
  if (parts.way === 'slurm') await submit(scripts, parts.folder, terminal);
  else terminal.out(dryRun(scripts, parts.folder));
  return true;
}
