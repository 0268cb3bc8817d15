/** Ctrl-C in the middle of writing leaves nothing behind: a process of its own, stopped by its own signal. */

import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';
import { testFolder } from '../helpers/folder.ts';

const WRITE_OUT = pathToFileURL(join(import.meta.dirname, '../../src/cli/write-out.ts')).href;

/** Hands out one file, sends itself the signal, then hands out files until it is stopped. */
const PROGRAM = `
const { writeResult } = await import(${JSON.stringify(WRITE_OUT)});
const [target, signal] = process.argv.slice(2);
const files = { *[Symbol.iterator]() {
  yield ['estimate.json', '{"schema":"shoalwise/estimate/1","new":true}'];
  process.kill(process.pid, signal);
  for (let i = 0; i < 100000; i++) yield ['segments.csv', String(i)];
} };
await writeResult(target, files);
`;

describe('an interrupted write', () => {
  const folder = testFolder();
  const program = join(folder, 'program.mts');
  writeFileSync(program, PROGRAM);

  it.each([
    ['SIGINT', 130],
    ['SIGTERM', 143],
  ])('%s leaves the earlier result as it was and nothing beside it', (signal, code) => {
    const room = join(folder, signal);
    const target = join(room, 'out');
    mkdirSync(target, { recursive: true });
    writeFileSync(join(target, 'estimate.json'), '{"schema":"shoalwise/estimate/1"}');
    const done = spawnSync(process.execPath, ['--import', 'tsx', program, target, signal], {
      encoding: 'utf8',
      cwd: join(import.meta.dirname, '../..'),
    });
    expect(done.stderr).toBe('');
    expect(done.status).toBe(code);
    expect(readdirSync(room)).toEqual(['out']);
    expect(readFileSync(join(target, 'estimate.json'), 'utf8')).toBe(
      '{"schema":"shoalwise/estimate/1"}',
    );
  });
});
