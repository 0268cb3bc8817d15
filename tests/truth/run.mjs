/** npm run study [-- SURVEYS [NAME]]: bundles the study beside the command line's worker and runs it on all cores. */

import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { bundle, commandLine } from '../../src/cli/bundle.mjs';

const here = dirname(fileURLToPath(import.meta.url));
await commandLine(join(here, '..', '..')); // brings dist/ with the worker up to date
const path = join(here, '..', '..', 'dist', 'study.mjs');
writeFileSync(path, await bundle(join(here, 'study', 'study.ts')));
const { main } = await import(pathToFileURL(path).href);
await main(process.argv.slice(2));
