/** What is typed: help, and wrong command lines (64, one sentence, nothing read). Expected texts by hand. */

import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Core } from '../../src/cli/core.ts';
import { main } from '../../src/cli/main.ts';
import { testFolder } from '../helpers/folder.ts';
import { keepingTerminal, namedCore } from './terminal.ts';

const COMMANDS = [
  'import',
  'check',
  'estimate',
  'rehearse',
  'areas',
  'compare',
  'plan',
  'batch',
  'publish',
  'export',
  'sheets',
  'differences',
  'serve',
];

/** A wrong command line is refused before any work. */
const NO_WORK: Core = {
  readGivenFiles: () => Promise.reject(new Error('read')),
  readAnswersFile: () => Promise.reject(new Error('answered')),
  importGiven: () => Promise.reject(new Error('imported')),
  judge: () => Promise.reject(new Error('judged')),
  estimateSurvey: () => Promise.reject(new Error('estimated')),
  rehearseSurvey: () => Promise.reject(new Error('rehearsed')),
  treatSurvey: () => Promise.reject(new Error('treated')),
  readPlanned: () => {
    throw new Error('planned');
  },
  describeBed: () => Promise.reject(new Error('described')),
};

async function run(argv: string[], core: Core = NO_WORK) {
  const terminal = keepingTerminal();
  const code = await main(argv, terminal, core);
  return { code, stdout: terminal.stdout, stderr: terminal.stderr };
}

describe('help', () => {
  it('names the commands, one a line', async () => {
    const { code, stdout, stderr } = await run(['--help']);
    expect([code, stderr]).toEqual([0, '']);
    for (const name of COMMANDS) expect(stdout).toMatch(new RegExp(`^  ${name} +\\S.*$`, 'm'));
    expect(stdout).not.toContain('--bootstrap');
  });

  it.each(COMMANDS)('of %s shows that command alone, in two ways', async (name) => {
    const { code, stdout, stderr } = await run([name, '--help']);
    expect([code, stderr]).toEqual([0, '']);
    const first = { import: 'FILES', batch: 'LIST.csv' }[name] ?? 'DIR';
    expect(stdout).toMatch(new RegExp(`^Usage: shoalwise ${name} ${first}`));
    expect(stdout).toMatch(new RegExp(`\nExamples?:\n  shoalwise ${name} my-lake`));
    expect(stdout).toContain('Exit codes: 0 done');
    for (const other of COMMANDS)
      if (other !== name) expect(stdout).not.toContain(`shoalwise ${other}`);
    expect(await run(['help', name])).toEqual({ code, stdout, stderr });
    expect(await run([name, '-h', '--fast'])).toEqual({ code, stdout, stderr });
  });

  it.each<[string, string[]]>([
    [
      'import',
      [
        'FILES…',
        '--into DIR',
        '--answers FILE',
        '--answer ID=VALUE',
        '--accept ID',
        '--yes',
        '--write-answers FILE',
        '--list-all',
        '-h, --help',
      ],
    ],
    ['check', ['DIR…', '--json', '--list-all', '-h, --help']],
    [
      'estimate',
      [
        'DIR…',
        '--out OUT',
        '--json',
        '--bootstrap B',
        '--reselect',
        '--keep-as NAME',
        '--language LANGUAGE',
        '--threads T',
        '--list-all',
        '--work FOLDER',
        '--shard I/N',
        '--gather',
        '--slurm',
        '--slurm-dry-run',
        '--tasks N',
        '-h, --help',
      ],
    ],
    [
      'rehearse',
      [
        'DIR…',
        '--surveys N',
        '--from-truth',
        '--json',
        '--threads T',
        '--list-all',
        '--work FOLDER',
        '--shard I/N',
        '--gather',
        '--slurm',
        '--slurm-dry-run',
        '--tasks N',
        '-h, --help',
      ],
    ],
    [
      'areas',
      [
        'DIR',
        '--hectares X',
        '--volume-m3 V',
        '--out OUT',
        '--layer M',
        '--least-area M2',
        '--least-width M',
        '--margin M',
        '--parts N',
        '--exclude FILE',
        '--list-all',
        '-h, --help',
      ],
    ],
    [
      'serve',
      ['DIR', '--open', '--port P', '--basemap URL', '--no-estimate', '--list-all', '-h, --help'],
    ],
  ])('of %s has its arguments and options, and no other', async (name, expected) => {
    const { stdout } = await run([name, '--help']);
    const listed = stdout
      .slice(stdout.indexOf('Arguments:'), stdout.indexOf('Example'))
      .matchAll(/^ {2}(\S.*?) {2}/gm);
    expect([...listed].map((m) => m[1])).toEqual(expected);
  });

  it('says what holds when an option is left out', async () => {
    const text = async (name: string) => (await run([name, '--help'])).stdout.replace(/\s+/g, ' ');
    expect(await text('estimate')).toContain('(default: one a core)');
    expect(await text('estimate')).toContain('bootstrap.replicates of analysis.json, 0 without it');
    expect(await text('rehearse')).toContain('(default: from the fitted model)');
    expect(await text('serve')).toContain('(default: 7420, or a free one when it is taken)');
  });

  it.each([[], ...COMMANDS.map((name) => [name])])(
    '%s fits 80 columns and has no escape codes',
    async (...argv) => {
      const { stdout } = await run([...argv, '--help']);
      expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
      expect(stdout).not.toContain('\u001b');
    },
  );

  it('is not the version', async () => {
    const { code, stdout } = await run(['--version']);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
  });
});

