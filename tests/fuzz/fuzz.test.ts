/**
 * Sound surveys spoilt at random: none may end in an exception, run on, or say what no person can read. The same cases on
 * every run; `npm run fuzz` runs as many more as wanted. And the fuzzer itself: it sees what goes wrong, and shrinks it.
 */

import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { testFolder } from '../helpers/folder.ts';
import { bundled } from './bundled.mjs';
import { caseOf, folderOf } from './cases.ts';
import { fuzz } from './fuzz.ts';
import { outcomeOf } from './judge.ts';
import { Pool } from './pool.ts';
import { soundSurveys } from './surveys.ts';

const ROOT = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const folder = testFolder();
const surveys = soundSurveys(ROOT);
let program = '';
let remove = (): void => {};

beforeAll(async () => {
  mkdirSync(join(ROOT, 'out'), { recursive: true });
  ({ program, remove } = await bundled(join(ROOT, 'out')));
});
afterAll(() => remove());

describe('spoilt surveys', () => {
  it('120 are checked, each with a verdict', async () => {
    const summary = await fuzz({
      root: ROOT,
      program,
      kind: 'check',
      cases: 120,
      seed: 8,
      largeShare: 0.04,
    });
    expect(summary.failures).toEqual([]);
    expect(summary.codes[1]).toBe(0);
    // neither all refused nor all sound: the mutations reach what they are meant for
    expect(summary.codes[0]).toBeGreaterThan(12);
    expect(summary.codes[2]).toBeGreaterThan(60);
  }, 300_000);

  it('14 are estimated, with finite numbers or none', async () => {
    const summary = await fuzz({
      root: ROOT,
      program,
      kind: 'estimate',
      cases: 14,
      seed: 8,
      largeShare: 0,
    });
    expect(summary.failures).toEqual([]);
    expect(summary.codes[0]).toBeGreaterThan(1);
  }, 300_000);
});

describe('the fuzzer', () => {
  it('makes the same folder from the same seed', () => {
    for (const number of [0, 1, 2, 3]) {
      const [a, b] = [1, 2].map(() => folderOf(caseOf('check', 5, number, surveys, 0.3), surveys));
      expect(a?.done).toEqual(b?.done);
      expect([...(a?.files ?? [])]).toEqual([...(b?.files ?? [])]);
    }
  });

  it('finds every survey sound as long as nothing is spoilt', async () => {
    for (const { name, files } of surveys.filter((s) => !s.large)) {
      const outcome = await outcomeOf({ name, files: files() }, 'check');
      expect(outcome).toEqual({ code: 0, problem: null });
    }
  });

  /** A program in the place of child.ts. */
  const answering = (body: string, limitS: number): Pool => {
    const path = join(folder, `child-${body.length}.mjs`);
    writeFileSync(path, `process.on('message', ({ id }) => { ${body} });`);
    return new Pool(path, ROOT, 1, limitS);
  };
  const asked = caseOf('check', 1, 0, surveys, 0);

  it.each([
    ['an endless loop', 'for (;;);', 1, /^time: above/],
    [
      'memory without end',
      'globalThis.kept = []; for (;;) kept.push(new Float64Array(1e6).fill(1));',
      60, // a slow machine must not run out of time first
      /^(memory: above|died)/,
    ],
    ['a process that ends', 'process.exit(7);', 60, /^died: exit 7/],
  ])(
    'tells %s',
    async (_, body, limitS, problem) => {
      const pool = answering(body, limitS);
      const answer = await pool.run(asked);
      pool.end();
      expect(answer.code).toBe(1);
      expect(answer.problem).toMatch(problem);
    },
    150_000,
  );
});
