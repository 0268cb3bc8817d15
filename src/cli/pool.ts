/** Work of many pieces on all cores. Each piece depends on its number alone, so threads change nothing but the time. */

import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { type Outcome, type RunMany, runHere, type Task } from '../../models/index.ts';

/** Numbers sent to a thread at a time: few enough that threads end together. */
const BATCH = 4;

/**
 * A runner on `threads` threads (default: one a core). Without the bundled worker beside this module (in tests from
 * source) everything runs on the calling thread.
 */
export function pool(threads = availableParallelism()): RunMany {
  const path = new URL('./shoalwise-worker.mjs', import.meta.url);
  if (!existsSync(path)) return runHere;
  return (task, count, progress) => share(path, task, count, Math.min(threads, count), progress);
}

function share<K extends Task['kind']>(
  path: URL,
  task: Extract<Task, { kind: K }>,
  count: number,
  threads: number,
  progress: (share: number) => void,
): Promise<Outcome[K][]> {
  const results = new Array<Outcome[K]>(count);
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
        for (const [index, result] of pairs) results[index] = result;
        done += pairs.length;
        if (pairs.length > 0) progress(done / count);
        if (done === count) return end(() => resolve(results));
        const batch = Array.from({ length: Math.min(BATCH, count - next) }, (_, k) => next + k);
        next += batch.length;
        if (batch.length > 0) worker.postMessage(batch);
      });
    }
  });
}
