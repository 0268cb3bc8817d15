/**
 * npm test: sets up, then types, lint and all tests, and ends with one line of counts. Plain JavaScript: it runs before set-up.
 * Types and lint count as one check each.
 */

import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { setUp } from '../src/cli/set-up.mjs';

const ROOT = dirname(dirname(fileURLToPath(import.meta.url)));

/**
 * Programs of Debian's that tests use: GDAL reads what we write, openpyxl writes what we read, a browser shows what we serve, Slurm
 * runs what we hand it. A program that answers is there.
 */
const TOOLS = [
  {
    packages: ['gdal-bin'],
    programs: [['gdalinfo', '--version']],
    need: 'the tests that read our files with GDAL need gdalinfo and ogrinfo',
  },
  {
    packages: ['python3-openpyxl'],
    programs: [[process.env.PYTHON ?? '/usr/bin/python3', '-c', 'import openpyxl']],
    need: 'the tests that read workbooks of another writer need openpyxl',
  },
  {
    packages: ['chromium'],
    programs: [[process.env.CHROMIUM ?? '/usr/bin/chromium', '--version']],
    need: 'the tests in a browser need chromium',
  },
  {
    packages: ['slurmctld', 'slurmd', 'slurm-client', 'munge'],
    // without a configuration its client says nothing, not even its version
    programs: ['slurmctld', 'slurmd', 'sbatch', 'munged'].map((name) => [
      'sh',
      '-c',
      `command -v ${name}`,
    ]),
    need: 'the tests with Slurm need slurmctld, slurmd, slurm-client and munge',
  },
];

process.exitCode = await run();

async function run() {
  const started = Date.now();
  const installing = installTools(); // beside what does not need them
  if (!setUp(ROOT)) {
    console.log('0 passed, 1 failed');
    return 1;
  }
  const checks = [
    check('types', 'typescript/bin/tsc', ['--noEmit']),
    check('lint', '@biomejs/biome/bin/biome', ['check', '.']),
  ];
  const missing = await installing;
  const tests = unitTests();

  const passed = checks.filter(Boolean).length + tests.passed;
  const failed = checks.length - checks.filter(Boolean).length + tests.failed;
  console.log(`\n${tests.files} test files, ${Math.round((Date.now() - started) / 1000)} s`);
  if (tests.skipped > 0) console.log([`${tests.skipped} skipped`, ...missing].join('; '));
  console.log(
    `${passed} passed, ${failed} failed${tests.skipped > 0 ? `, ${tests.skipped} skipped` : ''}`,
  );
  return failed > 0 ? 1 : 0;
}

/** Installs what is missing where that may be done, all at once. Returns what is missing still, a sentence each. */
async function installTools() {
  // a user's path does not lead to daemons
  const path = { PATH: `${process.env.PATH}:/usr/sbin` };
  const there = ({ programs }) =>
    programs.every(
      ([name, ...args]) => spawnSync(name, args, { env: { ...process.env, ...path } }).status === 0,
    );
  const missing = TOOLS.filter((tool) => !there(tool));
  const may = process.getuid?.() === 0 && spawnSync('apt-get', ['--version']).status === 0;
  if (missing.length > 0 && may) await apt(missing.flatMap(({ packages }) => packages));
  return missing
    .filter((tool) => !may || !there(tool))
    .map(
      ({ need, packages }) =>
        `${need} (Debian: ${packages.join(', ')})${may ? '; apt-get could not install it' : ''}`,
    );
}

function apt(packages) {
  process.stderr.write(`Installing ${packages.join(', ')} (apt-get) …\n`);
  const install = ['install', '-y', '-qq', '--no-install-recommends', ...packages].join(' ');
  const apt = spawn('sh', ['-c', `apt-get update -qq && apt-get ${install}`], {
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    stdio: ['ignore', 'ignore', 2],
  });
  return new Promise((done) => apt.once('close', done));
}

/** One of the packages' own commands over the whole tree; prints what it says when it fails. */
function check(name, command, args) {
  const done = node(join(ROOT, 'node_modules', command), args);
  const good = done.status === 0;
  console.log(`${good ? 'pass' : 'FAIL'}  ${name}`);
  if (!good) console.log(done.stdout + done.stderr);
  return good;
}

/** All of vitest, with a line for each failed test. A file that could not be loaded counts as one failure. */
function unitTests() {
  const folder = mkdtempSync(join(tmpdir(), 'shoalwise-run-'));
  const report = join(folder, 'report.json');
  try {
    const vitest = join(ROOT, 'node_modules', 'vitest', 'vitest.mjs');
    const done = node(vitest, ['run', '--reporter=json', `--outputFile=${report}`]);
    return counted(report, done);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function counted(report, done) {
  let result;
  try {
    result = JSON.parse(readFileSync(report, 'utf8'));
  } catch {
    console.log(`FAIL  vitest gave no report\n${done.stdout}${done.stderr}`);
    return { files: 0, passed: 0, failed: 1, skipped: 0 };
  }
  let passed = 0;
  let failed = 0;
  let skipped = 0;
  for (const file of result.testResults) {
    const name = relative(ROOT, file.name);
    const of = (status) => file.assertionResults.filter((t) => t.status === status);
    const wrong = of('failed');
    const unloaded = file.status === 'failed' && wrong.length === 0;
    const good = of('passed').length;
    passed += good;
    failed += wrong.length + (unloaded ? 1 : 0);
    skipped += file.assertionResults.length - good - wrong.length;
    console.log(
      `${wrong.length > 0 || unloaded ? 'FAIL' : 'pass'}  ${name} (${good} of ${file.assertionResults.length}, ${Math.round((file.endTime - file.startTime) / 1000)} s)`,
    );
    for (const test of wrong)
      console.log(`      ${test.fullName}\n${indented(test.failureMessages.join('\n'))}`);
    if (unloaded) console.log(indented(file.message));
  }
  // an error outside of any test (a promise nobody waited for) fails the run without failing a test
  if (failed === 0 && done.status !== 0) {
    failed += 1;
    console.log(`FAIL  vitest ended with ${done.status}\n${indented(done.stderr || done.stdout)}`);
  }
  return { files: result.testResults.length, passed, failed, skipped };
}

function node(script, args) {
  return spawnSync(process.execPath, [script, ...args], {
    cwd: ROOT,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
    env: { ...process.env, NO_COLOR: '1', FORCE_COLOR: '0', TZ: 'UTC', LC_ALL: 'C.UTF-8' },
  });
}

function indented(text) {
  return text.trim().replace(/^/gm, '        ');
}
