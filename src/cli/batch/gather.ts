/** What the lakes of a list came to, from their records alone: the same whoever did them, and in whatever order. */

import type { BatchFile, LakeRecord } from '../../../shared/batch.ts';
import { VERSION } from '../../../shared/version.ts';
import { PROGRAMME_LEVEL, programmeOf } from '../../pipeline/programme.ts';
import { type LakeTask, recordOf } from './lake.ts';

/** Reads one record after the other; a lake without one, or with that of other files, is missing. */
export async function gather(tasks: readonly LakeTask[]): Promise<BatchFile> {
  const lakes: BatchFile['lakes'] = [];
  const missing: string[] = [];
  for (const task of tasks) {
    const record = await recordOf(task);
    if (record === null) missing.push(task.lake.name);
    else lakes.push(lakeOf(record));
  }
  return {
    schema: 'shoalwise/batch/1',
    version: VERSION,
    interval: PROGRAMME_LEVEL,
    programme: programmeOf(lakes, tasks.length, missing),
    lakes,
  };
}

function lakeOf({ name, folder, numbers, errors }: LakeRecord): BatchFile['lakes'][number] {
  return { name, folder, numbers, errors };
}
