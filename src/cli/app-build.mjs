/**
 * Builds the map application when it is missing or older than any of its sources: dist/site/, a folder for a server, and
 * dist/shoalwise.html, the same in one file. Plain JavaScript, like the launcher.
 */

import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';

/** What the page is made of; a folder's own time changes when a file in it is removed. */
const SOURCES = [
  'index.html',
  'vite.config.ts',
  'vite.one-file.config.ts',
  'vite.parts.ts',
  'package-lock.json',
  'public',
  'demo-lake',
  'src',
  'models',
  'shared',
];

/**
 * The folder of the application, as it is served here and as any static host may serve it.
 * @param {string} root the repository's folder
 * @param {(text: string) => void} tell where to say that it takes a while
 * @returns {Promise<string>}
 */
export async function siteFolder(root, tell) {
  const folder = join(root, 'dist', 'site');
  const current = () => isCurrent(root, join(folder, 'index.html'));
  if (current()) return folder;
  tell('Building the map application …\n');
  await built(root, 'site', 'vite.config.ts', (own) => {
    if (!current()) swap(own, folder);
  });
  return folder;
}

/**
 * The path of the application in one file.
 * @param {string} root the repository's folder
 * @param {(text: string) => void} tell where to say that it takes a while
 * @returns {Promise<string>}
 */
export async function oneFile(root, tell) {
  const file = join(root, 'dist', 'shoalwise.html');
  if (isCurrent(root, file)) return file;
  tell('Building the application in one file …\n');
  await built(root, 'one-file', 'vite.one-file.config.ts', (own) => {
    renameSync(join(own, 'index.html'), file);
  });
  return file;
}

/** Two may be started at once: each builds a folder of its own; `take` puts what is in it into its place. */
async function built(root, what, config, take) {
  process.env.NODE_ENV = 'production'; // whatever this was started from: a build for use
  const { build } = await import('vite');
  const dist = join(root, 'dist');
  const own = join(dist, `${what}-${process.pid}`);
  removeBroken(dist);
  try {
    const configFile = join(root, config);
    await build({ root, configFile, logLevel: 'error', build: { outDir: own } });
    take(own);
  } finally {
    rmSync(own, { recursive: true, force: true });
  }
}

/** What builds left behind that were interrupted: folders named after a process that is no more. */
function removeBroken(dist) {
  if (!existsSync(dist)) return;
  for (const name of readdirSync(dist)) {
    const pid = /^(?:site|one-file)-(\d+)(?:-old)?$/.exec(name)?.[1];
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

function isCurrent(root, page) {
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
