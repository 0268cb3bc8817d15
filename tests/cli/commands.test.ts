/** The commands: exit codes, what goes where, several folders, results whole or not at all. Expected texts by hand. */

import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import type { Repair } from '../../shared/repairs.ts';
import { parseVariants } from '../../shared/variants.ts';
import type { Core } from '../../src/cli/core.ts';
import { main } from '../../src/cli/main.ts';
import { RESULT_FILES } from '../../src/publish/index.ts';
import { testFolder } from '../helpers/folder.ts';
import { handMadeResult } from '../helpers/result.ts';
import { ERROR, keepingTerminal, NOTICE, namedCore } from './terminal.ts';

const base = testFolder();
let n = 0;
let room: string;
beforeEach(() => {
  n += 1;
  room = join(base, String(n));
  mkdirSync(room);
});

function survey(name: string): string {
  const path = join(room, name);
  mkdirSync(path, { recursive: true });
  writeFileSync(join(path, 'transects.csv'), 'transect\n');
  return path;
}

async function run(argv: string[], core: Core = namedCore()) {
  const terminal = keepingTerminal();
  const code = await main(argv, terminal, core);
  return { code, stdout: terminal.stdout, stderr: terminal.stderr };
}

describe('check', () => {
  it('tells errors and notices one a line on standard error: 2', async () => {
    const { code, stdout, stderr } = await run(['check', survey('bad')]);
    expect(code).toBe(2);
    expect(stderr).toBe(
      'transects.csv row 7, length_m: "3O" is not a number (metres expected)\n' +
        'notice: transects.csv row 3, length_m: the rope is 35 m long; used as it is\n',
    );
    expect(stdout).toBe('bad: cannot be estimated yet (1 error, 1 notice)\n');
  });

  it('is done with notices alone: 0', async () => {
    const { code, stdout } = await run(['check', survey('good')]);
    expect(code).toBe(0);
    expect(stdout).toBe('good: can be estimated (no errors, 1 notice)\n');
  });

  it('prints the findings as JSON', async () => {
    const { code, stdout } = await run(['check', '--json', survey('bad')]);
    expect(code).toBe(2);
    expect(JSON.parse(stdout).map((f: { code: string }) => f.code)).toEqual([
      'not-a-number',
      'rope-over-30-m',
    ]);
  });

  it('with the repairs of each finding, which have what to change and on what evidence', async () => {
    const { row, table, code, column } = ERROR;
    const repair: Repair = {
      id: 'letter-for-digit',
      title: 'write 30 for 3O',
      why: 'the other 5 transects have 30',
      edits: [{ table, row: row!, column: column!, old: '3O', new: '30' }],
      certain: false,
      picture: { kind: 'cells' },
      answers: [{ table, row, code, column }],
    };
    const core = namedCore();
    const judge: Core['judge'] = async (...given) => ({
      ...(await core.judge(...given)),
      repairs: async () => [repair],
    });
    const { stdout } = await run(['check', '--json', survey('bad')], { ...core, judge });
    const { picture: _, ...told } = repair;
    expect(JSON.parse(stdout)).toEqual([
      { ...ERROR, repairs: [told] },
      { ...NOTICE, repairs: [] },
    ]);
  });

  it('names a folder that is none, and a file in its place: 2', async () => {
    const nowhere = join(room, 'nowhere');
    expect(await run(['check', nowhere])).toMatchObject({
      code: 2,
      stderr: `${nowhere}: there is no such folder\n`,
    });
    const file = join(survey('good'), 'transects.csv');
    expect(await run(['check', file])).toMatchObject({
      code: 2,
      stderr: `${file}: this is a file, a survey folder was expected\n`,
    });
  });

  it('gives only the survey’s own files to the reader', async () => {
    const path = survey('good');
    for (const name of ['habitat.csv', 'analysis.json', 'notes.txt', 'truth.json'])
      writeFileSync(join(path, name), name);
    mkdirSync(join(path, 'depth.tif'));
    let given: string[] = [];
    const core = namedCore();
    await run(['check', path], {
      ...core,
      judge: (folder, ...rest) => {
        given = [...folder.files.keys()];
        return core.judge(folder, ...rest);
      },
    });
    expect(given.sort()).toEqual(['analysis.json', 'habitat.csv', 'transects.csv']);
  });
});