const NUMBER = 'is not a whole number from';

describe('a wrong command line: 64, one line on standard error, nothing else', () => {
  it.each<[string[], string]>([
    [
      [],
      'a command is expected: import, check, estimate, rehearse, areas, compare, plan, batch, publish, export, sheets, differences or serve',
    ],
    [
      ['help', 'nix'],
      'a command is expected: import, check, estimate, rehearse, areas, compare, plan, batch, publish, export, sheets, differences or serve',
    ],
    [
      ['measure', 'x'],
      "unknown command 'measure'; import, check, estimate, rehearse, areas, compare, plan, batch, publish, export, sheets, differences or serve is expected",
    ],
    [['estimat', 'x'], "unknown command 'estimat' (Did you mean estimate?)"],
    [['--json', 'check', 'x'], "unknown option '--json'; --version or --help is expected"],
    [['check'], "check: missing required argument 'DIR'"],
    [['import', 'x'], "import: required option '--into <DIR>' not specified"],
    [['import', 'x', '--into', 'y', '--answer', 'ft'], '--answer: "ft" is no ID=VALUE'],
    [['serve'], "serve: missing required argument 'DIR'"],
    [['serve', 'a', 'b'], 'serve: too many arguments'],
    [['check', ''], 'the name of a survey folder is empty'],
    [['serve', ''], 'the name of a survey folder is empty'],
    [['check', 'a', './a/'], 'the survey folder "./a/" is given twice'],
    [
      ['check', 'x', '--fast'],
      "check: unknown option '--fast'; --json, --list-all or --help is expected (see shoalwise check --help)",
    ],
    [['check', 'x', '--jsn'], "unknown option '--jsn' (Did you mean --json?)"],
    [['check', 'x', '--out', 'y'], "check: unknown option '--out'"],
    [['check', '-lake'], "check: unknown option '-lake'"],
    [['estimate', 'x'], 'estimate: --out OUT, the folder for the results, or --json is expected'],
    [['rehearse', 'x', '--surveys', '2', '--gather'], 'rehearse: --work FOLDER is expected'],
    [['rehearse', 'x', '--surveys', '2', '--work', 'w'], 'rehearse: with --work one of --shard'],
    [
      ['rehearse', 'x', '--surveys', '2', '--work', 'w', '--shard', '3/2'],
      '--shard: "3/2" is no share',
    ],
    [['estimate', 'x', '--out'], "option '--out <OUT>' argument missing"],
    [['estimate', 'x', '--out', ''], '--out: the value is empty'],
    [['estimate', 'x', '--out', '--json'], '--out: "--json" is an option, a folder is expected'],
    [['estimate', 'x', '--out', 'a', '--out', 'b'], '--out is given twice'],
    [['estimate', 'x', '--json', '--bootstrap', 'x'], `--bootstrap: "x" ${NUMBER} 0 to 1000000`],
    [['estimate', 'x', '--json', '--bootstrap', '-1'], `--bootstrap: "-1" ${NUMBER}`],
    [['estimate', 'x', '--json', '--bootstrap=-1'], `--bootstrap: "-1" ${NUMBER}`],
    [['estimate', 'x', '--json', '--bootstrap', '1e3'], `--bootstrap: "1e3" ${NUMBER}`],
    [['estimate', 'x', '--json', '--threads', '0'], `--threads: "0" ${NUMBER} 1 to`],
    [['estimate', 'x', '--json', '--surveys', '5'], "estimate: unknown option '--surveys'"],
    [['rehearse', 'x'], "rehearse: required option '--surveys <N>' not specified"],
    [['rehearse', 'x', '--surveys', '1'], `--surveys: "1" ${NUMBER} 2 to 1000000`],
    [['rehearse', 'x', '--surveys', '2.5'], `--surveys: "2.5" ${NUMBER}`],
    [['rehearse', 'x', '--surveys', '5', '--bootstrap', '5'], "unknown option '--bootstrap'"],
    [['serve', 'x', '--port', '65536'], `--port: "65536" ${NUMBER} 0 to 65535`],
    [['serve', 'x', '--basemap', 'tiles.png'], '--basemap "tiles.png" is not a web address'],
  ])('%j', async (argv, sentence) => {
    const { code, stdout, stderr } = await run(argv);
    expect(stderr).toContain(sentence);
    expect(stderr).toMatch(/^shoalwise: [^\n]+\n$/);
    expect([code, stdout]).toEqual([64, '']);
  });

  it('shows no control character of what was typed', async () => {
    expect((await run(['check', 'x', '--\u001b[2J'])).stderr).toContain('\\u001b[2J');
    expect((await run(['rehearse', 'x', '--surveys', '\u0007'])).stderr).toContain('"\\u0007"');
  });
});

describe('a name that begins with a dash', () => {
  it('is a folder after --, and as ./-name', async () => {
    const folder = join(testFolder(), '-good');
    mkdirSync(folder);
    const here = process.cwd();
    process.chdir(join(folder, '..'));
    try {
      for (const argv of [
        ['check', '--', '-good'],
        ['check', '--list-all', '--', '-good'],
        ['check', './-good'],
      ])
        expect(await run(argv, namedCore())).toMatchObject({
          code: 0,
          stdout: '-good: can be estimated (no errors, 1 notice)\n',
        });
    } finally {
      process.chdir(here);
    }
  });
});
