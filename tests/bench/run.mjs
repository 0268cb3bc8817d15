/**
 * npm run bench [name…]: bundles each tests/bench/*.bench.ts, runs what it lists, prints a table. Seeded, no assertion:
 * the machine decides how fast is fast. A name runs only the files that hold it.
 */

import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { bundle } from '../../src/cli/bundle.mjs';

const HERE = dirname(fileURLToPath(import.meta.url));
const ROOT = dirname(dirname(HERE));
const DEFAULT_RUNS = 5;
/** Cannot be bundled: found in node_modules from out/. */
const OUTSIDE = ['playwright-core', 'vitest'];

const wanted = process.argv.slice(2);
const files = readdirSync(HERE)
  .filter((name) => name.endsWith('.bench.ts'))
  .filter((name) => wanted.length === 0 || wanted.some((w) => name.includes(w)));

console.log(
  `Node ${process.version}, ${cpus()[0]?.model ?? 'unknown processor'}, ${cpus().length} cores\n`,
);
for (const file of files) await runFile(file);

/**
 * A bench file's default export is a function of the repository's folder; it returns (or promises) a list of
 * `{ name, run, runs?, note? }`: `run` does the work once (and may return milliseconds of its own measuring),
 * `note` tells what came out besides time; `end` closes what it opened. The first of a list is the one that ratios refer to.
 */
async function runFile(file) {
  mkdirSync(join(ROOT, 'out'), { recursive: true });
  const folder = mkdtempSync(join(ROOT, 'out', 'bench-'));
  try {
    const path = join(folder, 'bench.mjs');
    writeFileSync(path, await bundle(join(HERE, file), OUTSIDE));
    const { default: list } = await import(pathToFileURL(path).href);
    console.log(file.replace('.bench.ts', ''));
    const rows = [];
    for (const bench of await list(ROOT, folder)) {
      const row = await measured(bench);
      // a file of minutes: what is known by now, and that it goes on
      console.error(`  ${row.name}: ${figure(row.median)} ms`);
      rows.push(row);
    }
    console.log(table(rows));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function measured({ name, run, runs = DEFAULT_RUNS, note, end }) {
  const times = [];
  await run(); // the first run compiles
  for (let i = 0; i < runs; i++) {
    const start = performance.now();
    const own = await run();
    times.push(typeof own === 'number' ? own : performance.now() - start);
  }
  await end?.();
  times.sort((a, b) => a - b);
  return {
    name,
    median: times[Math.floor(times.length / 2)],
    min: times[0],
    max: times.at(-1),
    note: note?.(times[Math.floor(times.length / 2)]) ?? '',
  };
}

function table(rows) {
  const first = rows[0]?.median;
  const cells = [
    ['', 'median ms', 'min', 'max', 'ratio', ''],
    ...rows.map((r) => [
      r.name,
      figure(r.median),
      figure(r.min),
      figure(r.max),
      (r.median / first).toPrecision(3),
      r.note,
    ]),
  ];
  const widths = cells[0].map((_, i) => Math.max(...cells.map((row) => row[i].length)));
  return `${cells
    .map((row) =>
      row
        .map((cell, i) => (i === 0 || i === 5 ? cell.padEnd(widths[i]) : cell.padStart(widths[i])))
        .join('  ')
        .trimEnd(),
    )
    .map((line) => `  ${line}`)
    .join('\n')}\n`;
}

function figure(ms) {
  return ms >= 100 ? ms.toFixed(0) : ms.toPrecision(3);
}
