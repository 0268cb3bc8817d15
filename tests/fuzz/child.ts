/** The process in which cases run: told one case at a time, it answers with how it went. */

import { folderOf } from './cases.ts';
import { outcomeOf } from './judge.ts';
import type { Answer, Asked } from './pool.ts';
import { soundSurveys } from './surveys.ts';

const surveys = soundSurveys(process.argv[2] ?? '.');

async function answer({ id, asked }: Asked): Promise<Answer> {
  const { files } = folderOf(asked, surveys);
  const before = process.cpuUsage();
  const outcome = await outcomeOf({ name: 'survey', files }, asked.kind);
  const { user, system } = process.cpuUsage(before);
  return { id, ...outcome, ms: (user + system) / 1000 };
}

process.on('message', (asked: Asked) => {
  answer(asked).then(
    (told) => process.send?.(told),
    (error) => {
      throw error;
    },
  );
});
