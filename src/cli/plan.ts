/** shoalwise plan DIR --cv X | --transects K | --minutes M --out OUT: the next dives, as a survey folder that is still to be dived. */

import { createHash } from 'node:crypto';
import { readFile, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { DETECTIONS, HABITAT, TRANSECTS } from '../../shared/tables.ts';
import type { PlanWishes, planSurvey } from '../pipeline/plan.ts';
import type { planStated } from '../pipeline/plan-stated.ts';
import { fieldSheets } from '../present/field-sheets.ts';
import { readPlan } from '../present/plan.ts';
import { fieldSheetsHtml, type Paper } from '../publish/field-sheets.ts';
import { planFiles, plannedFolder } from '../publish/plan-files.ts';
import { type Core, EXIT, InputError, type Terminal, UsageError, worst } from './core.ts';
import { eachFolder } from './each-folder.ts';
import { printFindings } from './finding-lines.ts';
import { planText } from './plan-text.ts';
import { pool } from './pool.ts';
import { PLAN, resultFolder } from './result-folder.ts';
import { tryOut, writeResult } from './write-out.ts';

export interface PlanAsked {
  folder: string;
  out: string;
  wishes: Omit<PlanWishes, 'seed' | 'noDive'>;
  /** null = that of analysis.json */
  seed: number | null;
  /** a GeoJSON file; null = the survey's own, if it has one */
  noDive: string | null;
  /** a JSON file of what is believed before any survey; null = the plan follows from the survey in the folder */
  stated: string | null;
  paper: Paper;
  threads: number | null;
  /** no error or notice is summed up */
  listAll: boolean;
}

/** The services of the pipeline, and the one that only this command asks for. */
export interface PlanCore extends Core {
  planSurvey: typeof planSurvey;
  planStated: typeof planStated;
}

/** Larger files hold nothing that somebody drew or wrote. */
const MOST_BYTES = 50_000_000;

const TABLES = [TRANSECTS.file, HABITAT.file, DETECTIONS.file];

/** Throws UsageError before anything is read when the plan has no place to go. */
export async function plan(core: PlanCore, terminal: Terminal, asked: PlanAsked): Promise<number> {
  const target = await resultFolder(asked.out, [asked.folder], PLAN);
  await refuseDived(asked.out, target);
  await tryOut(target);
  const noDive = asked.noDive === null ? null : await fileOf(asked.noDive, '--no-dive');
  const stated = asked.stated === null ? null : await fileOf(asked.stated, '--stated');
  const visits = await eachFolder(
    [asked.folder],
    terminal,
    async (folder, { prefix, progress }) => {
      const wishes = { ...asked.wishes, seed: asked.seed, noDive };
      const options = { progress: progress.report, runMany: pool(asked.threads ?? undefined) };
      const done =
        stated === null
          ? await core.planSurvey(folder, wishes, options)
          : await core.planStated(folder, stated, wishes, options);
      progress.clear();
      printFindings(done.findings, terminal, prefix, asked.listAll);
      if (!done.ok) return { code: EXIT.data, value: null };
      const tables = plannedFolder(done.plan, folder.files, noDive?.bytes ?? null);
      const written = digests(tables);
      const files = new Map<string, string | Uint8Array>([
        ...tables,
        ...planFiles({ ...done.plan, tables: written }, done.result),
        ['sheets.html', sheetsOf(core, tables, folder.name, asked.paper)],
      ]);
      await writeResult(target, files, PLAN);
      terminal.out(planText(readPlan(done.plan), terminal.bold));
      terminal.out(`\nWritten to ${target}\n\n`);
      return { code: EXIT.done, value: null };
    },
  );
  return worst(visits.map((v) => v.code));
}

function sheetsOf(
  core: Core,
  tables: ReadonlyMap<string, string | Uint8Array>,
  name: string,
  paper: Paper,
): string {
  const bytes = new Map([...tables].map(([file, content]) => [file, asBytes(content)]));
  const { survey } = core.readPlanned(bytes, name);
  return fieldSheetsHtml(
    fieldSheets(survey, { observers: null, blank: 0, detectionPages: 1 }),
    paper,
  );
}

const asBytes = (content: string | Uint8Array): Uint8Array =>
  typeof content === 'string' ? new TextEncoder().encode(content) : content;

function digests(tables: ReadonlyMap<string, string | Uint8Array>): Record<string, string> {
  return Object.fromEntries(
    TABLES.flatMap((file) => {
      const content = tables.get(file);
      return content === undefined ? [] : [[file, digest(content)]];
    }),
  );
}

const digest = (content: string | Uint8Array): string =>
  createHash('sha256').update(content).digest('hex');

/** Dives that were typed into an earlier plan are never replaced. */
async function refuseDived(out: string, target: string): Promise<void> {
  const text = await readFile(join(target, 'plan.json'), 'utf8').catch(() => null);
  if (text === null) return;
  const { tables = {} } = JSON.parse(text) as { tables?: Record<string, string> };
  for (const file of TABLES) {
    const content = await readFile(join(target, file)).catch(() => null);
    if (content !== null && digest(content) !== tables[file])
      throw new UsageError(
        `${out}: ${file} was changed since it was planned, dives may be in it; nothing was written, name another folder`,
      );
  }
}

async function fileOf(path: string, option: string): Promise<{ name: string; bytes: Uint8Array }> {
  const kind = await stat(path).catch(() => null);
  if (kind === null) throw new InputError(`${path}: there is no such file (${option})`);
  if (!kind.isFile()) throw new InputError(`${path}: a file is expected (${option})`);
  if (kind.size > MOST_BYTES)
    throw new InputError(`${path}: more than ${MOST_BYTES / 1e6} MB (${option})`);
  return { name: basename(path), bytes: await readFile(path) };
}
