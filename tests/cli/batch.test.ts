/** Many lakes: what is written, what is done again, what a fault leaves. Expected by hand and by identities. Kills and Slurm itself: tests/cluster/. */

import { chmodSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { BatchFile } from '../../shared/batch.ts';
import { main } from '../../src/cli/main.ts';
import { testFolder } from '../helpers/folder.ts';
import { filesBelow, writeLakes } from '../helpers/many-lakes.ts';
import { keepingTerminal } from './terminal.ts';

const LAKES = 8;
const FAULTY = [4, 8];

const folder = testFolder();
const list = writeLakes(join(folder, 'surveys'), LAKES, { faultyEvery: 4 });

async function run(...args: string[]) {
  const terminal = keepingTerminal();
  const code = await main(['batch', ...args], terminal);
  return { code, stdout: terminal.stdout, stderr: terminal.stderr };
}
const read = (out: string): BatchFile => JSON.parse(readFileSync(join(out, 'batch.json'), 'utf8'));

describe('a list of lakes', () => {
  const out = join(folder, 'whole');
  let whole: Map<string, string>;
  let first: Awaited<ReturnType<typeof run>>;
  beforeAll(async () => {
    first = await run(list, '--out', out);
    whole = filesBelow(out);
  });

  it('is done lake by lake; errors of one stop no other, and are kept', () => {
    expect(first.code).toBe(2);
    expect(first.stdout).toContain(
      `${LAKES - FAULTY.length} done, 0 kept from an earlier run, 2 with errors`,
    );
    const { programme, lakes } = read(out);
    expect(programme).toMatchObject({ lakes: LAKES, estimated: 6, with_errors: 2, missing: [] });
    expect(lakes[3].errors[0]).toContain('habitat.csv row 2, substrate: unknown substrate "sannd"');
    expect(whole.has('lakes/lake-0001/report.html')).toBe(true);
    expect(whole.has('lakes/lake-0004/report.html')).toBe(false);
  });

  it('tells in each report what more dives would bring, from the CV of the estimate', () => {
    for (const { name, numbers } of read(out).lakes) {
      if (numbers === null) continue;
      const { abundance } = JSON.parse(String(whole.get(`lakes/${name}/estimate.json`)));
      const report = String(whole.get(`lakes/${name}/report.html`));
      const told = /The broken line is this survey as it is, ([\d.]+) %/.exec(report)?.[1];
      // told in whole per cents
      expect(Math.abs(Number(told) - 100 * abundance.mussels.cv), name).toBeLessThanOrEqual(0.5);
    }
  });

  it('has a total whose variance is the sum of the lakes’', () => {
    const { programme, lakes } = read(out);
    const own = lakes.flatMap(({ numbers }) => numbers?.mussels ?? []);
    const total = own.reduce((sum, q) => sum + q.estimate, 0);
    const se = Math.sqrt(own.reduce((sum, q) => sum + (q.se ?? 0) ** 2, 0));
    expect(programme.mussels?.estimate).toBeCloseTo(total, 9);
    expect(programme.mussels?.se).toBeCloseTo(se, 9);
    // log-normal interval, Burnham et al. 1987: N/C, C = exp(1.96 √log(1 + cv²))
    const c = Math.exp(1.959963984540054 * Math.sqrt(Math.log(1 + (se / total) ** 2)));
    expect(programme.mussels?.upper).toBeCloseTo(total * c, 6);
  });

  it('is not done again where nothing changed, and one lake is where it did', async () => {
    const again = await run(list, '--out', out);
    expect(again.stdout).toContain(`0 done, ${LAKES - FAULTY.length} kept from an earlier run`);
    expect(filesBelow(out)).toEqual(whole);
    const changed = join(folder, 'surveys/lake-0002/analysis.json');
    const before = readFileSync(changed, 'utf8');
    writeFileSync(changed, before.replace('Lake 2', 'Second Lake'));
    const gathered = await run(list, '--out', out, '--gather');
    expect(gathered.stdout).toContain('lake-0002');
    expect(read(out).programme.missing).toEqual(['lake-0002']);
    const third = await run(list, '--out', out);
    expect(third.stdout).toContain('1 done');
    expect(read(out).lakes[1].numbers?.lake).toBe('Second Lake');
    writeFileSync(changed, before);
    await run(list, '--out', out);
    expect(filesBelow(out)).toEqual(whole);
  });

  it('comes to the same bytes in shares, whatever their order', async () => {
    const shares = join(folder, 'shares');
    for (const share of ['3/3', '1/3', '2/3'])
      expect((await run(list, '--out', shares, '--shard', share)).code).toBe(0);
    expect((await run(list, '--out', shares, '--gather')).code).toBe(2);
    expect(filesBelow(shares)).toEqual(whole);
  });

  it('has a total with the observers’ detection in common, where that is asked', async () => {
    const { stdout } = await run(
      list,
      '--out',
      join(folder, 'shares'),
      '--gather',
      '--shared-detection',
    );
    const { shared_detection: shared, mussels } = read(join(folder, 'shares')).programme;
    expect(shared).toMatchObject({ used: true, observers: ['Ann', 'Ben'] });
    expect(stdout.replaceAll(/\s+/g, ' ')).toContain(
      'With the detection of Ann and Ben the same on all lakes',
    );
    // every lake has nearly the same detections: detection known from six is known better than from each
    expect(shared?.mussels?.cv).toBeLessThan((mussels?.cv ?? 0) * 1.5);
    expect((shared?.mussels?.estimate ?? 0) / (mussels?.estimate ?? 1)).toBeCloseTo(1, 0);
  });
});

describe('Slurm', () => {
  const out = join(folder, 'cluster out');

  it('is shown what it would be given: an array of shares, and a job that gathers after any end', async () => {
    const { code, stdout } = await run(list, '--out', out, '--slurm-dry-run', '--tasks', '4');
    expect(code).toBe(0);
    expect(stdout).toContain('#SBATCH --array=1-4');
    expect(stdout).toContain('--shard "$SLURM_ARRAY_TASK_ID/4"');
    expect(stdout).toContain('sbatch --dependency=afterany:$job');
  });

  it('is given that, by its own command', async () => {
    const bin = join(folder, 'bin');
    mkdirSync(bin, { recursive: true });
    const told = join(folder, 'told.txt');
    writeFileSync(join(bin, 'sbatch'), `#!/bin/bash\necho "$@" >> ${told}\necho 41\n`);
    chmodSync(join(bin, 'sbatch'), 0o755);
    const path = process.env.PATH;
    process.env.PATH = `${bin}:${path}`;
    try {
      const { code, stdout } = await run(list, '--out', out, '--slurm', '--tasks', '2');
      expect([code, stdout]).toEqual([0, expect.stringContaining('Job 41 does the work')]);
    } finally {
      process.env.PATH = path;
    }
    const scripts = join(out, 'slurm');
    expect(readFileSync(told, 'utf8')).toBe(
      `--parsable ${join(scripts, 'work.sh')}\n--parsable --dependency=afterany:41 ${join(scripts, 'gather.sh')}\n`,
    );
    expect(readFileSync(join(scripts, 'work.sh'), 'utf8')).toContain('#SBATCH --output="');
    rmSync(out, { recursive: true });
  });
});

describe('a list that cannot be used', () => {
  it.each([
    ['', 'no column "folder"'],
    ['folder,name\n', 'no lake'],
    ['folder,name\nx,a\ny,A\n', 'row 3, name: "A" stands in row 2 already'],
    ['folder,name\n,b\n', 'row 2, folder: blank'],
    ['folder,name\nx,a\nz/../x,b\n', 'row 3, folder: "z/../x" stands in row 2 already'],
    ['f\0o\0l\0d\0e\0r\0', 'not text in UTF-8'],
    ['folder,name\nx,../up\n', 'row 2, name: "../up" is no name of a folder'],
  ])('%j: %s', async (text, message) => {
    const path = join(folder, 'bad.csv');
    writeFileSync(path, text);
    const { code, stderr } = await run(path, '--out', join(folder, 'nowhere'));
    expect([code, stderr]).toEqual([2, expect.stringContaining(message)]);
  });

  it('nor is a folder, or none', async () => {
    const told = async (path: string) => (await run(path, '--out', join(folder, 'nowhere'))).stderr;
    expect(await told(folder)).toBe(`${folder}: this is a folder, a file was expected\n`);
    expect(await told(join(folder, 'no.csv'))).toContain('no.csv: there is no such file');
  });

  it('nor is a folder that holds other things', async () => {
    const { code, stderr } = await run(list, '--out', join(folder, 'surveys'));
    expect([code, stderr]).toEqual([64, expect.stringContaining('which no batch has written')]);
  });
});
