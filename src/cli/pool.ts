/** Work of many pieces on all cores. Each piece depends on its number alone, so threads change nothing but the time. */

import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { type Outcome, performer, type RunMany, type Task } from '../../models/index.ts';

/** Numbers sent to a thread at a time: few enough that threads end together. */
const BATCH = 4;

/**
 * A runner on `threads` threads (default: one a core). Without the bundled worker beside this module (in tests from
 * source) everything runs on the calling thread.
 */
export function pool(threads = availableParallelism()): RunMany {
  const some = poolOfSome(threads);
  return (task, count, progress) => some(task, numbersTo(count), progress);
}

/** Gives the results of a task for some of its numbers, in their order. */
export type RunSome = <K extends Task['kind']>(
  task: Extract<Task, { kind: K }>,
  numbers: readonly number[],
  progress: (share: number) => void,
) => Promise<Outcome[K][]>;

export const numbersTo = (count: number): number[] => Array.from({ length: count }, (_, i) => i);

/** A runner of some numbers on `threads` threads, or on the calling one where there is no bundled worker. */
export function poolOfSome(threads = availableParallelism()): RunSome {
  const path = new URL('./shoalwise-worker.mjs', import.meta.url);
  if (!existsSync(path)) return onThisThread;
  return (task, numbers, progress) =>
    share(path, task, numbers, Math.min(threads, numbers.length), progress);
}

const onThisThread: RunSome = async (task, numbers, progress) => {
  const perform = performer(task);
  const results = numbers.map((number, i) => {
    const result = perform(number);
    progress((i + 1) / numbers.length);
    return result;
  });
  return results as Outcome[typeof task.kind][];
};

function share<K extends Task['kind']>(
  path: URL,
  task: Extract<Task, { kind: K }>,
  numbers: readonly number[],
  threads: number,
  progress: (share: number) => void,
): Promise<Outcome[K][]> {
  const count = numbers.length;
  const results = new Array<Outcome[K]>(count);
  const placeOf = new Map(numbers.map((number, place) => [number, place]));
  let next = 0;
  let done = 0;
  return new Promise((resolve, reject) => {
    const workers: Worker[] = [];
    const end = (settle: () => void): void => {
      for (const worker of workers) void worker.terminate();
      settle();
    };
    if (count === 0) resolve(results);
    for (let i = 0; i < threads; i++) {
      const worker = new Worker(path, { workerData: task });
      workers.push(worker);
      worker.on('error', (error) => end(() => reject(error)));
      worker.on('message', (pairs: [number, Outcome[K]][]) => {
        for (const [number, result] of pairs) results[placeOf.get(number)!] = result;
        done += pairs.length;
        if (pairs.length > 0) progress(done / count);
        if (done === count) return end(() => resolve(results));
        const batch = numbers.slice(next, next + BATCH);
        next += batch.length;
        if (batch.length > 0) worker.postMessage(batch);
      });
    }
  });
}
