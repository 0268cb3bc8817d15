/** Many lakes on Slurm itself: an array whose task is killed and put back into the queue comes to the bytes of threads. */

import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { testFolder } from '../helpers/folder.ts';
import { filesBelow, writeLakes } from '../helpers/many-lakes.ts';
import { NO_SLURM, type Slurm, startSlurm } from '../helpers/slurm.ts';
import { until } from '../helpers/until.ts';

const LAUNCH = join(import.meta.dirname, '../../src/cli/launch.mjs');
const LAKES = 40;
const TASKS = 8;
/** Bounds, not expectations: the machine may have much else to do. */
const PATIENCE_MS = 480_000;

describe.skipIf(NO_SLURM !== null)(
  `an array of ${TASKS} tasks over ${LAKES} lakes${NO_SLURM ? ` (${NO_SLURM})` : ''}`,
  () => {
    const folder = testFolder();
    const list = writeLakes(join(folder, 'surveys'), LAKES, { faultyEvery: 20, small: true });
    let slurm: Slurm;
    const batch = (...args: string[]) =>
      spawnSync(process.execPath, [LAUNCH, 'batch', list, ...args], {
        env: slurm.env,
        encoding: 'utf8',
      });

    /** A machine that is busy elsewhere may sleep through all half-done tasks of an array: then another is submitted. */
    const submittedAndKilled = async () => {
      for (let array = 1; array <= 5; array++) {
        const out = join(folder, `out ${array}`);
        const { stdout, stderr } = batch('--out', out, '--slurm', '--tasks', String(TASKS));
        expect(stderr).toBe('');
        const [, work, gather] = /Job (\d+) does the work, job (\d+)/.exec(stdout) ?? [];
        const task = await killedHalfWay(list, join(out, 'lakes'), ended);
        if (task !== null) return { out, work, gather, task: `${work}_${task}` };
      }
      throw new Error('no task was seen half way');
    };
    const recordsOf = (job: string): Record<string, string>[] =>
      slurm
        .ask('scontrol', '--oneliner', 'show', 'job', job)
        .trim()
        .split('\n')
        .map((line) =>
          Object.fromEntries([...line.matchAll(/(\w+)=(\S*)/g)].map((m) => [m[1], m[2]])),
        );
    const stateOf = (task: string) => recordsOf(task)[0].JobState;
    const ended = (): boolean => slurm.ask('squeue', '--noheader').trim() === '';

    beforeAll(async () => {
      slurm = await startSlurm(join(folder, 'slurm'));
    }, PATIENCE_MS);
    afterAll(() => slurm?.stop(), PATIENCE_MS);

    it(
      'whose process is killed half way and whose task is put back, comes to the same bytes as threads',
      async () => {
        const { out, work, gather, task } = await submittedAndKilled();
        slurm.ask('scontrol', 'requeue', task);
        // by itself a task that was put back waits for two minutes; before it has left its node that cannot be changed
        await until(() => stateOf(task) !== 'COMPLETING', PATIENCE_MS);
        slurm.ask('scontrol', 'update', `JobId=${task}`, 'StartTime=now');
        await until(ended, PATIENCE_MS);

        const ends = recordsOf(work);
        expect(ends.map(({ JobState, ExitCode }) => `${JobState} ${ExitCode}`)).toEqual(
          new Array(TASKS).fill('COMPLETED 0:0'),
        );
        const again = ends.filter(({ Restarts }) => Restarts !== '0');
        expect(again.map(({ ArrayTaskId }) => `${work}_${ArrayTaskId}`)).toEqual([task]);
        // 2 lakes have errors, which the gathering job tells as the command does
        const [gathered] = recordsOf(gather);
        expect(gathered.ExitCode).toBe('2:0');
        expect(readFileSync(join(out, 'slurm/gather.txt'), 'utf8')).toContain(
          '2 of 40 have errors and are not in it: lake-0020 and lake-0040.',
        );

        const threads = join(folder, 'threads');
        expect(batch('--out', threads, '--threads', '2').status).toBe(2);
        const [there, here] = [filesBelow(out), filesBelow(threads)];
        for (const name of [...there.keys()]) if (name.startsWith('slurm/')) there.delete(name);
        expect(here.size).toBeGreaterThan(10 * (LAKES - 2));
        expect([...there.keys()]).toEqual([...here.keys()]);
        for (const [name, bytes] of here) expect(there.get(name) === bytes, name).toBe(true);
      },
      PATIENCE_MS,
    );
  },
);

/** Kills a process of the array that has done some of its lakes and not all. Returns its task, or null when all have ended. */
async function killedHalfWay(list: string, lakes: string, ended: () => boolean) {
  let killed: number | null = null;
  await until(
    () => {
      killed = sharesAtWork(list).find((share) => killedIfHalf(share, lakes))?.task ?? null;
      return killed !== null || ended();
    },
    PATIENCE_MS,
    20,
  );
  return killed;
}

/** It is stopped before its lakes are counted, so that it cannot go on meanwhile. */
function killedIfHalf({ pid, task }: { pid: number; task: number }, lakes: string): boolean {
  const half = (): boolean => ![0, LAKES / TASKS].includes(doneOf(task, lakes));
  if (!half()) return false;
  try {
    process.kill(pid, 'SIGSTOP');
    const still = half();
    process.kill(pid, still ? 'SIGKILL' : 'SIGCONT');
    return still;
  } catch {
    return false; // it has ended
  }
}

/** The processes that do a share of the list, as the system lists them. */
function sharesAtWork(list: string): { pid: number; task: number }[] {
  return readdirSync('/proc').flatMap((name) => {
    const command = /^\d+$/.test(name) ? commandOf(name) : [];
    const share = command.indexOf('--shard') + 1;
    return command[0] === process.execPath && command.includes(list) && share > 0
      ? [{ pid: Number(name), task: Number.parseInt(command[share], 10) }]
      : [];
  });
}

function commandOf(pid: string): string[] {
  try {
    return readFileSync(`/proc/${pid}/cmdline`, 'utf8').split('\0');
  } catch {
    return []; // it has ended
  }
}

/** Lakes of a share that are written: every eighth of the list is one's own. */
function doneOf(task: number, lakes: string): number {
  const own = Array.from({ length: LAKES / TASKS }, (_, i) => task + i * TASKS);
  return own.filter((i) => existsSync(join(lakes, `lake-${String(i).padStart(4, '0')}`))).length;
}
