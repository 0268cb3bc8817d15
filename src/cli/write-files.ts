/**
 * Single files that a person named: each is written beside its place and put there whole. A file that is there already is
 * replaced only if it is an earlier one of ours.
 */

import { mkdir, open, rename, rm, stat, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { OutputError, UsageError } from './core.ts';
import { whyUnwritten } from './failure.ts';

/** Within so many bytes from its beginning a file of ours says what it is. */
const HEAD_BYTES = 2048;

/**
 * @param mark what a file of ours has in its beginning
 * @throws UsageError when something else lies there
 */
export async function refuseOthers(paths: readonly string[], mark: string): Promise<void> {
  for (const path of paths) {
    const there = await stat(path).catch(() => null);
    if (there === null) continue;
    if (!there.isFile())
      throw new UsageError(`${path}: this is a folder, the name of a file was expected`);
    if (!(await beginning(path)).includes(mark))
      throw new UsageError(
        `${path}: there is a file of this name that is none of ours; nothing was written, name another`,
      );
  }
}

async function beginning(path: string): Promise<string> {
  const file = await open(path, 'r');
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(HEAD_BYTES), 0, HEAD_BYTES, 0);
    return buffer.toString('utf8', 0, bytesRead);
  } finally {
    await file.close();
  }
}

/** Path → text. @throws OutputError when the disk does not take one; those before it stay */
export async function writeFiles(files: ReadonlyMap<string, string>): Promise<void> {
  for (const [path, text] of files) {
    const begun = `${path}.partial-${process.pid}`;
    try {
      await mkdir(dirname(path), { recursive: true });
      await writeFile(begun, text);
      await rename(begun, path);
    } catch (error) {
      await rm(begun, { force: true }).catch(() => {});
      throw new OutputError(`${path}: cannot be written (${whyUnwritten(error)})`);
    }
  }
}
