/** A survey folder on disk → its files in memory. */

import { constants } from 'node:fs';
import { open, realpath, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
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

/** One of the survey's files; null when it is not there. Throws InputError when it cannot be read or is no file of the folder. */
export async function readSurveyFile(folder: string, name: string): Promise<Uint8Array | null> {
  return (SURVEY_FILES as readonly string[]).includes(name)
    ? readIfThere(join(folder, name))
    : null;
}

/** The survey's files that can be read, with what changes when one of them does. */
export async function surveyFileStates(
  folder: string,
): Promise<{ name: string; size: number; mtimeMs: number }[]> {
  const states: { name: string; size: number; mtimeMs: number }[] = [];
  for (const name of SURVEY_FILES) {
    const file = await ownPath(join(folder, name))
      .then((path) => stat(path))
      .catch(() => null);
    if (file?.isFile()) states.push({ name, size: file.size, mtimeMs: file.mtimeMs });
  }
  return states;
}

/** The folder's own name, also for `.` and for a path with a slash at its end. */
export function folderName(path: string): string {
  return basename(resolve(path)) || 'survey';
}

/** Does not wait for the other end of a pipe, and follows no link that was put there meanwhile. */
const OPEN = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0) | (constants.O_NOFOLLOW ?? 0);

/**
 * The bytes of a regular file of its folder; null when there is none, or a folder in its place. A link is followed within
 * the folder only: what is served must not be read from elsewhere.
 */
async function readIfThere(path: string): Promise<Uint8Array | null> {
  try {
    const file = await open(await ownPath(path), OPEN);
    try {
      const kind = await file.stat();
      if (kind.isDirectory()) return null;
      if (!kind.isFile())
        throw new InputError(`${path}: a pipe or device, not a file (a file expected)`);
      return await file.readFile();
    } finally {
      await file.close();
    }
  } catch (error) {
    if (error instanceof InputError) throw error;
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT' || code === 'EISDIR') return null;
    throw new InputError(`${path}: cannot be read (${message})`);
  }
}

/** Where a name of a folder leads; throws when that is nowhere, or out of the folder. */
async function ownPath(path: string): Promise<string> {
  const real = await realpath(path);
  if (dirname(real) !== (await realpath(dirname(path))))
    throw new InputError(`${path}: a link out of the folder (a file in it expected)`);
  return real;
}

/** Parameters that a survey was simulated from, and what they amount to; null when the folder has no truth.json. */
export async function readTruth(path: string): Promise<KnownTruth | null> {
  const file = join(path, 'truth.json');
  const bytes = await readIfThere(file);
  if (bytes === null) return null;
  let truth: Partial<KnownTruth> | null;
  try {
    const read = JSON.parse(new TextDecoder().decode(bytes));
    // the demo lake's says more, and has what it was drawn from under a name of its own
    truth = read?.parameters === undefined ? read : { ...read, ...read.parameters };
  } catch (error) {
    throw new InputError(`${file}: not valid JSON (${(error as Error).message})`);
  }
  for (const key of ['density', 'detection', 'cluster_size', 'clusters', 'mussels'] as const) {
    if (truth?.[key] === undefined) throw new InputError(`${file}: "${key}" is missing`);
  }
  return truth as KnownTruth;
}
