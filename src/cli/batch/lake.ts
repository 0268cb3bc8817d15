/**
 * One lake of a batch: estimated and written whole, or its errors kept, so that neither is done again while its files, the
 * choices and the version are the same.
 */

import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { LakeRecord } from '../../../shared/batch.ts';
import { type Finding, formatFinding } from '../../../shared/findings.ts';
import { sha256 } from '../../../shared/sha256.ts';
import { VERSION } from '../../../shared/version.ts';
import { estimateSurvey } from '../../pipeline.ts';
import { lakeNumbers } from '../../present/lake-numbers.ts';
import { finiteJson } from '../../publish/finite-json.ts';
import { publish, RESULT_FILES } from '../../publish/index.ts';
import { type Folder, InputError } from '../core.ts';
import { readSurveyFolder } from '../folder.ts';
import type { KindOfResult } from '../result-folder.ts';
import { writeResult } from '../write-out.ts';
import type { LakeToDo } from './list.ts';

export const LAKE_FILE = 'lake.json';

/** What one lake leaves in its folder. */
export const LAKE: KindOfResult = {
  names: [...RESULT_FILES, LAKE_FILE],
  signedBy: LAKE_FILE,
  schema: /^shoalwise\/lake\//,
};

/** Choices of a run that change what is written. */
export interface LakeChoices {
  /** bootstrap replicates; null: as each lake's analysis says */
  replicates: number | null;
}

export interface LakeTask {
  lake: LakeToDo;
  /** folder of all lakes' results */
  lakes: string;
  choices: LakeChoices;
}

/** `kept`: it had been done before. @throws InputError, OutputError and errors of the program */
export async function doLake({
  lake,
  lakes,
  choices,
}: LakeTask): Promise<{ record: LakeRecord; kept: boolean }> {
  const target = join(lakes, lake.name);
  const folder = await readOrNull(lake.path);
  const key = keyOf(folder, choices);
  const before = await readRecord(target);
  if (before !== null && before.key === key) return { record: before, kept: true };
  const listed = { schema: 'shoalwise/lake/1', name: lake.name, folder: lake.folder, key } as const;
  if ('error' in folder) {
    const record: LakeRecord = { ...listed, numbers: null, errors: [folder.error] };
    await writeLake(target, record, new Map());
    return { record, kept: false };
  }
  const done = await estimateSurvey(
    folder,
    choices.replicates === null ? {} : { replicates: choices.replicates },
  );
  if (!done.ok) {
    const record: LakeRecord = { ...listed, numbers: null, errors: errorsOf(done.findings) };
    await writeLake(target, record, new Map());
    return { record, kept: false };
  }
  const record: LakeRecord = { ...listed, numbers: lakeNumbers(done.result), errors: [] };
  await writeLake(
    target,
    record,
    publish(done.result, { held: done.held, ahead: await done.ahead() }),
  );
  return { record, kept: false };
}

/** Of a lake that was done with these files and choices; null otherwise. */
export async function recordOf({ lake, lakes, choices }: LakeTask): Promise<LakeRecord | null> {
  const record = await readRecord(join(lakes, lake.name));
  if (record === null) return null;
  return record.key === keyOf(await readOrNull(lake.path), choices) ? record : null;
}

/** A folder that cannot be read is an error of this lake, as one in its data. */
async function readOrNull(path: string): Promise<Folder | { error: string }> {
  try {
    return await readSurveyFolder(path);
  } catch (error) {
    if (error instanceof InputError) return { error: error.message };
    throw error;
  }
}

function keyOf(folder: Folder | { error: string }, choices: LakeChoices): string {
  const files =
    'error' in folder
      ? folder.error
      : [...folder.files].map(([name, bytes]) => [name, sha256(bytes)]).sort();
  return sha256(new TextEncoder().encode(JSON.stringify([VERSION, choices, files])));
}

async function readRecord(target: string): Promise<LakeRecord | null> {
  try {
    const record = JSON.parse(await readFile(join(target, LAKE_FILE), 'utf8')) as LakeRecord;
    return LAKE.schema.test(record.schema) ? record : null;
  } catch {
    return null;
  }
}

async function writeLake(
  target: string,
  record: LakeRecord,
  files: Map<string, Uint8Array | string>,
): Promise<void> {
  await writeResult(target, new Map([...files, [LAKE_FILE, finiteJson(record)]]), LAKE);
}

function errorsOf(findings: readonly Finding[]): string[] {
  return findings.filter((f) => f.severity === 'error').map(formatFinding);
}
