/** The launcher: makes its bundle when missing or old, not otherwise, and works where dist cannot be written. */

import { spawnSync } from 'node:child_process';
import {
  closeSync,
  cpSync,
  existsSync,
  mkdirSync,
  openSync,
  readdirSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { testFolder } from '../helpers/folder.ts';

const ROOT = join(import.meta.dirname, '../..');

describe('the launcher', () => {
  const copy = join(testFolder(), 'copy');
  const bundle = join(copy, 'dist', 'shoalwise.mjs');

  function launch(args: string[], env: Record<string, string> = {}) {
    return spawnSync(process.execPath, [join(copy, 'src/cli/launch.mjs'), ...args], {
      encoding: 'utf8',
      env: { ...process.env, ...env },
    });
  }

  beforeAll(() => {
    mkdirSync(copy);
    for (const name of ['src', 'models', 'shared', 'package.json', 'package-lock.json'])
      cpSync(join(ROOT, name), join(copy, name), { recursive: true });
    symlinkSync(join(ROOT, 'node_modules'), join(copy, 'node_modules'));
  });

  it('works with no build step and keeps its bundle', () => {
    const first = launch(['--version']);
    expect(first.stderr).toBe('');
    expect(first.stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
    const made = statSync(bundle).mtimeMs;
    expect(launch(['--version']).status).toBe(0);
    expect(statSync(bundle).mtimeMs).toBe(made);
    expect(readdirSync(join(copy, 'dist'))).toEqual([
      'shoalwise-lakes.mjs',
      'shoalwise-worker.mjs',
      'shoalwise.mjs',
    ]);
  });

  it('makes it anew when a source is younger', () => {
    launch(['--version']);
    utimesSync(bundle, 1, 1);
    expect(launch(['--version']).status).toBe(0);
    expect(statSync(bundle).mtimeMs).toBeGreaterThan(1000);
  });

  it.runIf(existsSync('/dev/full'))('says that a disk behind > is full', () => {
    const full = openSync('/dev/full', 'w');
    const { status, stderr } = spawnSync(
      process.execPath,
      [join(copy, 'src/cli/launch.mjs'), '--help'],
      { encoding: 'utf8', stdio: ['ignore', full, 'pipe'] },
    );
    closeSync(full);
    expect(stderr).toBe('shoalwise: standard output cannot be written (the disk is full)\n');
    expect(status).toBe(74);
  });

  it('gives the exit code of the command', () => {
    expect(launch([]).status).toBe(64);
    expect(launch(['check', join(copy, 'nowhere')]).status).toBe(2);
  });

  it('falls back to the temporary folder, and leaves nothing there', () => {
    const other = join(copy, '..', 'other');
    const temporary = join(copy, '..', 'tmp');
    mkdirSync(temporary);
    cpSync(copy, other, { recursive: true, filter: (path) => path !== join(copy, 'dist') });
    writeFileSync(join(other, 'dist'), 'a file where the folder would be');
    const done = spawnSync(process.execPath, [join(other, 'src/cli/launch.mjs'), '--version'], {
      encoding: 'utf8',
      env: { ...process.env, TMPDIR: temporary },
    });
    expect(done.stderr).toBe('');
    expect(done.status).toBe(0);
    expect(readdirSync(temporary)).toEqual([]);
  });

  it('says what to do when the packages are missing', () => {
    const bare = join(copy, '..', 'bare');
    mkdirSync(join(bare, 'node_modules', 'esbuild'), { recursive: true }); // empty: hides any installed above
    for (const name of ['src', 'models', 'shared', 'package.json'])
      cpSync(join(copy, name), join(bare, name), { recursive: true });
    const done = spawnSync(process.execPath, [join(bare, 'src/cli/launch.mjs'), '--version'], {
      encoding: 'utf8',
    });
    expect(done.status).toBe(1);
    expect(done.stderr).toContain('Run npm ci in');
    expect(existsSync(join(bare, 'dist'))).toBe(false);
  });
});
