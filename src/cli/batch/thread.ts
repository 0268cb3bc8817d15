/** One thread of a batch: does the lakes that it is sent. */

import { parentPort } from 'node:worker_threads';
import type { LakeTask } from './lake.ts';
import { endOf } from './lanes.ts';

parentPort?.on('message', async (task: LakeTask) => {
  parentPort?.postMessage(await endOf(task));
});