describe('estimate', () => {
  it('writes every file, the summary to standard output, notices to standard error', async () => {
    const out = join(room, 'new', 'out');
    const { code, stdout, stderr } = await run(['estimate', survey('good'), '--out', out]);
    expect(code).toBe(0);
    expect(readdirSync(out).sort()).toEqual([...RESULT_FILES].sort());
    expect(JSON.parse(readFileSync(join(out, 'estimate.json'), 'utf8')).lake).toBe('good');
    expect(stdout).toContain('About 184,000 mussels');
    expect(stderr).toBe(
      'notice: transects.csv row 3, length_m: the rope is 35 m long; used as it is\n',
    );
    expect(readdirSync(join(room, 'new'))).toEqual(['out']);
  });

  it('prints estimate.json alone with --json, with or without files', async () => {
    const dir = survey('good');
    const alone = await run(['estimate', dir, '--json']);
    expect(JSON.parse(alone.stdout).schema).toBe('shoalwise/estimate/1');
    const out = join(room, 'out');
    const both = await run(['estimate', dir, '--json', '--out', out]);
    expect(both.stdout).toBe(readFileSync(join(out, 'estimate.json'), 'utf8'));
  });

  it('keeps the analysis as a variant beside those that are there, and tells of them', async () => {
    const dir = survey('good');
    const file = join(dir, 'variants.json');
    const keep = (name: string) => run(['estimate', dir, '--json', '--keep-as', name]);
    await keep('As usual');
    await keep('Again');
    await keep('As usual');
    const { variants, problems } = parseVariants(readFileSync(file, 'utf8'));
    expect(problems).toEqual([]);
    // of the hand-made result
    expect(variants.map((v) => [v.name, v.outcome?.total?.estimate])).toEqual([
      ['As usual', 184_321],
      ['Again', 184_321],
    ]);
    expect(readdirSync(dir).sort()).toEqual(['transects.csv', 'variants.json']);
    const out = join(room, 'out');
    const told = await run(['estimate', dir, '--out', out, '--keep-as', 'Third']);
    expect(told.stdout).toContain('* Third (the analysis)');
    expect(readFileSync(join(out, 'report.html'), 'utf8')).toContain('>Third');
  });

  it('keeps nothing in a variants.json that it cannot read, and refuses names that are too long', async () => {
    const dir = survey('good');
    const file = join(dir, 'variants.json');
    writeFileSync(file, '{"mine": 1}');
    const refused = await run(['estimate', dir, '--json', '--keep-as', 'A']);
    expect(refused.code).toBe(2);
    expect(refused.stderr).toContain(`${file}: no list of variants`);
    expect(readFileSync(file, 'utf8')).toBe('{"mine": 1}');
    expect((await run(['estimate', dir, '--json', '--keep-as', 'x'.repeat(81)])).code).toBe(64);
  });

  it('writes nothing on errors in the data: 2', async () => {
    const out = join(room, 'out');
    const { code, stdout, stderr } = await run(['estimate', survey('bad'), '--out', out, '--json']);
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toContain('transects.csv row 7, length_m: "3O" is not a number');
    expect(existsSync(out)).toBe(false);
  });

  it('writes nothing on an error of its own: 1, the place in the code only when asked', async () => {
    const out = join(room, 'out');
    const dir = survey('broken');
    const { code, stderr } = await run(['estimate', dir, '--out', out]);
    expect(code).toBe(1);
    expect(stderr).toBe(
      `${dir}: an error of the program itself, nothing was written: the sum is 3, expected 4 (SHOALWISE_DEBUG=1 shows where)\n`,
    );
    expect(readdirSync(room)).toEqual(['broken']);
    process.env.SHOALWISE_DEBUG = '1';
    try {
      expect((await run(['estimate', dir, '--out', out])).stderr).toMatch(
        /the sum is 3, expected 4\n\s+at /,
      );
    } finally {
      delete process.env.SHOALWISE_DEBUG;
    }
  });

  it('leaves an earlier result alone when a new one cannot be made', async () => {
    const out = join(room, 'out');
    const dir = survey('good');
    await run(['estimate', dir, '--out', out]);
    const before = readFileSync(join(out, 'estimate.json'), 'utf8');
    const { code } = await run(
      ['estimate', dir, '--out', out],
      namedCore(() => {
        const result = handMadeResult();
        result.estimate.model.aicc = Number.NaN; // publish refuses it
        return result;
      }),
    );
    expect(code).toBe(1);
    expect(readFileSync(join(out, 'estimate.json'), 'utf8')).toBe(before);
    expect(readdirSync(room).sort()).toEqual(['good', 'out']);
  });
});

