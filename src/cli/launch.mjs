#!/usr/bin/env node
/** The command `shoalwise`: brings the bundle of main.ts up to date, then runs it. Plain JavaScript, so that no build step is needed. */

import { dirname } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { commandLine } from './bundle.mjs';

const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

/** Built only when it is asked for. */
const application = async (tell) => (await import('./app-build.mjs')).siteFolder(root, tell);

try {
  const { path, remove } = await commandLine(root);
  let main;
  try {
    ({ main } = await import(pathToFileURL(path).href));
  } finally {
    remove();
  }
  process.exitCode = await main(process.argv.slice(2), undefined, undefined, application);
} catch (error) {
  const missing = error?.code === 'ERR_MODULE_NOT_FOUND';
  process.stderr.write(
    missing
      ? `shoalwise: a package is missing (${error.message}). Run npm ci in ${root} first.\n`
      : `shoalwise: could not start: ${error?.message ?? error}\n`,
  );
  if (process.env.SHOALWISE_DEBUG) process.stderr.write(`${error?.stack}\n`);
  process.exitCode = 1;
}
