/** The whole command as a user starts it: the demo lake, and a lake of 2.4 million cells. */

import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bigLake } from './big-lake.ts';

/** Printed by the measured process itself when it ends: its largest memory, in kB. */
const TELL_MEMORY =
  "data:text/javascript,process.on('exit',()=>process.stderr.write('\\nmaxrss '+process.resourceUsage().maxRSS+'\\n'))";

export default function benches(root: string, folder: string) {
  const big = join(folder, 'big-lake');
  mkdirSync(big);
  for (const [name, text] of bigLake()) writeFileSync(join(big, name), text);

  return [
    command(root, folder, 'estimate the demo lake', join(root, 'demo-lake'), 5),
    command(root, folder, 'estimate a lake of 2.4 million cells', big, 3),
    { name: '--version', run: () => launch(root, ['--version']).ms },
  ];
}

function command(root: string, folder: string, name: string, survey: string, runs: number) {
  let memoryMB = 0;
  return {
    name,
    runs,
    run: () => {
      const done = launch(root, ['estimate', survey, '--out', join(folder, 'out')]);
      memoryMB = Math.max(memoryMB, done.memoryMB);
      return done.ms;
    },
    note: () => `at most ${memoryMB.toFixed(0)} MB`,
  };
}

function launch(root: string, args: string[]): { ms: number; memoryMB: number } {
  const start = performance.now();
  const done = spawnSync(
    process.execPath,
    ['--import', TELL_MEMORY, join(root, 'src/cli/launch.mjs'), ...args],
    { encoding: 'utf8', maxBuffer: 1 << 28 },
  );
  const ms = performance.now() - start;
  if (done.status !== 0) throw new Error(`exit ${done.status}: ${done.stderr}`);
  return { ms, memoryMB: Number(done.stderr.match(/maxrss (\d+)/)?.[1]) / 1024 };
}