describe('several folders', () => {
  it('are each estimated, what fails in one stops no other, the worst code counts', async () => {
    const out = join(room, 'out');
    const dirs = ['good', 'bad', 'broken', 'good2'].map(survey);
    const { code, stdout, stderr } = await run([
      'estimate',
      ...dirs,
      join(room, 'nowhere'),
      '--out',
      out,
    ]);
    expect(code).toBe(1);
    expect(readdirSync(out).sort()).toEqual(['good', 'good2']);
    expect(stderr).toContain('bad/transects.csv row 7, length_m: "3O"');
    expect(stderr).toContain('notice: good2/transects.csv row 3');
    const table = stdout.split('\n').slice(-7);
    expect(table[0]).toMatch(/^Survey +Mussels +Interval +Area \(ha\) +Depth +Notices$/);
    expect(table[1]).toMatch(/^good +184,000 +121,000 to 279,000 +14\.8 +0\.5 to 6\.1 m +1$/);
    expect(table[2]).toMatch(/^bad +errors in the data$/);
    expect(table[3]).toMatch(/^broken +error of the program$/);
    expect(table[4]).toMatch(/^good2 +184,000/);
    expect(table[5]).toMatch(/^nowhere +errors in the data$/);
  });

  it('give 2 when the data are the worst', async () => {
    const dirs = ['good', 'bad'].map(survey);
    expect((await run(['check', ...dirs])).code).toBe(2);
    expect((await run(['estimate', ...dirs, '--out', join(room, 'out')])).code).toBe(2);
  });

  it('of one name get folders of their own', async () => {
    const out = join(room, 'out');
    const dirs = ['a/lake', 'b/lake', 'c/Lake'].map(survey);
    expect((await run(['estimate', ...dirs, '--out', out])).code).toBe(0);
    expect(readdirSync(out).sort()).toEqual(['Lake-3', 'lake', 'lake-2']);
  });

  it('of one name are told apart by their paths', async () => {
    const [a, b] = ['a/bad', 'b/bad'].map(survey);
    const { stdout, stderr } = await run(['check', `${a}/`, `${b}`]);
    expect(stderr).toContain(`${a}/transects.csv row 7, length_m: "3O"`);
    expect(stderr).toContain(`${b}/transects.csv row 7, length_m: "3O"`);
    expect(stdout).toBe(
      [a, b].map((dir) => `${dir}: cannot be estimated yet (1 error, 1 notice)\n`).join(''),
    );
  });

  it('are a list in JSON', async () => {
    const dirs = ['good', 'bad'].map(survey);
    const { stdout } = await run(['estimate', '--json', ...dirs]);
    const list = JSON.parse(stdout) as { folder: string; estimate: { lake: string } | null }[];
    expect(list.map((l) => [l.folder, l.estimate?.lake ?? null])).toEqual([
      [dirs[0], 'good'],
      [dirs[1], null],
    ]);
  });
});

