/**
 * npm start: sets up if needed, estimates the demo lake, prints the truth beside the estimate, and serves the map with the
 * demo lake in it (`npm start -- --no-serve` ends before that). Plain JavaScript: it runs before set-up.
 */

import { spawn, spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { setUp } from './set-up.mjs';

const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const demo = join(root, 'demo-lake');
const out = join(root, 'out', 'demo-lake');

process.exitCode = await run(process.argv.slice(2));

async function run(args) {
  if (!setUp(root)) return 1;
  const launch = join(root, 'src', 'cli', 'launch.mjs');
  const estimate = spawnSync(process.execPath, [launch, 'estimate', demo, '--out', out], {
    stdio: 'inherit',
  });
  if (estimate.status !== 0) return estimate.status ?? 1;

  const result = JSON.parse(readFileSync(join(out, 'estimate.json'), 'utf8'));
  const truth = JSON.parse(readFileSync(join(demo, 'truth.json'), 'utf8'));
  process.stdout.write(
    [
      '',
      'The demo lake is invented, so the truth is known',
      besides('mussels', result.abundance?.mussels ?? null, truth.mussels),
      besides('clusters', result.abundance?.clusters ?? null, truth.clusters),
      '',
      `The results are in ${relative(process.cwd(), out) || out}; report.html reads best.`,
      'Your own survey: npx shoalwise serve FOLDER, or',
      '                 npx shoalwise estimate FOLDER --out RESULTS',
      '',
    ].join('\n'),
  );
  if (args.includes('--no-serve')) return 0;
  return served([launch, 'serve', demo, '--no-estimate', ...args]);
}

/** Ctrl-C reaches the server too; this process waits until it has stopped. */
function served(args) {
  const server = spawn(process.execPath, args, { stdio: 'inherit' });
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'])
    process.on(signal, () => {
      if (signal !== 'SIGINT' || !process.stdin.isTTY) server.kill(signal);
    });
  return new Promise((done) => server.once('exit', (code) => done(code ?? 1)));
}

/** One line: the estimate, its interval, the truth, and on which side of the interval it fell. */
function besides(noun, quantity, truth) {
  if (quantity === null) return `  ${noun}: no estimate; truth ${figure(truth)}`;
  const { estimate, lower, upper } = quantity;
  if (lower === null || upper === null)
    return `  ${noun}: estimate ${figure(estimate)} without an interval; truth ${figure(truth)}`;
  const side =
    truth < lower
      ? 'below the interval'
      : truth > upper
        ? 'above the interval'
        : 'within the interval';
  return `  ${noun}: estimate ${figure(estimate)} (${figure(lower)} to ${figure(upper)}); truth ${figure(truth)}, ${side}`;
}

function figure(x) {
  return Number(x.toPrecision(3)).toLocaleString('en');
}
