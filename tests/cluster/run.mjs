/**
 * npm run cluster: figures of many lakes, too long for npm test (which has tests/cluster/*.test.ts: kills, and Slurm).
 *   slurm   seconds of an array of 8 tasks over 40 lakes, and of tasks that find nothing left to do
 *   memory  the greatest memory of a run on 100 and on 1,000 lakes
 *   pace    lakes a minute, as large as the demo lake
 * Parts by name; all without one.
 */

import { spawn, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { bundle } from '../../src/cli/bundle.mjs';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '../..');
const LAUNCH = join(ROOT, 'src/cli/launch.mjs');
/** So many that the threads' warming up, some 5 s each, is not what is measured. */
const PACE_LAKES = 40;
const room = mkdtempSync(join(tmpdir(), 'shoalwise-cluster-'));

const helper = async (name) => {
  const path = join(room, `${name}.mjs`);
  writeFileSync(path, await bundle(join(ROOT, 'tests/helpers', `${name}.ts`)));
  return import(pathToFileURL(path).href);
};
const { writeLakes } = await helper('many-lakes');
const { NO_SLURM, startSlurm } = await helper('slurm');
const { until } = await helper('until');

const PARTS = { slurm, memory, pace };
const asked = process.argv.slice(2);
for (const [name, part] of Object.entries(PARTS))
  if (asked.length === 0 || asked.includes(name)) await part();
rmSync(room, { recursive: true, force: true });

function batch(...args) {
  const done = spawnSync(process.execPath, [LAUNCH, 'batch', ...args], { encoding: 'utf8' });
  if (done.status !== 0 && done.status !== 2)
    throw new Error(`batch ended with ${done.status}: ${done.stderr}`);
  return done.stdout;
}

async function slurm() {
  if (NO_SLURM !== null) {
    console.log(`slurm: skipped, ${NO_SLURM}`);
    return;
  }
  const machine = await startSlurm(join(room, 'slurm-machine'));
  Object.assign(process.env, machine.env);
  try {
    const list = writeLakes(join(room, 'slurm'), 40, { faultyEvery: 20 });
    const out = join(room, 'slurm-out');
    for (const what of ['of five lakes', 'with nothing left to do']) {
      const began = Date.now();
      const [, job] = /Job (\d+) does/.exec(batch(list, '--out', out, '--slurm', '--tasks', '8'));
      await until(() => machine.ask('squeue', '--noheader').trim() === '', 600_000);
      const seconds = [
        ...machine
          .ask('scontrol', '--oneliner', 'show', 'job', job)
          .matchAll(/StartTime=(\S+) EndTime=(\S+)/g),
      ].map(([, from, to]) => (Date.parse(to) - Date.parse(from)) / 1000);
      const wholeS = ((Date.now() - began) / 1000).toFixed(0);
      console.log(`slurm: 8 tasks ${what} took ${seconds.join(', ')} s, all together ${wholeS} s`);
    }
  } finally {
    await machine.stop();
  }
}

async function memory() {
  for (const count of [100, 1000]) {
    const list = writeLakes(join(room, `memory-${count}`), count, { faultyEvery: 40 });
    const out = join(room, `memory-out-${count}`);
    const began = Date.now();
    const peak = await peakOf([LAUNCH, 'batch', list, '--out', out]);
    console.log(
      `memory: ${count} lakes, at most ${peak} MB (${((Date.now() - began) / 1000).toFixed(0)} s)`,
    );
  }
}

/** Greatest resident memory of a run, MB, as the system says while it runs. */
function peakOf(args) {
  const child = spawn(process.execPath, args, { stdio: 'ignore' });
  let most = 0;
  const timer = setInterval(() => {
    try {
      const status = readFileSync(`/proc/${child.pid}/status`, 'utf8');
      most = Math.max(most, Number(/VmHWM:\s+(\d+)/.exec(status)?.[1] ?? 0) / 1024);
    } catch {
      // it has ended
    }
  }, 50);
  return new Promise((done) =>
    child.once('close', () => {
      clearInterval(timer);
      done(Math.round(most));
    }),
  );
}

async function pace() {
  const surveys = join(room, 'pace');
  mkdirSync(surveys);
  const rows = ['folder'];
  for (let i = 1; i <= PACE_LAKES; i++) {
    const name = `lake-${i}`;
    cpSync(join(ROOT, 'demo-lake'), join(surveys, name), { recursive: true });
    rows.push(name);
  }
  const list = join(surveys, 'lakes.csv');
  writeFileSync(list, `${rows.join('\n')}\n`);
  const began = Date.now();
  batch(list, '--out', join(room, 'pace-out'));
  console.log(
    `pace: ${((PACE_LAKES * 60_000) / (Date.now() - began)).toFixed(1)} lakes a minute, as large as the demo lake`,
  );
}
