/** Builds the map application into dist/app when it is missing or older than any of its sources. Plain JavaScript, like the launcher. */

import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** What the page is made of; a folder's own time changes when a file in it is removed. */
const SOURCES = [
  'index.html',
  'vite.config.ts',
  'package-lock.json',
  'public',
  'demo-lake',
  'src',
  'models',
  'shared',
];

/**
 * The folder of the built application.
 * @param {string} root the repository's folder
 * @param {(text: string) => void} tell where to say that it takes a while
 * @returns {Promise<string>}
 */
export async function applicationFolder(root, tell) {
  const folder = join(root, 'dist', 'app');
  if (isCurrent(root, folder)) return folder;
  tell('Building the map application …\n');
  process.env.NODE_ENV = 'production'; // whatever this was started from: a build for use
  const { build } = await import('vite');
  // two may be started at once: each builds a folder of its own; who comes second finds that of the first
  const own = `${folder}-${process.pid}`;
  removeBroken(dirname(folder));
  const configFile = join(root, 'vite.config.ts');
  try {
    await build({ root, configFile, logLevel: 'error', build: { outDir: own } });
    if (isCurrent(root, folder)) rmSync(own, { recursive: true, force: true });
    else swap(own, folder);
  } catch (error) {
    rmSync(own, { recursive: true, force: true });
    throw error;
  }
  return folder;
}

/** What builds left behind that were interrupted: folders named after a process that is no more. */
function removeBroken(dist) {
  if (!existsSync(dist)) return;
  for (const name of readdirSync(dist)) {
    const pid = /^app-(\d+)(-old)?$/.exec(name)?.[1];
    if (pid !== undefined && !isAlive(Number(pid)))
      rmSync(join(dist, name), { recursive: true, force: true });
  }
}

function isAlive(pid) {
  try {
    process.kill(pid, 0); // asks only
    return true;
  } catch (error) {
    return error.code === 'EPERM';
  }
}

function swap(own, folder) {
  const old = `${own}-old`;
  mkdirSync(folder, { recursive: true });
  renameSync(folder, old);
  renameSync(own, folder);
  rmSync(old, { recursive: true, force: true });
}

function isCurrent(root, folder) {
  const page = join(folder, 'index.html');
  if (!existsSync(page)) return false;
  const made = statSync(page).mtimeMs;
  return SOURCES.every((name) => newest(join(root, name)) <= made);
}

/** The latest change of a file, or of anything in a folder, in ms. */
function newest(path) {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (stat === undefined) return Number.NEGATIVE_INFINITY;
  if (!stat.isDirectory()) return stat.mtimeMs;
  return readdirSync(path).reduce(
    (latest, name) => Math.max(latest, newest(join(path, name))),
    stat.mtimeMs,
  );
}
