/**
 * Work handed to Slurm, which universities and agencies run already: an array job whose tasks take a share each, and the job
 * that gathers when all have ended. Queue, partition, time and account are Slurm's own settings, by its environment variables
 * (SBATCH_PARTITION, SBATCH_TIMELIMIT, SBATCH_ACCOUNT). Nothing here waits or watches.
 */

import { execFile } from 'node:child_process';
import { mkdir } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { InputError, type Terminal } from '../core.ts';
import { writeFiles } from '../write-files.ts';

/** Files of ours have it in their beginning. */
export const SCRIPT_MARK = '# made by shoalwise';
/** Where a program ends by a signal its shell says 128 and more; 1 is an error of the program, that may be the machine's. */
const TRIES = 3;
/** A folder beside the results, with both scripts and what the tasks print. */
export const SLURM_FOLDER = 'slurm';

export interface SlurmJob {
  /** what each task runs; its share is put behind it */
  work: readonly string[];
  /** what runs when all tasks have ended */
  gather: readonly string[];
  tasks: number;
  /** folder for the scripts and the logs */
  folder: string;
}

/** The command that this process was started as, for the tasks to start it again. */
export const ownCommand = (): string[] => [process.execPath, resolve(process.argv[1] ?? '')];

/** The two scripts, by file name. */
export function slurmScripts({ work, gather, tasks, folder }: SlurmJob): Map<string, string> {
  const log = (name: string): string =>
    `#SBATCH --output=${quotedForDirective(join(folder, name))}`;
  return new Map([
    [
      'work.sh',
      `#!/bin/bash
${SCRIPT_MARK}: one share of the work a task; a task that was killed is done again, what was done stays
#SBATCH --job-name=shoalwise
#SBATCH --array=1-${tasks}
#SBATCH --cpus-per-task=1
#SBATCH --requeue
#SBATCH --open-mode=append
${log('task-%a.txt')}
for try in ${Array.from({ length: TRIES }, (_, i) => i + 1).join(' ')}; do
  ${shellWords(work)} --shard "$SLURM_ARRAY_TASK_ID/${tasks}" --threads "\${SLURM_CPUS_PER_TASK:-1}"
  code=$?
  # 0 done, 2 errors in the data: neither gets better by doing it again
  if [ $code -eq 0 ] || [ $code -eq 2 ]; then exit 0; fi
done
exit $code
`,
    ],
    [
      'gather.sh',
      `#!/bin/bash
${SCRIPT_MARK}: puts together what the tasks left, and says what is missing
#SBATCH --job-name=shoalwise-gather
#SBATCH --cpus-per-task=1
#SBATCH --open-mode=append
${log('gather.txt')}
exec ${shellWords(gather)} --gather
`,
    ],
  ]);
}

/** Both scripts with the commands that would submit them. */
export function dryRun(scripts: Map<string, string>, folder: string): string {
  const shown = [...scripts].map(([name, text]) => `${join(folder, name)}\n\n${text}`);
  return `${shown.join('\n')}\njob=$(sbatch --parsable ${shellWords([join(folder, 'work.sh')])})
sbatch --dependency=afterany:$job ${shellWords([join(folder, 'gather.sh')])}\n`;
}

/** @throws InputError when Slurm cannot be reached or refuses */
export async function submit(
  scripts: Map<string, string>,
  folder: string,
  terminal: Terminal,
): Promise<void> {
  await mkdir(folder, { recursive: true });
  await writeFiles(new Map([...scripts].map(([name, text]) => [join(folder, name), text])));
  const work = await sbatch([join(folder, 'work.sh')]);
  // after any end: a task that failed for good must not leave the others ungathered
  const gather = await sbatch([`--dependency=afterany:${work}`, join(folder, 'gather.sh')]);
  terminal.out(
    `Job ${work} does the work, job ${gather} gathers it; what they print is in ${folder}\n`,
  );
}

async function sbatch(args: string[]): Promise<string> {
  try {
    const { stdout } = await promisify(execFile)('sbatch', ['--parsable', ...args]);
    return stdout.trim().split(';')[0];
  } catch (error) {
    const { code, stderr, message } = error as NodeJS.ErrnoException & { stderr?: string };
    throw new InputError(
      code === 'ENOENT'
        ? 'sbatch: there is no such command here (Slurm’s client expected; --slurm-dry-run prints the scripts)'
        : `sbatch: ${(stderr ?? message).trim()}`,
    );
  }
}

/** Words for a shell, each as it is. */
export function shellWords(words: readonly string[]): string {
  return words
    .map((word) => (/^[\w@%+=:,./-]+$/.test(word) ? word : `'${word.replaceAll("'", `'\\''`)}'`))
    .join(' ');
}

/** Slurm reads a directive's value up to a blank, or between quotes. */
function quotedForDirective(path: string): string {
  return /\s/.test(path) ? `"${path}"` : path;
}
