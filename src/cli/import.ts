/**
 * shoalwise import FILES… --into DIR: sheets, maps and GPS files become a survey folder. What could be read in two ways is
 * asked; nothing is written while a question is open.
 */

import { stat } from 'node:fs/promises';
import { basename, resolve } from 'node:path';
import { hasErrors } from '../../shared/findings.ts';
import {
  type Answer,
  type AskedQuestion,
  type GivenFile,
  notProposed,
} from '../../shared/importing.ts';
import { formatCount } from '../../shared/units.ts';
import { visible } from '../../shared/words.ts';
import { verdict } from './check.ts';
import { type Core, EXIT, type Terminal, UsageError } from './core.ts';
import { printFindings } from './finding-lines.ts';
import { folderName } from './folder.ts';
import { readGivenFile } from './given-file.ts';
import { givenFiles, IMPORT, importTarget } from './import-folder.ts';
import { ANSWERS_SCHEMA, answersJson, questionsText } from './import-text.ts';
import { wrap } from './text.ts';
import { refuseOthers, writeFiles } from './write-files.ts';
import { tryOut, writeResult } from './write-out.ts';

/** The one error of maps that came without sheets: an estimate must wait for the dives, the import is done. */
const NO_DIVES = 'no-transects';

export interface ImportCommand {
  files: string[];
  into: string;
  /** import.json of an earlier import, or a list that was filled in */
  answersFile: string | null;
  /** by identifier, as typed */
  answers: [string, string][];
  /** questions whose proposal is taken */
  accepted: string[];
  /** `--yes` */
  acceptCertain: boolean;
  /** where all questions are to be written, to be filled in */
  writeAnswers: string | null;
  listAll: boolean;
}

/** Throws UsageError before anything is read when there is no place for the survey. */
export async function importFiles(
  core: Core,
  terminal: Terminal,
  asked: ImportCommand,
): Promise<number> {
  const target = await importTarget(asked.into, asked.files);
  await refuseList(asked);
  const given = await core.readGivenFiles(await givenFiles(asked.files));
  const earlier = asked.answersFile === null ? null : await answersIn(core, asked.answersFile);
  if (earlier !== null && hasErrors(earlier.findings)) {
    printFindings(earlier.findings, terminal, '', true);
    return EXIT.data;
  }
  const typed = new Map(earlier?.answers);
  const settings = { accepted: new Set(asked.accepted), acceptCertain: asked.acceptCertain };
  const name = folderName(asked.into);
  const first = await core.importGiven(given, { ...settings, answers: typed }, name);
  const answers = withTyped(typed, asked.answers, first.questions);
  const done =
    asked.answers.length === 0
      ? first
      : await core.importGiven(given, { ...settings, answers }, name);
  refuseUnknown(asked, done.questions);

  printFindings(done.findings, terminal, '', asked.listAll);
  if (asked.writeAnswers !== null)
    await writeFiles(new Map([[asked.writeAnswers, answersJson(done.questions)]]));
  if (done.files === null) {
    tellOpen(terminal, done.questions, asked);
    return EXIT.data;
  }
  for (const remark of done.remarks) terminal.out(`${wrap(visible(remark), '', '  ')}\n`);
  await tryOut(target);
  const { findings, ok } = done.judged!;
  const errors = findings.filter(({ severity }) => severity === 'error');
  if (errors.every(({ code }) => code === NO_DIVES) && !ok) {
    await writeResult(target, done.files, IMPORT);
    terminal.out(`Written to ${target}\n${name}: the lake alone; it has no dives yet\n`);
    return EXIT.done;
  }
  printFindings(findings, terminal, `${name}/`, asked.listAll);
  await writeResult(target, done.files, IMPORT);
  terminal.out(`Written to ${target}\n${name}: ${verdict(findings, ok)}\n`);
  if (!ok) terminal.out(`shoalwise serve ${asked.into} shows each in its cell.\n`);
  return ok ? EXIT.done : EXIT.data;
}

function tellOpen(
  terminal: Terminal,
  questions: readonly AskedQuestion[],
  { writeAnswers }: ImportCommand,
): void {
  const open = questions.filter(({ answer }) => answer === null);
  if (open.length > 0) terminal.out(`\n${questionsText(open)}\n`);
  const certain = open.filter(
    ({ question }) =>
      question.certain && question.proposal !== null && notProposed(question).length === 0,
  );
  const lines = [
    open.length === 0
      ? 'Nothing was written.'
      : `${formatCount(open.length)} ${open.length === 1 ? 'question is' : 'questions are'} open; nothing was written.`,
    ...(certain.length === 0
      ? []
      : [`--yes accepts the ${formatCount(certain.length)} marked certain.`]),
    ...(open.length === 0
      ? []
      : [
          writeAnswers === null
            ? '--write-answers FILE writes all of them as a file to fill in, for --answers FILE.'
            : `Fill in ${writeAnswers} and name it by --answers.`,
        ]),
  ];
  terminal.out(`${wrap(lines.join(' '))}\n`);
}

async function answersIn(core: Core, path: string) {
  const file: GivenFile = { name: basename(path), bytes: await readGivenFile(path, '--answers') };
  return core.readAnswersFile(file);
}

/** The answer of a list that is meant: in any case of its letters, a coordinate system also by its bare number. */
function meant(text: string, options: readonly { value: string }[]): string {
  const typed = [text, `EPSG:${text}`].map((one) => one.trim().toLowerCase());
  return options.find(({ value }) => typed.includes(value.toLowerCase()))?.value ?? text;
}

/** A number is an answer in words unless its question wants a number. */
function withTyped(
  earlier: ReadonlyMap<string, Answer>,
  typed: readonly [string, string][],
  questions: readonly AskedQuestion[],
): Map<string, Answer> {
  const answers = new Map(earlier);
  for (const [id, text] of typed) {
    const asked = questions.find(({ question }) => question.id === id);
    if (asked?.question.kind !== 'number') {
      const options = asked?.question.kind === 'choice' ? asked.question.options : [];
      answers.set(id, meant(text, options));
      continue;
    }
    const value = Number(text);
    if (text.trim() === '' || !Number.isFinite(value))
      throw new UsageError(`--answer ${id}: ${text} is not a number (${asked.question.unit})`);
    answers.set(id, value);
  }
  return answers;
}

/** A slip in an identifier would leave its question open without a word. */
function refuseUnknown(
  { answers, accepted }: ImportCommand,
  questions: readonly AskedQuestion[],
): void {
  const ids = new Set(questions.map(({ question }) => question.id));
  const unknown = [...answers.map(([id]) => id), ...accepted].find((id) => !ids.has(id));
  if (unknown !== undefined)
    throw new UsageError(`${visible(unknown)}: there is no such question; nothing was written`);
}

/** A list that somebody filled in is replaced only where its answers are brought along. */
async function refuseList({ writeAnswers, answersFile }: ImportCommand): Promise<void> {
  if (writeAnswers === null) return;
  await refuseOthers([writeAnswers], ANSWERS_SCHEMA);
  const there = (await stat(writeAnswers).catch(() => null)) !== null;
  const same = answersFile !== null && resolve(answersFile) === resolve(writeAnswers);
  if (there && !same)
    throw new UsageError(
      `${writeAnswers}: this list is there already; name it by --answers as well, so that its answers are kept, or name another file`,
    );
}
