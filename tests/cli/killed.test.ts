/**
 * Results are written whole or not at all, also when the process that writes them is killed at any moment, the disk is
 * full, or may only be read. Each write is a process of its own.
 */

import { spawn, spawnSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { buildSync } from 'esbuild';
import { describe, expect, it } from 'vitest';
import { tryOut, writeResult } from '../../src/cli/write-out.ts';
import { beltSurvey } from '../helpers/base-survey.ts';
import { testFolder } from '../helpers/folder.ts';

const ROOT = join(import.meta.dirname, '../..');
/** SHOALWISE_KILLS=100 for more. */
const KILLS = Number(process.env.SHOALWISE_KILLS ?? 12);

const folder = testFolder();

/** Writes result after result over the same OUT, all files of one with one number, and says when it begins. */
const PROGRAM = `
import { writeResult } from ${JSON.stringify(join(ROOT, 'src/cli/write-out.ts'))};
const [target, first] = process.argv.slice(2);
process.stdout.write('begun');
for (let n = Number(first); ; n++)
  await writeResult(target, new Map([
    ['estimate.json', JSON.stringify({ schema: 'shoalwise/estimate/1', n })],
    ['segments.csv', String(n).repeat(200000)],
    ['warnings.csv', String(n)],
  ]));
`;

describe('a write that is killed', () => {
  it(`leaves a whole result each of ${KILLS} times, and the next run clears away what was begun`, async () => {
    const source = join(folder, 'program.ts');
    writeFileSync(source, PROGRAM);
    const program = join(folder, 'program.mjs');
    buildSync({
      entryPoints: [source],
      bundle: true,
      platform: 'node',
      format: 'esm',
      outfile: program,
    });
    const room = join(folder, 'room');
    const target = join(room, 'out');
    await writeResult(
      target,
      new Map([['estimate.json', '{"schema":"shoalwise/estimate/1","n":-1}']]),
    );
    const seen = new Set<number>();
    for (let kill = 0; kill < KILLS; kill++) {
      const writer = spawn(process.execPath, [program, target, String(kill * 1000)]);
      await new Promise<void>((begun) => writer.stdout.once('data', () => begun()));
      // at another moment each time: the golden ratio spreads the moments evenly over 300 ms
      await pause((300 * ((kill * 0.618034) % 1)) | 0);
      const gone = new Promise<void>((done) => writer.once('close', () => done()));
      writer.kill('SIGKILL');
      await gone;
      const [n, segments, warnings] = await settledResult(target);
      if (n >= 0) {
        expect(segments).toBe(String(n).repeat(200000));
        expect(warnings).toBe(String(n));
      }
      seen.add(n);
    }
    // the kills met it at different moments; how many, a busy machine decides
    expect(seen.size).toBeGreaterThan(KILLS / 4);
    // the last one killed may have left its two moves to a process that is still at work on a busy machine
    const last = new Map([['estimate.json', '{"schema":"shoalwise/estimate/1"}']]);
    const after = () => writeResult(target, last).then(() => readdirSync(room));
    await expect.poll(after, { timeout: 120_000 }).toEqual(['out']);
  }, 300_000);

  it('an earlier result that a cut of the power caught between its moves goes back to its place', async () => {
    const room = join(folder, 'cut');
    const target = join(room, 'out');
    await writeResult(target, new Map([['estimate.json', '{"schema":"shoalwise/estimate/1"}']]));
    // as the moves of a process that is gone leave it: number 4194304 is above the greatest of Linux
    const host = hostname()
      .replace(/[^A-Za-z0-9]/g, '')
      .slice(0, 20);
    const old = join(room, `.out.old-${host}-4194304-0a1b2c`);
    spawnSync('mv', [target, old]);
    mkdirSync(join(room, `.out.partial-${host}-4194304-0a1b2c`));
    mkdirSync(join(room, '.out.partial-otherhost-4194304-0a1b2c'));
    expect(existsSync(target)).toBe(false);
    await tryOut(target);
    expect(readdirSync(room).sort()).toEqual(['.out.partial-otherhost-4194304-0a1b2c', 'out']);
    expect(readFileSync(join(target, 'estimate.json'), 'utf8')).toContain('schema');
  });
});

describe('the folder of a result', () => {
  it('has the usual mode', async () => {
    const target = join(folder, 'mode', 'out');
    await writeResult(target, new Map([['estimate.json', '{"schema":"shoalwise/estimate/1"}']]));
    mkdirSync(join(folder, 'usual'), { recursive: true });
    expect(statSync(target).mode).toBe(statSync(join(folder, 'usual')).mode);
  });
});

describe('a disk that does not take the result', () => {
  const survey = join(folder, 'minnow-pond');
  mkdirSync(survey);
  for (const [name, text] of Object.entries(beltSurvey())) writeFileSync(join(survey, name), text);
  const estimate = (out: string, ...wrap: string[]) => {
    const [command, ...args] = [
      ...wrap,
      process.execPath,
      join(ROOT, 'src/cli/launch.mjs'),
      'estimate',
      survey,
      '--out',
      out,
    ];
    return spawnSync(command, args, { encoding: 'utf8' });
  };

  it('is told before anything is estimated, with an exit code of its own', () => {
    writeFileSync(join(folder, 'file'), '');
    const out = join(folder, 'file', 'out');
    const done = estimate(out);
    expect(done.status).toBe(74);
    expect(done.stdout).toBe('');
    expect(done.stderr).toBe(
      `${out}: the results cannot be written here (a part of the path is a file); nothing was changed\n`,
    );
  });

  it.runIf(existsSync('/proc/self'))(
    'a place where the system keeps its own files',
    () => {
      const done = estimate('/proc/nothing/of/ours');
      expect(done.status).toBe(74);
      expect(done.stderr).toBe(
        '/proc/nothing/of/ours: the results cannot be written here (no folder can be made there); nothing was changed\n',
      );
    },
    30_000,
  );

  it.skipIf(process.getuid?.() === 0)('a folder that may only be read', () => {
    const room = join(folder, 'read-only');
    mkdirSync(room);
    chmodSync(room, 0o555);
    expect(estimate(join(room, 'out')).stderr).toContain('it is not allowed to write there');
  });

  const small = join(folder, 'small');
  mkdirSync(small);
  const mounted =
    process.getuid?.() === 0 &&
    spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=100k', 'tmpfs', small]).status === 0;
  it.skipIf(!mounted)('a full disk: the earlier result is still there', async () => {
    try {
      const target = join(small, 'out');
      await writeResult(target, new Map([['estimate.json', '{"schema":"shoalwise/estimate/1"}']]));
      const done = estimate(target);
      expect(done.status).toBe(74);
      expect(done.stderr).toContain('the disk is full');
      expect(readdirSync(small)).toEqual(['out']);
      spawnSync('mount', ['-o', 'remount,ro', small]);
      expect(estimate(target).stderr).toContain('the disk can only be read');
      expect(readFileSync(join(target, 'estimate.json'), 'utf8')).toBe(
        '{"schema":"shoalwise/estimate/1"}',
      );
    } finally {
      spawnSync('umount', [small]);
    }
  });
});

/** The two moves of a result into its place outlive the process that was killed: read until nothing moves meanwhile. */
async function settledResult(target: string): Promise<[number, string, string]> {
  const text = (name: string): string => {
    const file = join(target, name);
    return existsSync(file) ? readFileSync(file, 'utf8') : '';
  };
  for (let attempt = 0; attempt < 100; attempt++) {
    await pause(150);
    const before = text('estimate.json');
    const [segments, warnings] = [text('segments.csv'), text('warnings.csv')];
    await pause(50);
    if (before !== '' && text('estimate.json') === before)
      return [JSON.parse(before).n, segments, warnings];
  }
  throw new Error(`${target} holds no whole result`);
}

function pause(ms: number): Promise<void> {
  return new Promise((done) => setTimeout(done, ms));
}
