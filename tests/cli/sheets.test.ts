/** The command `sheets`: from a folder with planned rows, or none, to one file. Expected texts by hand. */

import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { main } from '../../src/cli/main.ts';
import { testFolder } from '../helpers/folder.ts';
import { keepingTerminal, namedCore } from './terminal.ts';

const room = testFolder();

function folder(name: string, transects?: string): string {
  const path = join(room, name);
  mkdirSync(path);
  if (transects !== undefined) writeFileSync(join(path, 'transects.csv'), transects);
  return path;
}

async function run(...argv: string[]) {
  const terminal = keepingTerminal();
  const code = await main(['sheets', ...argv], terminal, namedCore());
  return { code, stdout: terminal.stdout, stderr: terminal.stderr };
}

describe('sheets', () => {
  const out = join(room, 'sheets.html');

  it('fills in what is planned, and takes the place of an earlier one', async () => {
    const planned = folder('planned', 'transect,date,design,length_m\nT7,,belt,30\nT8,,belt,25\n');
    const first = await run(planned, '--out', out, '--observers', 'Ann, Ben', '--paper', 'letter');
    expect(first).toEqual({
      code: 0,
      stdout: `Sheets of 2 planned and 0 blank transects written to ${out}\n`,
      stderr: '',
    });
    const text = readFileSync(out, 'utf8');
    for (const part of ['<b>T7</b>', '<b>T8</b>', '<b>Ann</b>', '<b>25</b>', 'size: letter'])
      expect(text).toContain(part);
    const again = await run(planned, '--out', out, '--blank', '2');
    expect(again.stdout).toBe(`Sheets of 2 planned and 2 blank transects written to ${out}\n`);
  });

  it('gives a blank one where nothing is planned, and needs no file', async () => {
    const { stdout } = await run(folder('empty'), '--out', out);
    expect(stdout).toBe(`Sheets of 0 planned and 1 blank transects written to ${out}\n`);
  });

  it('writes nothing where a planned row holds an error, nothing is asked for, or the place is taken', async () => {
    const wrong = folder('wrong', 'transect,date,start_lat\nT1,,95\n');
    const done = await run(wrong, '--out', join(room, 'none.html'));
    expect(done.code).toBe(2);
    expect(done.stderr).toContain('transects.csv row 2, start_lat');
    const nothing = await run(folder('bare'), '--out', join(room, 'none.html'), '--blank', '0');
    expect([nothing.code, nothing.stderr]).toEqual([
      64,
      expect.stringContaining('no row is planned'),
    ]);
    writeFileSync(join(room, 'letter.html'), 'a letter');
    const taken = await run(join(room, 'empty'), '--out', join(room, 'letter.html'));
    expect(taken.code).toBe(64);
    expect(readFileSync(join(room, 'letter.html'), 'utf8')).toBe('a letter');
    expect(readdirSync(room)).not.toContain('none.html');
  });

  it.each([
    [['--observers', 'Ann'], 'two names are expected'],
    [['--observers', 'Ann, Ann'], 'two names are expected'],
    [['--observers', 'Ann, Ben, Cy'], 'two names are expected'],
    [['--paper', 'a5'], 'a4, letter'],
    [['--blank', '-1'], 'is not a whole number'],
    [['--detection-pages', '0'], 'is not a whole number from 1 to 20'],
  ])('refuses %j', async (more, sentence) => {
    const { code, stderr } = await run(join(room, 'empty'), '--out', out, ...more);
    expect([code, stderr]).toEqual([64, expect.stringContaining(sentence)]);
  });
});
