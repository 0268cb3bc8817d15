/** npm run build: the application as one file and as a folder for any static host, with their sizes. Plain JavaScript: it runs before set-up. */

import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { setUp } from './set-up.mjs';

const ROOT = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

process.exitCode = await run();

async function run() {
  if (!setUp(ROOT)) return 1;
  const { oneFile, siteFolder } = await import('./app-build.mjs');
  const tell = (text) => process.stderr.write(text);
  const site = await siteFolder(ROOT, tell);
  const file = await oneFile(ROOT, tell);
  const parts = readdirSync(site, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
  process.stdout.write(
    [
      `${relative(ROOT, file)}  ${sizes([file])}: opens by a double click, with no server and no network`,
      `${relative(ROOT, site)}/  ${sizes(parts)} in ${parts.length} files: for any static host`,
      '',
    ].join('\n'),
  );
  return 0;
}

function sizes(paths) {
  const contents = paths.map((path) => readFileSync(path));
  const sum = (of) => (contents.reduce((all, content) => all + of(content), 0) / 1e6).toFixed(2);
  return `${sum((content) => content.length)} MB (gzip ${sum((content) => gzipSync(content).length)})`;
}