describe('OUT', () => {
  const untouched: Core = {
    readGivenFiles: () => Promise.reject(new Error('must not be reached')),
    readAnswersFile: () => Promise.reject(new Error('must not be reached')),
    importGiven: () => Promise.reject(new Error('must not be reached')),
    judge: () => Promise.reject(new Error('must not be reached')),
    estimateSurvey: () => Promise.reject(new Error('must not be reached')),
    rehearseSurvey: () => Promise.reject(new Error('must not be reached')),
    treatSurvey: () => Promise.reject(new Error('must not be reached')),
    readPlanned: () => {
      throw new Error('must not be reached');
    },
    describeBed: () => Promise.reject(new Error('must not be reached')),
  };

  async function refused(argv: string[], sentence: string): Promise<void> {
    const { code, stderr } = await run(argv, untouched);
    expect(code).toBe(64);
    expect(stderr).toContain(sentence);
  }

  it('is replaced when it is empty or an earlier result, and then holds no old file', async () => {
    const out = join(room, 'out');
    const dir = survey('good');
    mkdirSync(out);
    expect((await run(['estimate', dir, '--out', out])).code).toBe(0);
    writeFileSync(join(out, 'grid.tif.aux.xml'), 'left by a GIS');
    const second = await run(
      ['estimate', dir, '--out', out],
      namedCore(() => ({ ...handMadeResult(), bed: null })),
    );
    expect(second.code).toBe(0);
    expect(readdirSync(out).sort()).toEqual(RESULT_FILES.filter((f) => f !== 'grid.tif').sort());
    expect(readdirSync(room).sort()).toEqual(['good', 'out']);
  });

  it('is left alone when it holds anything else, before any work', async () => {
    const out = join(room, 'out');
    const dir = survey('good');
    mkdirSync(out);
    writeFileSync(join(out, 'thesis.docx'), 'years of work');
    await refused(['estimate', dir, '--out', out], 'is not empty and holds no earlier result');
    writeFileSync(join(out, 'estimate.json'), '{"schema":"somebody/else/1"}');
    await refused(['estimate', dir, '--out', out], 'is not empty and holds no earlier result');
    writeFileSync(join(out, 'estimate.json'), '{"schema":"shoalwise/estimate/1"}');
    await refused(
      ['estimate', dir, '--out', out],
      'besides an earlier result this folder holds "thesis.docx"',
    );
    expect(readFileSync(join(out, 'thesis.docx'), 'utf8')).toBe('years of work');
  });

  it('cannot be a file, the survey folder, one in it or one above it', async () => {
    const dir = survey('good');
    await refused(
      ['estimate', dir, '--out', join(dir, 'transects.csv')],
      'cannot lie in the survey folder',
    );
    writeFileSync(join(room, 'file'), '');
    await refused(['estimate', dir, '--out', join(room, 'file')], 'this is a file');
    await refused(['estimate', dir, '--out', dir], 'cannot lie in the survey folder');
    await refused(
      ['estimate', dir, '--out', join(dir, 'results')],
      'cannot lie in the survey folder',
    );
    await refused(['estimate', dir, '--out', room], 'lies in it and would be replaced');
    symlinkSync(dir, join(room, 'link'));
    await refused(
      ['estimate', dir, '--out', join(room, 'link', 'results')],
      'cannot lie in the survey folder',
    );
    await refused(['estimate', dir, '--out', '.'], 'the folder you are in');
  });

  it('of several folders cannot put a result over one of the surveys', async () => {
    const dirs = ['good', 'good2'].map(survey);
    await refused(['estimate', ...dirs, '--out', room], 'cannot lie in the survey folder');
  });
});
