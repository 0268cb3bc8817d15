/** One thread of the pool: makes the task's function once, then works off the numbers it is sent. */

import { parentPort, workerData } from 'node:worker_threads';
import { performer, type Task } from '../../models/index.ts';

const perform = performer(workerData as Task);

parentPort?.on('message', (indices: number[]) => {
  parentPort?.postMessage(indices.map((index) => [index, perform(index)]));
});
parentPort?.postMessage([]); // ready
