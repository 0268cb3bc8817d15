/** Files as somebody has them → a survey folder, by questions. The readers of many formats are loaded when somebody imports. */

import type { GivenFile, ImportOutcome } from '../../shared/importing.ts';
import type { Answered, Given, GivenAnswers } from '../import/index.ts';
import { type Judged, judge } from './judge.ts';

/** Sheets, maps and GPS files as somebody has them; read once, before anything is asked. */
export async function readGivenFiles(files: readonly GivenFile[]): Promise<Given> {
  const { readGiven } = await import('../import/index.ts');
  return readGiven(files);
}

/** Answers of an earlier import, or of a list that somebody filled in. */
export async function readAnswersFile(file: GivenFile): Promise<GivenAnswers> {
  const { readAnswers } = await import('../import/index.ts');
  return readAnswers(file);
}

export interface Imported extends ImportOutcome {
  /** what reading and checks say of the survey that was made; null where none was */
  judged: Pick<Judged, 'findings' | 'ok'> | null;
}

/** The survey that follows from the answers, judged like any other before it is written anywhere. */
export async function importGiven(given: Given, asked: Answered, name: string): Promise<Imported> {
  const { importSurvey } = await import('../import/index.ts');
  const outcome = await importSurvey(given, asked);
  if (outcome.files === null) return { ...outcome, judged: null };
  const { findings, ok } = await judge({ name, files: outcome.files });
  return { ...outcome, judged: { findings, ok } };
}
