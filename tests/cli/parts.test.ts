/** Work in parts of other processes: outcomes in their order on any number of parts; what is missing or of other inputs is told. */

import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { serialize } from 'node:v8';
import { describe, expect, it } from 'vitest';
import type { Task } from '../../models/index.ts';
import { main } from '../../src/cli/main.ts';
import { doingPart, gatheringParts, keyOf, PartDone } from '../../src/cli/parts.ts';
import type { RunSome } from '../../src/cli/pool.ts';
import { testFolder } from '../helpers/folder.ts';
import { writeLakes } from '../helpers/many-lakes.ts';
import { keepingTerminal } from './terminal.ts';

const folder = testFolder();
writeLakes(folder, 1, { faultyEvery: 2 });
const SURVEY = join(folder, 'lake-0001');

async function run(...args: string[]) {
  const terminal = keepingTerminal();
  const code = await main(args, terminal);
  return { code, stdout: terminal.stdout, stderr: terminal.stderr };
}
/** the pieces are not performed here: any plain data does for their input */
const task = (seed: number) => ({ kind: 'rehearsal', input: { seed } }) as unknown as Task;
const silent = () => {};
let performed = 0;
const squares: RunSome = async (_, numbers) => {
  performed += numbers.length;
  return numbers.map((n) => n * n) as never;
};
const part = (work: string, i: number, of: number, seed = 1) =>
  doingPart(join(folder, work), { part: i, of }, squares)(task(seed), 7, silent).catch((e) => e);

describe('work in parts', () => {
  it.each([1, 2, 3, 9])('of %d gives the outcomes in the order of their numbers', async (of) => {
    const work = `in-${of}`;
    for (let i = of; i >= 1; i--) expect(await part(work, i, of)).toBeInstanceOf(PartDone);
    const all = await gatheringParts(join(folder, work))(task(1), 7, silent);
    expect(all).toEqual([0, 1, 4, 9, 16, 25, 36]);
  });

  it('is not done again where it is kept, and is where its file was cut off', async () => {
    await part('again', 1, 2);
    await part('again', 2, 2);
    performed = 0;
    await part('again', 1, 2);
    expect(performed).toBe(0);
    writeFileSync(join(folder, 'again', readdirSync(join(folder, 'again'))[0]), 'cut');
    await expect(gatheringParts(join(folder, 'again'))(task(1), 7, silent)).rejects.toThrow(
      '1 of 2 parts are missing, or were done with other files: 1',
    );
    await part('again', 1, 2);
    expect(performed).toBe(4);
  });

  it('of other inputs, of two cuts, or of none is no result', async () => {
    await part('other', 1, 1, 2);
    const gather = gatheringParts(join(folder, 'other'));
    await expect(gather(task(1), 7, silent)).rejects.toThrow('done with other files');
    await part('other', 1, 2, 2);
    await expect(gather(task(2), 7, silent)).rejects.toThrow('parts of 1 and 2 are in it');
    await expect(gatheringParts(join(folder, 'none'))(task(1), 7, silent)).rejects.toThrow(
      'no part of the work is in it',
    );
  });
});

describe('the key of a part', () => {
  const keyOfInput = (input: unknown) => keyOf({ kind: 'rehearsal', input } as never, 7);

  it('is of the values, not of how the engine holds them', () => {
    const doubles = [0.5];
    doubles[0] = 3; // still held as a double
    expect(serialize(doubles)).not.toEqual(serialize([3]));
    expect(keyOfInput(doubles)).toBe(keyOfInput([3]));
  });

  it('differs where a value differs', () => {
    const inputs = [
      [3],
      [3.0000000000000004],
      [null],
      [Number.NaN],
      [Number.POSITIVE_INFINITY],
      [undefined],
      ['NaN'],
      new Map([['a', 1]]),
      new Map([['a', 2]]),
      new Set(['a']),
      Float64Array.of(1, 2),
      Float64Array.of(1, 3),
      Int32Array.of(1, 2),
    ];
    expect(new Set(inputs.map(keyOfInput)).size).toBe(inputs.length);
  });
});

describe.each([
  ['rehearse', ['rehearse', SURVEY, '--surveys', '5', '--json']],
  ['estimate --bootstrap', ['estimate', SURVEY, '--bootstrap', '5', '--json']],
])('%s', (_, command) => {
  const work = join(folder, `work-${command[0]}`);
  it('says the same in parts as in one piece', async () => {
    const whole = await run(...command);
    expect(whole.code).toBe(0);
    const second = await run(...command, '--work', work, '--shard', '2/2');
    expect([second.code, second.stdout]).toEqual([0, expect.stringContaining('is kept in')]);
    const early = await run(...command, '--work', work, '--gather');
    expect([early.code, early.stderr]).toEqual([
      2,
      expect.stringContaining('1 of 2 parts are missing'),
    ]);
    const first = await run(...command, '--work', work, '--shard', '1/2');
    expect([first.code, first.stdout]).toEqual([0, expect.stringContaining('is kept in')]);
    const gathered = await run(...command, '--work', work, '--gather');
    expect([gathered.code, gathered.stderr]).toEqual([0, whole.stderr]);
    expect(gathered.stdout).toBe(whole.stdout);
  });

  it('shows Slurm the same command with its share', async () => {
    const { stdout } = await run(...command, '--work', work, '--slurm-dry-run', '--tasks', '3');
    expect(stdout).toContain('#SBATCH --array=1-3');
    expect(stdout).toMatch(new RegExp(` ${command[0]} \\S*lake-0001 .*--work ${work} --shard "`));
  });
});
