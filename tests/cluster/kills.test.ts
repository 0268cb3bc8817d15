/** The lakes of a programme, killed again and again on the way and begun again by the same command: the bytes of a run that nothing disturbed. */

import { spawn } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { stream } from '../../models/index.ts';
import { testFolder } from '../helpers/folder.ts';
import { filesBelow, writeLakes } from '../helpers/many-lakes.ts';
import { until } from '../helpers/until.ts';

const LAUNCH = join(import.meta.dirname, '../../src/cli/launch.mjs');
const LAKES = 200;
const FAULTY = 5;
const KILLS = 6;
/** SHOALWISE_SEED=2 for other moments. */
const SEED = Number(process.env.SHOALWISE_SEED ?? 1);
/** A bound, not an expectation: the machine may have much else to do. */
const PATIENCE_MS = 480_000;

const folder = testFolder();

it(
  `${LAKES} lakes, ${FAULTY} of them with errors, come to the same bytes after ${KILLS} kills`,
  async () => {
    const list = writeLakes(join(folder, 'surveys'), LAKES, {
      faultyEvery: LAKES / FAULTY,
      small: true,
    });
    const whole = join(folder, 'whole');
    expect(await start(list, whole).code).toBe(2);

    const out = join(folder, 'killed');
    const random = stream(SEED, 0);
    const counts: number[] = [];
    for (let kill = 0; kill < KILLS; kill++) {
      const before = lakesIn(out);
      const { child, code } = start(list, out);
      // by what it has done, wherever a fast or a busy machine has come to by the clock; then at any moment of a lake
      const further = Math.floor((random.uniform() * LAKES) / KILLS);
      await until(
        () => lakesIn(out) >= before + further || child.exitCode !== null,
        PATIENCE_MS,
        10,
      );
      await new Promise((done) => setTimeout(done, 150 * random.uniform()));
      child.kill('SIGKILL');
      await code;
      counts.push(lakesIn(out));
    }
    // they met it on the way
    expect(new Set(counts).size).toBeGreaterThan(KILLS / 2);
    expect(counts[2]).toBeLessThan(LAKES);
    const last = start(list, out);
    expect(await last.code).toBe(2);
    expect(last.said()).toMatch(/ [1-9]\d* kept from an earlier run/);

    const [there, here] = [filesBelow(out), filesBelow(whole)];
    expect([...there.keys()]).toEqual([...here.keys()]);
    expect(here.size).toBeGreaterThan(10 * (LAKES - FAULTY));
    for (const [name, bytes] of here) expect(there.get(name) === bytes, name).toBe(true);
  },
  PATIENCE_MS,
);

function start(list: string, out: string) {
  const child = spawn(process.execPath, [LAUNCH, 'batch', list, '--out', out], {
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  let said = '';
  child.stdout.on('data', (text: Buffer) => (said += text));
  const code = new Promise<number | null>((done) => child.once('close', done));
  return { child, code, said: () => said };
}

/** Written ones, without what is hidden while it is begun. */
function lakesIn(out: string): number {
  try {
    return readdirSync(join(out, 'lakes')).filter((name) => !name.startsWith('.')).length;
  } catch {
    return 0;
  }
}
