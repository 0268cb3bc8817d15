/**
 * Lakes on threads, one lake at a time on each. What ends a thread, be it an error of the program or its memory, ends one
 * lake: another thread takes its place.
 */

import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { reportFailure } from '../failure.ts';
import { doLake, type LakeTask } from './lake.ts';

/** How one lake went. */
export interface LakeEnd {
  name: string;
  how: 'done' | 'kept' | 'errors' | 'failed';
  /** of a failure: what to tell; null otherwise */
  why: string | null;
}

/** Does all lakes; `tell` is called after each, in the order in which they end. */
export async function doLakes(
  tasks: readonly LakeTask[],
  threads: number,
  tell: (end: LakeEnd) => void,
): Promise<void> {
  const path = new URL('./shoalwise-lakes.mjs', import.meta.url);
  // without the bundled module beside this one (in tests from source) on the calling thread
  if (!existsSync(path)) {
    for (const task of tasks) tell(await endOf(task));
    return;
  }
  let next = 0;
  const lane = async (): Promise<void> => {
    let worker: Worker | null = null;
    while (next < tasks.length) {
      const task = tasks[next++];
      worker ??= new Worker(path);
      const end = await onThread(worker, task);
      if (end.lost) worker = null;
      tell(end.end);
    }
    await worker?.terminate();
  };
  await Promise.all(Array.from({ length: Math.min(threads, tasks.length) }, lane));
}

/** On the calling thread. Never throws. */
export async function endOf(task: LakeTask): Promise<LakeEnd> {
  const { name, path } = task.lake;
  try {
    const { record, kept } = await doLake(task);
    if (record.numbers === null) return { name, how: 'errors', why: null };
    return { name, how: kept ? 'kept' : 'done', why: null };
  } catch (error) {
    let why = '';
    reportFailure(error, path, {
      out() {},
      err: (text) => (why += text),
      bold: false,
      live: false,
    });
    return { name, how: 'failed', why };
  }
}

function onThread(worker: Worker, task: LakeTask): Promise<{ end: LakeEnd; lost: boolean }> {
  return new Promise((resolve) => {
    const settle = (end: LakeEnd, lost: boolean): void => {
      worker.off('message', ended).off('error', broke).off('exit', left);
      resolve({ end, lost });
    };
    const failed = (why: string): void =>
      settle({ name: task.lake.name, how: 'failed', why: `${task.lake.path}: ${why}\n` }, true);
    const ended = (end: LakeEnd): void => settle(end, false);
    const broke = (error: Error): void => failed(`its thread ended: ${error.message}`);
    const left = (code: number): void => failed(`its thread ended with code ${code}`);
    worker.on('message', ended).on('error', broke).on('exit', left);
    worker.postMessage(task);
  });
}
