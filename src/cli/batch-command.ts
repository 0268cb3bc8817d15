/** The command line of `batch`. */

import type { Command } from 'commander';
import { term, terms } from '../../shared/glossary.ts';
import { quoted } from '../../shared/words.ts';
import type { Share } from './batch/list.ts';
import type { BatchCommand } from './batch.ts';
import { examples, threads } from './command-help.ts';
import { UsageError } from './core.ts';
import { resultFolderName, wholeNumber } from './options.ts';

export function addBatch(program: Command, run: (asked: BatchCommand) => Promise<void>): void {
  interface Typed {
    out: string;
    bootstrap?: number;
    threads?: number;
    shard?: Share;
    sharedDetection?: boolean;
    gather?: boolean;
    slurm?: boolean;
    slurmDryRun?: boolean;
    tasks?: number;
  }
  program
    .command('batch')
    .summary('estimate every lake of a list')
    .usage('LIST.csv --out OUT [options]')
    .description(
      'Estimates the survey of each row (column folder; column name if wanted) into OUT/lakes/NAME, one lake after the other, each written whole or not at all, and all of them into lakes.csv, lakes.html and batch.json. A lake whose files, choices and version are the same is not done again, so a run that was stopped is started again by the same command. A lake with errors stops no other.',
    )
    .argument('<LIST.csv>', 'the lakes, a row each')
    .requiredOption('--out <OUT>', 'folder for the results', resultFolderName('--out'))
    .option(
      '--bootstrap <B>',
      `an interval also from B ${terms('bootstrapReplicate')} for each lake`,
      wholeNumber('--bootstrap', 0),
    )
    .addOption(threads())
    .option(
      '--shard <I/N>',
      'only the I-th of N shares of the lakes, without the files of all: for a scheduler',
      shardOf,
    )
    .option(
      '--shared-detection',
      `the total also with one ${term('detectionProbability')} an observer across lakes: the same name is the same person on all of them`,
    )
    .option('--gather', 'only the files of all lakes, from what the shares left')
    .option('--slurm', 'hand the work to Slurm: an array of tasks and a job that gathers')
    .option('--slurm-dry-run', 'print what --slurm would submit')
    .option(
      '--tasks <N>',
      'tasks of the array (default: one a lake, 100 at most)',
      wholeNumber('--tasks', 1, 10_000),
    )
    .addHelpText(
      'after',
      examples('batch my-lakes.csv --out results', 'batch my-lakes.csv --out results --slurm'),
    )
    .action((list: string, typed: Typed) => {
      const ways = [typed.shard, typed.gather, typed.slurm, typed.slurmDryRun].filter(Boolean);
      if (ways.length > 1)
        throw new UsageError(
          'batch: --shard, --gather, --slurm and --slurm-dry-run exclude each other',
        );
      return run({
        list,
        out: typed.out,
        replicates: typed.bootstrap ?? null,
        threads: typed.threads ?? null,
        shard: typed.shard ?? null,
        sharedDetection: typed.sharedDetection ?? false,
        gather: typed.gather ?? false,
        slurm: typed.slurm ? 'submit' : typed.slurmDryRun ? 'print' : null,
        tasks: typed.tasks ?? null,
      });
    });
}

/** `3/8` */
export function shardOf(text: string): Share {
  const parts = /^(\d{1,6})\/(\d{1,6})$/.exec(text);
  const [part, of] = parts === null ? [0, 0] : [Number(parts[1]), Number(parts[2])];
  if (part < 1 || part > of)
    throw new UsageError(`--shard: ${quoted(text)} is no share, as 3/8 is the third of eight`);
  return { part, of };
}
