/** Makes one file of the command line and everything it imports, once for each state of the sources. */

import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { viewerInBundle } from '../viewer/bundle.mjs';

/** What the bundle is made of; a folder's own time changes when a file in it is removed. */
const SOURCES = ['src', 'models', 'shared', 'package.json', 'package-lock.json'];

/** Modules of threads, beside the bundle. */
const THREADS = [
  ['shoalwise-worker.mjs', 'worker.ts'],
  ['shoalwise-lakes.mjs', 'batch/thread.ts'],
];

/** Packages written for require() find one. */
const BANNER =
  "import{createRequire as __createRequire}from'node:module';const require=__createRequire(import.meta.url);";

/**
 * Bundles `entry` into one module for Node 20 and returns its text.
 * @param {string} entry absolute path of a .ts file
 * @param {string[]} external packages that stay outside, to be found from where the text is put
 * @returns {Promise<string>}
 */
export async function bundle(entry, external = []) {
  const [text] = await bundles([entry], external);
  return text;
}

/** Several at once: what they share is read once. */
async function bundles(entries, external = []) {
  const { build } = await import('esbuild');
  const made = await build({
    entryPoints: entries.map((path, i) => ({ in: path, out: String(i) })),
    outdir: '.', // a name is needed where there are several; nothing is written
    bundle: true,
    external,
    plugins: [viewerInBundle],
    platform: 'node',
    format: 'esm',
    target: 'node20',
    banner: { js: BANNER },
    minifyWhitespace: true, // read at each start; names stay, for a trace that says where
    write: false,
    logLevel: 'error',
  });
  const numbered = made.outputFiles.map(({ path, text }) => [
    Number.parseInt(basename(path), 10),
    text,
  ]);
  return numbered.sort(([a], [b]) => a - b).map(([, text]) => text);
}

/**
 * The path of an up-to-date bundle of src/cli/main.ts: dist/shoalwise.mjs, made anew when missing or older than any source,
 * with its threads' modules beside it.
 * Where dist cannot be written (then without threads), a folder of its own under the system's temporary one, to be removed by `remove`.
 * @param {string} root the repository's folder
 * @returns {Promise<{ path: string, remove: () => void }>}
 */
export async function commandLine(root) {
  const path = join(root, 'dist', 'shoalwise.mjs');
  if (changedAt(path) > newest(SOURCES.map((name) => join(root, name))))
    return { path, remove: () => {} };

  const entries = ['main.ts', ...THREADS.map(([, entry]) => entry)];
  const [text, ...threads] = await bundles(entries.map((entry) => join(root, 'src/cli', entry)));
  try {
    THREADS.forEach(([name], i) => {
      writeWhole(join(root, 'dist', name), threads[i]);
    });
    writeWhole(path, text);
    return { path, remove: () => {} };
  } catch {
    const folder = mkdtempSync(join(tmpdir(), 'shoalwise-'));
    const other = join(folder, 'shoalwise.mjs');
    writeFileSync(other, text);
    return { path: other, remove: () => rmSync(folder, { recursive: true, force: true }) };
  }
}

/** Two commands may start at once: each writes a file of its own and renames it. */
function writeWhole(path, text) {
  mkdirSync(dirname(path), { recursive: true });
  const own = `${path}.${process.pid}`;
  try {
    writeFileSync(own, text);
    renameSync(own, path);
  } catch (error) {
    rmSync(own, { force: true });
    throw error;
  }
}

/** In ms; a file that cannot be there (its folder is a file) is as old as one that is not. */
function changedAt(path) {
  try {
    return statSync(path).mtimeMs;
  } catch {
    return Number.NEGATIVE_INFINITY;
  }
}

/** The latest change below these paths, in ms; a path that does not exist has none. */
function newest(paths) {
  let latest = Number.NEGATIVE_INFINITY;
  for (const path of paths) {
    const stat = statSync(path, { throwIfNoEntry: false });
    if (stat === undefined) continue;
    latest = Math.max(latest, stat.mtimeMs);
    if (stat.isDirectory())
      latest = Math.max(latest, newest(readdirSync(path).map((name) => join(path, name))));
  }
  return latest;
}
