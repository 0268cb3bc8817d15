/** shoalwise estimate DIR… --out OUT: the whole job, each folder's results written whole or not at all. */

import { join, resolve } from 'node:path';
import type { EstimateFile } from '../../shared/result.ts';
import type { Language } from '../../shared/strings/languages.ts';
import { type OverviewRow, overviewRow } from '../present/overview.ts';
import { variantNamed } from '../present/variants.ts';
import { finiteJson } from '../publish/finite-json.ts';
import { estimateFile, publish } from '../publish/index.ts';
import { type Core, EXIT, type Terminal, worst } from './core.ts';
import { eachFolder, type Visit } from './each-folder.ts';
import { printFindings } from './finding-lines.ts';
import { folderName } from './folder.ts';
import { handedOver, type PartsAsked, runnerFor } from './in-parts.ts';
import { keepVariant } from './keep-variant.ts';
import { overview } from './overview.ts';
import { namesApart, resultFolder } from './result-folder.ts';
import { summary } from './summary.ts';
import { tryOut, writeResult } from './write-out.ts';

export interface EstimateAsked {
  folders: string[];
  json: boolean;
  /** no error or notice is summed up */
  listAll: boolean;
  out: string | null;
  /** bootstrap replicates; null = as analysis.json says */
  replicates: number | null;
  reselect: boolean;
  /** the analysis is kept in the survey as a variant of this name; null = it is not */
  keepAs: string | null;
  /** of the short report and of the report's first page */
  language: Language;
  /** null = one a core */
  threads: number | null;
  /** null = in one piece */
  parts: PartsAsked | null;
}

/** What is kept of a folder's result until all are done. */
interface Done {
  estimate: EstimateFile;
  row: OverviewRow;
}

/** Throws UsageError before anything is read when a result has no place to go. */
export async function estimate(
  core: Core,
  terminal: Terminal,
  asked: EstimateAsked,
): Promise<number> {
  if (await handedOver(asked.parts, wordsOf(asked), terminal)) return EXIT.done;
  const targets = await resultFolders(asked);
  for (const target of targets ?? []) await tryOut(target);
  const visits = await eachFolder<Done>(
    asked.folders,
    terminal,
    async (folder, { index, prefix, progress }) => {
      const done = await core.estimateSurvey(folder, {
        progress: progress.report,
        runMany: runnerFor(asked.parts, asked.threads),
        reselect: asked.reselect,
        compareOutside: true,
        ...(asked.replicates === null ? {} : { replicates: asked.replicates }),
      });
      progress.clear();
      if (!done.ok) {
        printFindings(done.findings, terminal, prefix, asked.listAll);
        return { code: EXIT.data, value: null };
      }
      printFindings(done.result.findings, terminal, prefix, asked.listAll);
      if (asked.keepAs !== null)
        done.result.variants = await keepVariant(
          asked.folders[index],
          folder,
          variantNamed(asked.keepAs, done.result),
          done.result.variants,
        );
      const target = targets?.[index];
      if (target !== undefined)
        await writeResult(
          target,
          publish(done.result, {
            language: asked.language,
            held: done.held,
            ahead: await done.ahead(),
          }),
        );
      if (!asked.json) {
        terminal.out(summary(done.result, { bold: terminal.bold }));
        if (target !== undefined) terminal.out(`\nWritten to ${target}\n\n`);
      }
      const { result } = done;
      return {
        code: EXIT.done,
        value: { estimate: estimateFile(result), row: overviewRow(result) },
      };
    },
  );
  if (asked.json) terminal.out(asJson(visits));
  else if (visits.length > 1) {
    terminal.out(
      overview(visits.map(({ name, code, value }) => ({ name, code, row: value?.row ?? null }))),
    );
  }
  return worst(visits.map((v) => v.code));
}

/** The same command again, for a process elsewhere. */
function wordsOf({ folders, out, json, replicates, reselect, language }: EstimateAsked): string[] {
  const words = ['estimate', ...folders.map((path) => resolve(path)), '--language', language];
  if (out !== null) words.push('--out', resolve(out));
  if (json) words.push('--json');
  if (replicates !== null) words.push('--bootstrap', String(replicates));
  if (reselect) words.push('--reselect');
  return words;
}

/** OUT itself for one folder, OUT/NAME for several, all judged before the work begins. */
async function resultFolders({ folders, out }: EstimateAsked): Promise<string[] | null> {
  if (out === null) return null;
  if (folders.length === 1) return [await resultFolder(out, folders)];
  const targets: string[] = [];
  for (const name of namesApart(folders.map(folderName)))
    targets.push(await resultFolder(join(out, name), folders));
  return targets;
}

/** One folder: estimate.json as it would be written (nothing when there is none). Several: a list in their order. */
function asJson(visits: Visit<Done>[]): string {
  if (visits.length === 1) {
    const value = visits[0]?.value ?? null;
    return value === null ? '' : finiteJson(value.estimate);
  }
  return `${JSON.stringify(
    visits.map((v) => ({ folder: v.path, estimate: v.value?.estimate ?? null })),
    null,
    2,
  )}\n`;
}
