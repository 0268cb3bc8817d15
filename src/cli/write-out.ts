/**
 * Results on disk, whole or not at all: written to a folder beside OUT, then renamed. An OUT that exists is replaced only
 * if it is empty or holds an earlier result of ours and nothing else.
 */

import { mkdirSync, renameSync, rmSync } from 'node:fs';
import {
  mkdir,
  mkdtemp,
  readdir,
  readFile,
  realpath,
  rm,
  rmdir,
  stat,
  writeFile,
} from 'node:fs/promises';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import { RESULT_FILES } from '../publish/index.ts';
import { UsageError } from './core.ts';

const SCHEMA_OF_OURS = /^shoalwise\/estimate\//;

/** Left behind by file managers, and by GDAL beside a raster it measured. */
const NOT_ANYBODYS = /^(\.DS_Store|Thumbs\.db|desktop\.ini|grid\.tif\.aux\.xml)$/;

/**
 * Where a survey's results go. Throws UsageError when they would overwrite anything but an earlier result, or when OUT and
 * a survey folder lie within each other.
 */
export async function resultFolder(out: string, surveys: string[]): Promise<string> {
  const target = await settled(out);
  for (const survey of surveys) {
    const folder = await settled(survey);
    if (isWithin(target, folder))
      throw new UsageError(
        `${out}: the results cannot lie in the survey folder ${survey}; name another folder`,
      );
    if (isWithin(folder, target))
      throw new UsageError(
        `${out}: the survey folder ${survey} lies in it and would be replaced; name another folder`,
      );
  }
  if (isWithin(await settled('.'), target))
    throw new UsageError(
      `${out}: this is the folder you are in, or one above it; name a folder inside it`,
    );
  await refuseForeign(out, target);
  return target;
}

/** One result folder for each of several surveys, by their names; a name that comes twice gets a number. */
export function namesApart(names: string[]): string[] {
  const taken = new Set<string>();
  return names.map((name) => {
    let own = name;
    for (let n = 2; taken.has(own.toLowerCase()); n++) own = `${name}-${n}`;
    taken.add(own.toLowerCase());
    return own;
  });
}

/** Writes all files or none. An interruption (Ctrl-C) removes what was begun. */
export async function writeResult(
  target: string,
  files: Map<string, Uint8Array | string>,
): Promise<void> {
  const parent = dirname(target);
  const firstMade = await mkdir(parent, { recursive: true });
  const begun = await mkdtemp(join(parent, `.${basename(target)}.partial-`));
  const letGo = removeWhenInterrupted(begun);
  try {
    for (const [name, content] of files) await writeFile(join(begun, name), content);
    await refuseForeign(target, target); // again: the estimate may have taken long
    swap(begun, target);
  } catch (error) {
    await rm(begun, { recursive: true, force: true });
    if (firstMade !== undefined) await removeEmptyUpTo(parent, firstMade);
    throw error;
  } finally {
    letGo();
  }
}

/** Both renames in one go, without a pause in which a signal could be handled. */
function swap(begun: string, target: string): void {
  const old = `${begun}-old`;
  let moved = false;
  try {
    renameSync(target, old);
    moved = true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
  }
  try {
    mkdirSync(dirname(target), { recursive: true });
    renameSync(begun, target);
  } catch (error) {
    if (moved) renameSync(old, target);
    throw error;
  }
  if (moved) rmSync(old, { recursive: true, force: true });
}

async function refuseForeign(out: string, target: string): Promise<void> {
  const kind = await stat(target).catch(() => null);
  if (kind === null) return;
  if (!kind.isDirectory())
    throw new UsageError(`${out}: this is a file, a folder for the results was expected`);
  const names = (await readdir(target)).filter((name) => !NOT_ANYBODYS.test(name));
  if (names.length === 0) return;
  if (!(await isOurs(target)))
    throw new UsageError(
      `${out}: this folder is not empty and holds no earlier result; nothing was written, name another folder`,
    );
  const foreign = names.filter((name) => !(RESULT_FILES as readonly string[]).includes(name));
  if (foreign.length > 0)
    throw new UsageError(
      `${out}: besides an earlier result this folder holds "${foreign[0]}"${
        foreign.length > 1 ? ` and ${foreign.length - 1} more` : ''
      }, which would be lost; move it or name another folder`,
    );
}

async function isOurs(folder: string): Promise<boolean> {
  try {
    const estimate: unknown = JSON.parse(await readFile(join(folder, 'estimate.json'), 'utf8'));
    const schema = (estimate as { schema?: unknown } | null)?.schema;
    return typeof schema === 'string' && SCHEMA_OF_OURS.test(schema);
  } catch {
    return false;
  }
}

/** The real path of what exists, and below it the names of what does not exist yet. */
async function settled(path: string): Promise<string> {
  const full = resolve(path);
  try {
    return await realpath(full);
  } catch {
    const parent = dirname(full);
    return parent === full ? full : join(await settled(parent), basename(full));
  }
}

function isWithin(inner: string, outer: string): boolean {
  const way = relative(outer, inner);
  return way === '' || (way !== '..' && !way.startsWith(`..${sep}`) && !/^[a-z]:/i.test(way));
}

function removeWhenInterrupted(folder: string): () => void {
  const signals = { SIGINT: 2, SIGTERM: 15, SIGHUP: 1 } as const;
  const handlers = Object.entries(signals).map(([signal, number]) => {
    const handler = () => {
      rmSync(folder, { recursive: true, force: true });
      process.exit(128 + number);
    };
    process.once(signal, handler);
    return () => process.removeListener(signal, handler);
  });
  return () => {
    for (const remove of handlers) remove();
  };
}

/** Folders that were made for the result go too, as long as nothing else came to lie in them. */
async function removeEmptyUpTo(folder: string, last: string): Promise<void> {
  for (let path = folder; isWithin(path, last); path = dirname(path)) {
    try {
      await rmdir(path);
    } catch {
      return;
    }
  }
}
