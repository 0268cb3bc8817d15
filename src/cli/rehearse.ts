/** shoalwise rehearse DIR… --surveys N: what this design can deliver on this lake. */

import { resolve } from 'node:path';
import { type RehearsalSummary, readStudy, type StudyRead } from '../present/simulation-study.ts';
import { type Core, EXIT, type Folder, InputError, type Terminal, worst } from './core.ts';
import { eachFolder } from './each-folder.ts';
import { printFindings } from './finding-lines.ts';
import { readTruth } from './folder.ts';
import { handedOver, type PartsAsked, runnerFor } from './in-parts.ts';
import { columns, wrap } from './text.ts';

export interface RehearseAsked {
  folders: string[];
  surveys: number;
  fromTruth: boolean;
  threads: number | null;
  json: boolean;
  /** no error or notice is summed up */
  listAll: boolean;
  /** null = in one piece */
  parts: PartsAsked | null;
}

/** A table a folder to standard output (or, with `json`, the summaries). */
export async function rehearse(
  core: Core,
  terminal: Terminal,
  asked: RehearseAsked,
): Promise<number> {
  const words = ['rehearse', ...asked.folders.map((path) => resolve(path))];
  words.push('--surveys', String(asked.surveys));
  if (asked.fromTruth) words.push('--from-truth');
  if (asked.json) words.push('--json');
  if (await handedOver(asked.parts, words, terminal)) return EXIT.done;
  const visits = await eachFolder<RehearsalSummary>(
    asked.folders,
    terminal,
    async (folder, { index, prefix, progress }) => {
      const truth = asked.fromTruth ? await truthBeside(asked.folders[index], folder) : null;
      const done = await core.rehearseSurvey(folder, asked.surveys, truth, {
        progress: progress.report,
        runMany: runnerFor(asked.parts, asked.threads),
      });
      progress.clear();
      if (!done.ok) {
        printFindings(done.findings, terminal, prefix, asked.listAll);
        return { code: EXIT.data, value: null };
      }
      if (!asked.json)
        terminal.out(studyText(readStudy(folder.name, done.summary, asked.fromTruth, done.level)));
      return { code: EXIT.done, value: done.summary };
    },
  );
  if (asked.json) {
    const all = visits.map((v) => ({ folder: v.path, rehearsal: v.value }));
    terminal.out(`${JSON.stringify(all.length === 1 ? all[0].rehearsal : all, null, 2)}\n`);
  }
  return worst(visits.map((v) => v.code));
}

async function truthBeside(path: string, folder: Folder) {
  const truth = await readTruth(path);
  if (truth === null) {
    throw new InputError(
      `${folder.name}: truth.json is missing (--from-truth simulates from it; leave the option out to simulate from the fitted model)`,
    );
  }
  return truth;
}

function studyText({ title, sentence, rows, notes }: StudyRead): string {
  const sides = rows[0]?.map((_, i) => (i === 0 ? ('left' as const) : ('right' as const))) ?? [];
  const said = sentence === null ? notes : [sentence, ...notes];
  const lines = [wrap(title), columns(rows, sides, '  '), ...said.map((note) => wrap(note, '  '))];
  return `${lines.join('\n')}\n\n`;
}
