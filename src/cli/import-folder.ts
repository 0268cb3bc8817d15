/** What is brought in, from disk; and where it may go: a new or empty folder, or an earlier import that nobody has worked on since. */

import { readdir, readFile, stat } from 'node:fs/promises';
import { basename, join, resolve } from 'node:path';
import type { GivenFile, ImportRecord } from '../../shared/importing.ts';
import { sha256 } from '../../shared/sha256.ts';
import { IMPORT_FILE, MOST_SURVEY_BYTES, SURVEY_FILES } from '../../shared/survey-files.ts';
import { InputError, UsageError } from './core.ts';
import { readGivenFile } from './given-file.ts';
import { isWithin, type KindOfResult, resultFolder } from './result-folder.ts';

export const IMPORT: KindOfResult = {
  names: SURVEY_FILES,
  signedBy: IMPORT_FILE,
  schema: /^shoalwise\/import\//,
};

/** Folders within folders are walked so deep, as agencies keep one map a folder. */
const DEEPEST = 4;
const MOST_FILES = 2_000;
const HIDDEN = /^\.|^__MACOSX$/;

/** The files that were named and those in folders that were named. @throws InputError for what is not there, or too much */
export async function givenFiles(paths: readonly string[]): Promise<GivenFile[]> {
  const found: string[] = [];
  for (const path of paths) await walk(path, 0, found);
  const byName = new Map<string, string>();
  for (const path of found) {
    const name = basename(path);
    const other = byName.get(name.toLowerCase());
    if (other !== undefined && resolve(other) !== resolve(path))
      throw new InputError(
        `${path}: another file of this name is brought in as well (${other}); rename one, or name fewer files`,
      );
    byName.set(name.toLowerCase(), path);
  }
  const files: GivenFile[] = [];
  let bytes = 0;
  for (const path of byName.values()) {
    const content = await readGivenFile(path);
    bytes += content.length;
    if (bytes > MOST_SURVEY_BYTES)
      throw new InputError(
        `${path}: with this file there are more than ${MOST_SURVEY_BYTES / 1e6} MB, more than a survey may have`,
      );
    files.push({ name: basename(path), bytes: content });
  }
  return files;
}

async function walk(path: string, depth: number, found: string[]): Promise<void> {
  const kind = await stat(path).catch(() => null);
  if (kind === null) throw new InputError(`${path}: there is no such file or folder`);
  if (kind.isFile()) {
    found.push(path);
    if (found.length > MOST_FILES)
      throw new InputError(`${path}: more than ${MOST_FILES} files are brought in with this one`);
    return;
  }
  if (!kind.isDirectory()) {
    if (depth > 0) return;
    throw new InputError(`${path}: neither a file nor a folder (a file expected)`);
  }
  if (depth > DEEPEST) return;
  for (const name of (await readdir(path)).sort())
    if (!HIDDEN.test(name)) await walk(join(path, name), depth + 1, found);
}

/** The folder that will hold the survey. @throws UsageError when anything would be lost there */
export async function importTarget(into: string, paths: readonly string[]): Promise<string> {
  const folders: string[] = [];
  for (const path of paths)
    if ((await stat(path).catch(() => null))?.isDirectory()) folders.push(path);
  const target = await resultFolder(into, folders, IMPORT);
  const inside = paths.find((path) => isWithin(resolve(path), target));
  if (inside !== undefined)
    throw new UsageError(
      `${into}: ${inside} lies in it and would be replaced; name another folder`,
    );
  await refuseChanged(into, target);
  return target;
}

/** Corrections that were made to an earlier import would be lost. */
async function refuseChanged(into: string, target: string): Promise<void> {
  const made = await madeBefore(target);
  if (made === null) return;
  for (const name of SURVEY_FILES) {
    if (name === IMPORT_FILE) continue;
    const bytes = await readFile(join(target, name)).catch(() => null);
    if (bytes !== null && made.get(name) !== sha256(bytes))
      throw new UsageError(
        `${into}: ${name} was changed since it was brought in, which would be lost; name another folder`,
      );
  }
}

async function madeBefore(target: string): Promise<Map<string, string> | null> {
  const bytes = await readFile(join(target, IMPORT_FILE)).catch(() => null);
  if (bytes === null) return null;
  const { made = [] } = JSON.parse(bytes.toString('utf8')) as Partial<ImportRecord>;
  return new Map(made.map(({ name, sha256: digest }) => [name, digest]));
}
