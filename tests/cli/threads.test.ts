/** Bootstrap and rehearsal through the launcher: the same bytes on any number of threads. */

import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { RehearsalSummary } from '../../models/rehearse.ts';
import type { Estimate } from '../../shared/estimate.ts';
import { lakePath } from '../helpers/reference-lake.ts';

const ROOT = join(import.meta.dirname, '../..');
const SURVEY = lakePath('belt-nb1');

function launch(...args: string[]) {
  return spawnSync(process.execPath, [join(ROOT, 'src/cli/launch.mjs'), ...args], {
    encoding: 'utf8',
  });
}

describe('estimate --bootstrap', () => {
  const run = (threads: string, ...more: string[]) =>
    launch('estimate', SURVEY, '--json', '--bootstrap', '4', '--threads', threads, ...more);
  let one: ReturnType<typeof launch>;
  beforeAll(() => {
    one = run('1');
  }, 60_000); // a busy machine

  it('has threads to run on', () => {
    expect(one.status).toBe(0);
    expect(existsSync(join(ROOT, 'dist', 'shoalwise-worker.mjs'))).toBe(true);
  });

  it('gives the same bytes on one thread and on three, also with --reselect where there is one model to choose from', () => {
    // analysis.json fixes family, shape and transect effect
    const other = run('3', '--reselect');
    expect(other.status).toBe(0);
    expect(other.stdout).toBe(one.stdout);
    expect(other.stderr).toBe(one.stderr);
  });

  it('puts its interval beside the other, around the estimate', () => {
    const { bootstrap, abundance } = JSON.parse(one.stdout) as Estimate;
    expect(bootstrap?.replicates).toBe(4);
    for (const kind of ['clusters', 'mussels'] as const) {
      const estimate = abundance?.[kind]?.estimate ?? Number.NaN;
      expect(bootstrap?.[kind]?.lower).toBeLessThan(estimate);
      expect(bootstrap?.[kind]?.upper).toBeGreaterThan(estimate);
    }
  });

  it('changes nothing else of the estimate, and nothing is there without it', () => {
    const plain = JSON.parse(launch('estimate', SURVEY, '--json').stdout) as Estimate;
    const { bootstrap, ...withBootstrap } = JSON.parse(one.stdout) as Estimate;
    expect(bootstrap).not.toBeNull();
    expect(plain).toEqual({ ...withBootstrap, bootstrap: null });
  });
});

describe('rehearse', () => {
  const run = (threads: string) =>
    launch('rehearse', SURVEY, '--surveys', '2', '--json', '--threads', threads);

  it('gives the same bytes on one and two threads', () => {
    const one = run('1');
    expect(one.status).toBe(0);
    const two = run('2');
    expect(two.status).toBe(0);
    expect(two.stdout).toBe(one.stdout);
    const summary = JSON.parse(one.stdout) as RehearsalSummary;
    expect(summary.surveys).toBe(2);
    expect(summary.notEstimable).toBe(0);
    // the survey itself has 499; each rehearsal is a draw of the same dives
    expect(Math.abs(summary.detections / 499 - 1)).toBeLessThan(0.1);
  });
});
