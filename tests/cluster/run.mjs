/**
 * npm run cluster: many lakes as programmes have them, too long for npm test. Prints figures; exits 1 where bytes differ.
 *   kills   200 small lakes of which 5 have errors, killed at random and started again, against an undisturbed run
 *   slurm   40 lakes as an array of 8 tasks, one process killed on the way and one task requeued, against threads
 *   memory  the greatest memory of a run on 100 and on 1,000 lakes
 *   pace    lakes a minute, as large as the demo lake
 * Parts by name; all without one. Slurm needs root and Debian's slurmctld, slurmd, slurm-client and munge.
 */

import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { bundle } from '../../src/cli/bundle.mjs';

const HERE = dirname(fileURLToPath(import.meta.url));
const ROOT = join(HERE, '../..');
const LAUNCH = join(ROOT, 'src/cli/launch.mjs');
const room = mkdtempSync(join(tmpdir(), 'shoalwise-cluster-'));
let wrong = 0;

const helpers = join(room, 'helpers.mjs');
writeFileSync(helpers, await bundle(join(ROOT, 'tests/helpers/many-lakes.ts')));
const { filesBelow, writeLakes } = await import(pathToFileURL(helpers).href);

const PARTS = { kills, slurm, memory, pace };
const asked = process.argv.slice(2);
for (const [name, part] of Object.entries(PARTS))
  if (asked.length === 0 || asked.includes(name)) await part();
rmSync(room, { recursive: true, force: true });
process.exitCode = wrong === 0 ? 0 : 1;

function batch(...args) {
  const done = spawnSync(process.execPath, [LAUNCH, 'batch', ...args], { encoding: 'utf8' });
  if (done.status !== 0 && done.status !== 2)
    throw new Error(`batch ended with ${done.status}: ${done.stderr}`);
  return done.stdout;
}

function same(what, one, other) {
  const [a, b] = [filesBelow(one), filesBelow(other)];
  for (const files of [a, b])
    for (const name of [...files.keys()]) if (name.startsWith('slurm/')) files.delete(name);
  const names = new Set([...a.keys(), ...b.keys()]);
  const differing = [...names].filter((name) => a.get(name) !== b.get(name));
  if (differing.length > 0) wrong++;
  console.log(
    differing.length === 0
      ? `${what}: the same bytes in ${names.size} files`
      : `${what}: ${differing.length} of ${names.size} files differ, as ${differing[0]}`,
  );
}

async function kills() {
  const list = writeLakes(join(room, 'kills'), 200, 40);
  const whole = join(room, 'kills-whole');
  const began = Date.now();
  batch(list, '--out', whole);
  const undisturbedS = (Date.now() - began) / 1000;
  const out = join(room, 'kills-out');
  let killed = 0;
  let code = null;
  while (code === null) {
    const child = spawn(process.execPath, [LAUNCH, 'batch', list, '--out', out], {
      stdio: 'ignore',
    });
    const ended = new Promise((done) => child.once('close', (status) => done(status)));
    const pause = new Promise((done) =>
      setTimeout(() => done('kill'), 1000 + Math.random() * 400 * undisturbedS),
    );
    const first = await Promise.race([ended, pause]);
    if (first !== 'kill') code = first;
    else {
      child.kill('SIGKILL');
      await ended;
      killed++;
    }
  }
  console.log(
    `kills: 200 lakes, 5 with errors: ${undisturbedS.toFixed(0)} s undisturbed, killed ${killed} times`,
  );
  same('kills', whole, out);
}

async function slurm() {
  const place = join(room, 'slurm-machine');
  const started = spawnSync('bash', [join(HERE, 'slurm-start.sh'), place], { encoding: 'utf8' });
  if (started.status !== 0) {
    console.log(`slurm: skipped, it did not start: ${started.stderr.trim().split('\n').at(-1)}`);
    return;
  }
  process.env.SLURM_CONF = join(place, 'slurm.conf');
  try {
    const list = writeLakes(join(room, 'slurm'), 40, 20);
    const threads = join(room, 'slurm-threads');
    batch(list, '--out', threads);
    const out = join(room, 'slurm-out');
    const began = Date.now();
    const said = batch(list, '--out', out, '--slurm', '--tasks', '8');
    const job = /Job (\d+) does/.exec(said)[1];
    await until(() => processesOf(list).length > 0);
    process.kill(processesOf(list)[0], 'SIGKILL');
    await until(() => stateOf(`${job}_8`) === 'RUNNING' || stateOf(`${job}_8`) === 'COMPLETED');
    execFileSync('scontrol', ['requeue', `${job}_8`]);
    execFileSync('scontrol', ['update', `JobId=${job}_8`, 'StartTime=now']);
    await until(() => execFileSync('squeue', ['--noheader'], { encoding: 'utf8' }).trim() === '');
    const wholeS = (Date.now() - began) / 1000;
    console.log(
      `slurm: 40 lakes in 8 tasks, a process killed and a task requeued: ${wholeS.toFixed(0)} s`,
    );
    console.log(`slurm: tasks took ${secondsOf(job)} s`);
    same('slurm', threads, out);
    // all lakes are done: what is left is what a task costs by itself
    const again = /Job (\d+) does/.exec(batch(list, '--out', out, '--slurm', '--tasks', '8'))[1];
    await until(() => execFileSync('squeue', ['--noheader'], { encoding: 'utf8' }).trim() === '');
    console.log(`slurm: tasks with nothing left to do took ${secondsOf(again)} s`);
  } finally {
    spawnSync('bash', [join(HERE, 'slurm-stop.sh'), place]);
  }
}

/** Numbers of the processes that work on a list. */
function processesOf(list) {
  const { stdout } = spawnSync('pgrep', ['-f', `^${process.execPath} .*batch ${list}`], {
    encoding: 'utf8',
  });
  return stdout.split('\n').filter(Boolean).map(Number);
}

function stateOf(task) {
  const { stdout } = spawnSync('scontrol', ['--oneliner', 'show', 'job', task], {
    encoding: 'utf8',
  });
  return /JobState=(\S+)/.exec(stdout)?.[1] ?? null;
}

function secondsOf(job) {
  const { stdout } = spawnSync('scontrol', ['--oneliner', 'show', 'job', job], {
    encoding: 'utf8',
  });
  return [...stdout.matchAll(/StartTime=(\S+) EndTime=(\S+)/g)]
    .map(([, from, to]) => (Date.parse(to) - Date.parse(from)) / 1000)
    .join(', ');
}

async function until(holds) {
  for (let i = 0; i < 2400; i++) {
    if (holds()) return;
    await new Promise((done) => setTimeout(done, 250));
  }
  throw new Error('it did not come to that within ten minutes');
}

async function memory() {
  for (const count of [100, 1000]) {
    const list = writeLakes(join(room, `memory-${count}`), count, 40);
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
  for (let i = 1; i <= 8; i++) {
    const name = `lake-${i}`;
    cpSync(join(ROOT, 'demo-lake'), join(surveys, name), { recursive: true });
    rows.push(name);
  }
  const list = join(surveys, 'lakes.csv');
  writeFileSync(list, `${rows.join('\n')}\n`);
  const began = Date.now();
  batch(list, '--out', join(room, 'pace-out'));
  console.log(
    `pace: ${((8 * 60_000) / (Date.now() - began)).toFixed(1)} lakes a minute, as large as the demo lake`,
  );
}
