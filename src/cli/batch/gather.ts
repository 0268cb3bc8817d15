/** What the lakes of a list came to, from their records alone: the same whoever did them, and in whatever order. */

import type { BatchFile, LakeRecord } from '../../../shared/batch.ts';
import { VERSION } from '../../../shared/version.ts';
import { PROGRAMME_LEVEL, programmeOf, programmeTogether } from '../../pipeline/programme.ts';
import { readSurveyFolder } from '../folder.ts';
import { type LakeTask, recordOf } from './lake.ts';

/** Reads one record after the other; a lake without one, or with that of other files, is missing. */
export async function gather(
  tasks: readonly LakeTask[],
  sharedDetection: boolean,
): Promise<BatchFile> {
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
    programme: {
      ...programmeOf(lakes, tasks.length, missing),
      ...(sharedDetection ? { shared_detection: await together(tasks, lakes) } : {}),
    },
    lakes,
  };
}

function lakeOf({ name, folder, numbers, errors }: LakeRecord): BatchFile['lakes'][number] {
  return { name, folder, numbers, errors };
}

/** Of those lakes that have a number. */
async function together(tasks: readonly LakeTask[], lakes: BatchFile['lakes']) {
  const withNumber = new Set(
    lakes.flatMap(({ name, numbers }) =>
      numbers !== null && numbers.detections > 0 ? [name] : [],
    ),
  );
  const own = tasks.filter(({ lake }) => withNumber.has(lake.name));
  return programmeTogether(
    own.map(
      ({ lake }) =>
        () =>
          readSurveyFolder(lake.path),
    ),
  );
}
