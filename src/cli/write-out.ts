/**
 * Results on disk, whole or not at all: written to a folder beside OUT, brought to the disk, then put in its place. A run that
 * was killed leaves the earlier result or the new one; what it had begun is cleared away by the next run.
 */

import { spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { existsSync, renameSync, rmSync } from 'node:fs';
import { mkdir, open, readdir, rm, rmdir, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { OutputError } from './core.ts';
import { whyUnwritten } from './failure.ts';
import { isWithin, type KindOfResult, refuseForeign } from './result-folder.ts';

/** Enough to find out that a disk is full; a result has a hundred times as much. */
const PROBE_BYTES = 65_536;

/**
 * Tries to write where the result will go, before hours are spent on it, and clears what killed runs left there.
 * @throws OutputError when nothing can be written there
 */
export async function tryOut(target: string): Promise<void> {
  const parent = dirname(target);
  const firstMade = await attempt(target, () => makeFolders(parent));
  try {
    await clearAbandoned(target);
    const probe = besideOut(target, 'partial');
    await attempt(target, async () => {
      try {
        await mkdir(probe);
        await writeThrough(join(probe, 'probe'), new Uint8Array(PROBE_BYTES));
      } finally {
        await rm(probe, { recursive: true, force: true });
      }
    });
  } finally {
    if (firstMade !== undefined) await removeEmptyUpTo(parent, firstMade);
  }
}

/**
 * Writes all files or none. An interruption (Ctrl-C) removes what was begun.
 * @throws OutputError when the disk does not take them; the earlier result is still there then
 */
export async function writeResult(
  target: string,
  files: Map<string, Uint8Array | string>,
  kind?: KindOfResult,
): Promise<void> {
  const parent = dirname(target);
  const firstMade = await attempt(target, () => makeFolders(parent));
  await clearAbandoned(target);
  const begun = besideOut(target, 'partial');
  const letGo = removeWhenInterrupted(begun);
  try {
    await attempt(target, async () => {
      await mkdir(begun);
      for (const [name, content] of files) await writeThrough(join(begun, name), content);
      await syncFolder(begun);
    });
    await refuseForeign(target, target, kind); // again: the estimate may have taken long
    await attempt(target, async () => {
      await makeFolders(parent); // somebody may have removed it meanwhile
      letGo(); // from here on the earlier result or the new one is there, whatever happens
      await putInPlace(begun, target);
      await syncFolder(parent);
    });
  } catch (error) {
    await rm(begun, { recursive: true, force: true }).catch(() => {});
    if (firstMade !== undefined) await removeEmptyUpTo(parent, firstMade);
    throw error;
  } finally {
    letGo();
  }
}

/**
 * A folder with those above it; returns the topmost that was made, undefined when all were there. One after the other, for
 * where the system keeps files of its own (/proc), a recursive mkdir of Node never ends.
 */
async function makeFolders(path: string): Promise<string | undefined> {
  const missing: string[] = [];
  for (let at = path; !existsSync(at); at = dirname(at)) missing.unshift(at);
  for (const folder of missing)
    await mkdir(folder).catch((error) => {
      if (!existsSync(folder)) throw error; // else another run made it meanwhile
    });
  return missing[0];
}

/** What a disk answers is told as it is, and is no fault of the program. */
async function attempt<T>(target: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    throw new OutputError(
      `${target}: the results cannot be written here (${whyUnwritten(error)}); nothing was changed`,
    );
  }
}

/** With the usual mode of new files; on the disk when it resolves. */
async function writeThrough(path: string, content: Uint8Array | string): Promise<void> {
  const file = await open(path, 'w');
  try {
    await writeFile(file, content);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** The names in a folder, brought to the disk; a system that cannot do that for folders goes without. */
async function syncFolder(path: string): Promise<void> {
  const folder = await open(path, 'r').catch(() => null);
  await folder?.sync().catch(() => {});
  await folder?.close();
}

/**
 * There is no way to exchange two folders in one go, so an earlier result is moved aside first. Both moves are made by a
 * process of their own: whoever kills this one, even with SIGKILL, does not come between them.
 */
async function putInPlace(begun: string, target: string): Promise<void> {
  if (!existsSync(target)) {
    renameSync(begun, target);
    return;
  }
  const old = besideOut(target, 'old');
  // Ctrl-C and a closed terminal reach a whole group of processes: this one has a group of its own
  const mover = spawn(process.execPath, ['-e', MOVES, begun, target, old], {
    detached: true,
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  let said = '';
  mover.stderr.on('data', (chunk: Buffer) => {
    said += chunk.toString();
  });
  const status = await new Promise<number | null>((done, fail) => {
    mover.once('error', fail);
    mover.once('close', done);
  });
  if (status !== 0) {
    const error: NodeJS.ErrnoException = new Error(said.trim());
    const code = /\bcode: '(E[A-Z]+)'/.exec(said)?.[1];
    if (code !== undefined) error.code = code;
    throw error;
  }
  rmSync(old, { recursive: true, force: true });
}

const MOVES = `
const { renameSync } = require('node:fs');
const [begun, target, old] = process.argv.slice(1);
renameSync(target, old);
try { renameSync(begun, target); } catch (error) { renameSync(old, target); throw error; }
`;

/** A hidden folder beside OUT that names whose it is: `.out.partial-host-1234-9f8e7d`. */
function besideOut(target: string, kind: 'partial' | 'old'): string {
  const own = `${thisHost()}-${process.pid}-${randomBytes(3).toString('hex')}`;
  return join(dirname(target), `.${basename(target)}.${kind}-${own}`);
}

function thisHost(): string {
  return (
    hostname()
      .replace(/[^A-Za-z0-9]/g, '')
      .slice(0, 20) || 'host'
  );
}

/**
 * What runs of this machine left beside OUT that are no longer there. An earlier result that a cut of the power caught
 * between its two moves goes back to its place.
 */
async function clearAbandoned(target: string): Promise<void> {
  const parent = dirname(target);
  const start = `.${basename(target)}.`;
  for (const name of await readdir(parent).catch((): string[] => [])) {
    if (!name.startsWith(start)) continue;
    const parts = /^(partial|old)-([A-Za-z0-9]+)-(\d+)-[0-9a-f]{6}$/.exec(name.slice(start.length));
    if (parts === null) continue;
    const [, kind, host, pid] = parts;
    if (host !== thisHost() || isRunning(Number(pid))) continue;
    const path = join(parent, name);
    if (kind === 'old' && !existsSync(target)) renameSync(path, target);
    else await rm(path, { recursive: true, force: true });
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

const REMOVALS = 40;
const PAUSE_MS = 50;

/**
 * A write that is under way in another thread may still put its file there: then once more, for 2 s at most. What is left
 * after that the next run clears away.
 */
function removeStubborn(folder: string): void {
  for (let i = 0; i < REMOVALS; i++) {
    try {
      rmSync(folder, { recursive: true, force: true });
      return;
    } catch {
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, PAUSE_MS);
    }
  }
}

function removeWhenInterrupted(folder: string): () => void {
  const signals = { SIGINT: 2, SIGTERM: 15, SIGHUP: 1 } as const;
  const handlers = Object.entries(signals).map(([signal, number]) => {
    const handler = () => {
      removeStubborn(folder);
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
