/**
 * Where results may go: an OUT that exists is replaced only if it is empty or holds an earlier result of ours and nothing
 * else, and neither it nor a survey folder lies in the other.
 */

import { readdir, readFile, realpath, stat } from 'node:fs/promises';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import { AREA_FILES } from '../publish/areas.ts';
import { RESULT_FILES } from '../publish/index.ts';
import { OPEN_FILES } from '../publish/open/index.ts';
import { PLAN_FILES } from '../publish/plan-files.ts';
import { UsageError } from './core.ts';

/** What one command writes: every name it may give a file, and the file that says by its schema whose it is. */
export interface KindOfResult {
  names: readonly string[];
  signedBy: string;
  schema: RegExp;
}

const ESTIMATE: KindOfResult = {
  names: RESULT_FILES,
  signedBy: 'estimate.json',
  schema: /^shoalwise\/estimate\//,
};

export const AREAS: KindOfResult = {
  names: AREA_FILES,
  signedBy: 'areas.json',
  schema: /^shoalwise\/areas\//,
};

export const PLAN: KindOfResult = {
  names: PLAN_FILES,
  signedBy: 'plan.json',
  schema: /^shoalwise\/plan\//,
};

export const EXPORT: KindOfResult = {
  names: OPEN_FILES,
  signedBy: 'datapackage.json',
  schema: /^shoalwise\/export\//,
};

/** Left behind by file managers, and by GDAL beside a raster it measured. */
const NOT_ANYBODYS = /^(\.DS_Store|Thumbs\.db|desktop\.ini|grid\.tif\.aux\.xml)$/;

/**
 * Where a survey's results go. Throws UsageError when they would overwrite anything but an earlier result, or when OUT and
 * a survey folder lie within each other.
 */
export async function resultFolder(
  out: string,
  surveys: string[],
  kind = ESTIMATE,
): Promise<string> {
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
  await refuseForeign(out, target, kind);
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

/** Throws UsageError when OUT holds anything but an earlier result. */
export async function refuseForeign(out: string, target: string, kind = ESTIMATE): Promise<void> {
  const there = await stat(target).catch(() => null);
  if (there === null) return;
  if (!there.isDirectory())
    throw new UsageError(`${out}: this is a file, a folder for the results was expected`);
  const names = (await readdir(target)).filter((name) => !NOT_ANYBODYS.test(name));
  if (names.length === 0) return;
  if (!(await isOurs(target, kind)))
    throw new UsageError(
      `${out}: this folder is not empty and holds no earlier result; nothing was written, name another folder`,
    );
  const foreign = names.filter((name) => !kind.names.includes(name));
  if (foreign.length > 0)
    throw new UsageError(
      `${out}: besides an earlier result this folder holds "${foreign[0]}"${
        foreign.length > 1 ? ` and ${foreign.length - 1} more` : ''
      }, which would be lost; move it or name another folder`,
    );
}

async function isOurs(folder: string, { signedBy, schema }: KindOfResult): Promise<boolean> {
  try {
    const signed: unknown = JSON.parse(await readFile(join(folder, signedBy), 'utf8'));
    const own = (signed as { schema?: unknown } | null)?.schema;
    return typeof own === 'string' && schema.test(own);
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

export function isWithin(inner: string, outer: string): boolean {
  const way = relative(outer, inner);
  return way === '' || (way !== '..' && !way.startsWith(`..${sep}`) && !/^[a-z]:/i.test(way));
}
