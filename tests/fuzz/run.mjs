/**
 * npm run fuzz -- --cases N --seed S [--kind check|estimate] [--from F] [--workers W]: spoils sound surveys at random and tells
 * what goes wrong. Each failure is kept under out/fuzz/ as the smallest folder that shows it. The same seed makes the same
 * cases; --from F begins at case F.
 */

import { mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { bundled } from './bundled.mjs';

const ROOT = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

const { values } = parseArgs({
  options: {
    cases: { type: 'string', default: '500' },
    seed: { type: 'string', default: '1' },
    kind: { type: 'string', default: 'check' },
    from: { type: 'string', default: '0' },
    workers: { type: 'string', default: '2' },
  },
});
if (!['check', 'estimate'].includes(values.kind)) {
  console.error(`--kind ${values.kind}: check or estimate expected`);
  process.exit(64);
}

const folder = join(ROOT, 'out', 'fuzz');
mkdirSync(folder, { recursive: true });
const { driver, program, remove } = await bundled(folder);
try {
  const { fuzz } = await import(pathToFileURL(driver).href);
  const begun = Date.now();
  let told = 0;
  const summary = await fuzz({
    root: ROOT,
    program,
    kind: values.kind,
    cases: whole('cases'),
    seed: whole('seed'),
    from: whole('from'),
    workers: whole('workers'),
    keep: folder,
    progress: (done, failures) => {
      for (; told < failures.length; told++) {
        const { number, problem, done: changes } = failures[told];
        console.log(`case ${number}: ${problem}\n  ${changes.join('\n  ')}`);
      }
      if (done % 500 === 0) console.error(`${done} cases, ${failures.length} failures`);
    },
  });
  const { codes, failures } = summary;
  console.log(
    `${summary.cases} cases of ${values.kind}, seed ${values.seed}: ${codes[0]} done, ${codes[2]} with errors in the data, ` +
      `${failures.length} failures; median ${Math.round(summary.medianMs)} ms, longest ${Math.round(summary.longestMs)} ms ` +
      `of processor time; ${Math.round((Date.now() - begun) / 1000)} s in all`,
  );
  process.exitCode = failures.length > 0 ? 1 : 0;
} finally {
  remove();
}

function whole(name) {
  const value = Number(values[name]);
  if (!Number.isSafeInteger(value) || value < 0) {
    console.error(`--${name} ${values[name]}: a whole number expected`);
    process.exit(64);
  }
  return value;
}
