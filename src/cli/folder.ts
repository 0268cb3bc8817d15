/** A survey folder on disk → its files in memory. */

import { readFile, stat } from 'node:fs/promises';
import { basename, join, resolve } from 'node:path';
import { SURVEY_FILES } from '../../shared/survey-files.ts';
import type { KnownTruth } from '../pipeline.ts';
import { type Folder, InputError } from './core.ts';

/** Reads the survey's files that are there. Throws InputError when `path` is not a folder or a file cannot be read. */
export async function readSurveyFolder(path: string): Promise<Folder> {
  const kind = await stat(path).catch(() => null);
  if (kind === null) throw new InputError(`${path}: there is no such folder`);
  if (!kind.isDirectory())
    throw new InputError(`${path}: this is a file, a survey folder was expected`);
  const files = new Map<string, Uint8Array>();
  for (const name of SURVEY_FILES) {
    const bytes = await readIfThere(join(path, name));
    if (bytes !== null) files.set(name, bytes);
  }
  return { name: folderName(path), files };
}

/** The folder's own name, also for `.` and for a path with a slash at its end. */
export function folderName(path: string): string {
  return basename(resolve(path)) || 'survey';
}

async function readIfThere(path: string): Promise<Uint8Array | null> {
  try {
    return await readFile(path);
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT' || code === 'EISDIR') return null;
    throw new InputError(`${path}: cannot be read (${message})`);
  }
}

/** Parameters that a survey was simulated from, and what they amount to; null when the folder has no truth.json. */
export async function readTruth(path: string): Promise<KnownTruth | null> {
  const file = join(path, 'truth.json');
  const bytes = await readIfThere(file);
  if (bytes === null) return null;
  let truth: Partial<KnownTruth> | null;
  try {
    truth = JSON.parse(new TextDecoder().decode(bytes));
  } catch (error) {
    throw new InputError(`${file}: not valid JSON (${(error as Error).message})`);
  }
  for (const key of ['density', 'detection', 'cluster_size', 'clusters', 'mussels'] as const) {
    if (truth?.[key] === undefined) throw new InputError(`${file}: "${key}" is missing`);
  }
  return truth as KnownTruth;
}
