/**
 * The whole import, run anew for every set of answers: what was read → questions, and the files of the survey once none is
 * open. Nothing is applied before.
 */

import { errorAt, type Finding, hasErrors } from '../../shared/findings.ts';
import type { ImportOutcome } from '../../shared/importing.ts';
import { IMPORT_FILE } from '../../shared/survey-files.ts';
import { type Answered, askerWith } from './ask.ts';
import type { Given } from './read-given.ts';
import { recordText } from './record.ts';

export async function importSurvey(given: Given, asked: Answered): Promise<ImportOutcome> {
  // those of an import.json among the files stand behind what is answered now
  const answers = new Map([...given.answers, ...asked.answers]);
  const asker = askerWith({ ...asked, answers });
  const findings: Finding[] = [...given.findings];
  const remarks: string[] = [];
  const files = new Map(given.kept);
  if (files.size === 0) findings.push(nothingToBringIn(given));

  const questions = asker.asked();
  const applied = !hasErrors(findings) && questions.every(({ answer }) => answer !== null);
  if (applied)
    files.set(
      IMPORT_FILE,
      new TextEncoder().encode(recordText(given.sources, questions, remarks, files)),
    );
  return { questions, findings, remarks, files: applied ? files : null };
}

function nothingToBringIn({ sources }: Given): Finding {
  return errorAt(
    { table: sources[0]?.name ?? 'import' },
    'nothing-to-bring-in',
    'nothing of a survey was found in these files (sheets, maps of the lake, waypoints or a survey folder expected)',
  );
}
