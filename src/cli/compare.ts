/** shoalwise compare DIR1 DIR2 … --out OUT: what changed between surveys of one lake, and how sure that is. */

import { basename } from 'node:path';
import { hasErrors } from '../../shared/findings.ts';
import type { Answer, AskedQuestion } from '../../shared/importing.ts';
import { formatCount } from '../../shared/units.ts';
import type { CompareAsked, compareSurveys } from '../pipeline/compare.ts';
import { readChange } from '../present/change.ts';
import { CHANGE_FILES, changeFiles } from '../publish/change.ts';
import { changeText } from './compare-text.ts';
import { type Core, EXIT, type Folder, type Terminal } from './core.ts';
import { printFindings } from './finding-lines.ts';
import { folderName, readSurveyFolder } from './folder.ts';
import { readGivenFile } from './given-file.ts';
import { ANSWERS_SCHEMA, answersJson, questionsText } from './import-text.ts';
import { pool } from './pool.ts';
import { progressLine } from './progress.ts';
import { type KindOfResult, namesApart, resultFolder } from './result-folder.ts';
import { wrap } from './text.ts';
import { refuseOthers, writeFiles } from './write-files.ts';
import { tryOut, writeResult } from './write-out.ts';

export interface CompareCommand {
  folders: string[];
  out: string;
  /** change of an earlier comparison's answers, or a list that was filled in */
  answersFile: string | null;
  /** questions whose proposal is taken */
  accepted: string[];
  /** `--yes` */
  acceptCertain: boolean;
  /** where all questions are to be written, to be filled in */
  writeAnswers: string | null;
  /** a GeoJSON file of what was treated between the surveys */
  treated: string | null;
  listAll: boolean;
  threads: number | null;
}

const CHANGE: KindOfResult = {
  names: CHANGE_FILES,
  signedBy: 'change.json',
  schema: /^shoalwise\/change\//,
};

/** Throws UsageError before anything is read when the files have no place to go. */
export async function compare(
  core: Pick<Core, 'readAnswersFile'> & { compareSurveys: typeof compareSurveys },
  terminal: Terminal,
  asked: CompareCommand,
): Promise<number> {
  const target = await resultFolder(asked.out, asked.folders, CHANGE);
  if (asked.writeAnswers !== null) await refuseOthers([asked.writeAnswers], ANSWERS_SCHEMA);
  await tryOut(target);
  const earlier = await answersIn(core, asked.answersFile);
  if (hasErrors(earlier.findings)) {
    printFindings(earlier.findings, terminal, '', true);
    return EXIT.data;
  }
  const progress = progressLine(terminal, 'compare');
  const answered: CompareAsked['answered'] = {
    answers: earlier.answers,
    accepted: new Set(asked.accepted),
    acceptCertain: asked.acceptCertain,
  };
  const folders = await surveysIn(asked.folders);
  const treated = asked.treated === null ? null : await fileAt(asked.treated, '--treated');
  const done = await core.compareSurveys(
    folders,
    { answered, treated, withMaps: true },
    { progress: progress.report, runMany: pool(asked.threads ?? undefined) },
  );
  progress.clear();
  printFindings(done.findings, terminal, '', asked.listAll);
  if (!done.ok) return EXIT.data;
  if (asked.writeAnswers !== null)
    await writeFiles(new Map([[asked.writeAnswers, answersJson(done.questions)]]));
  if (done.file === null) {
    terminal.out(openText(done.questions));
    return EXIT.data;
  }
  await writeResult(target, changeFiles(done.file, done.maps), CHANGE);
  terminal.out(changeText(readChange(done.file), terminal.bold));
  terminal.out(`\nWritten to ${target}\n\n`);
  return done.file.pairs.length === 0 ? EXIT.data : EXIT.done;
}

async function surveysIn(paths: readonly string[]): Promise<Folder[]> {
  const names = namesApart(paths.map(folderName));
  const folders: Folder[] = [];
  for (const [i, path] of paths.entries())
    folders.push({ ...(await readSurveyFolder(path)), name: names[i] });
  return folders;
}

async function answersIn(core: Pick<Core, 'readAnswersFile'>, path: string | null) {
  if (path === null) return { answers: new Map<string, Answer>(), findings: [] };
  return core.readAnswersFile(await fileAt(path, '--answers'));
}

async function fileAt(path: string, option: string): Promise<{ name: string; bytes: Uint8Array }> {
  return { name: basename(path), bytes: await readGivenFile(path, option) };
}

function openText(questions: readonly AskedQuestion[]): string {
  const open = questions.filter(({ answer }) => answer === null);
  const count = `${formatCount(open.length)} ${open.length === 1 ? 'question is' : 'questions are'} open; nothing was written.`;
  const how =
    '--accept ID takes what is proposed, --yes all that is marked certain; --write-answers FILE writes a list to fill in, for --answers FILE.';
  return `\n${questionsText(open)}\n${wrap(`${count} ${how}`)}\n`;
}
