/** shoalwise import on disk: what is written, what is refused, exit codes. Expected texts by hand. */

import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import type { Answer, ImportOutcome, Question } from '../../shared/importing.ts';
import type { Core } from '../../src/cli/core.ts';
import { main } from '../../src/cli/main.ts';
import { askerWith } from '../../src/import/ask.ts';
import { recordText } from '../../src/import/record.ts';
import * as pipeline from '../../src/pipeline.ts';
import { baseSurvey } from '../helpers/base-survey.ts';
import { testFolder } from '../helpers/folder.ts';
import { keepingTerminal } from './terminal.ts';

const parent = testFolder();
const latin = (text: string) => Uint8Array.from(text, (c) => c.charCodeAt(0));
const room = (): string => mkdtempSync(join(parent, 'room-'));

function folderOf(texts: Record<string, string>): string {
  const folder = room();
  for (const [name, text] of Object.entries(texts)) writeFileSync(join(folder, name), text);
  return folder;
}

async function run(argv: string[], core: Core = pipeline) {
  const terminal = keepingTerminal();
  const code = await main(['import', ...argv], terminal, core);
  return { code, stdout: terminal.stdout, stderr: terminal.stderr };
}

describe('a survey that is in our format', () => {
  it('comes in byte for byte, with import.json, without a question', async () => {
    const into = join(room(), 'minnow-pond');
    const texts = baseSurvey();
    const { code, stdout, stderr } = await run([folderOf(texts), '--into', into]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toContain(`Written to ${into}\nminnow-pond: can be estimated`);
    expect(readdirSync(into).sort()).toEqual([...Object.keys(texts), 'import.json'].sort());
    for (const [name, text] of Object.entries(texts))
      expect(readFileSync(join(into, name), 'utf8')).toBe(text);
    const record = JSON.parse(readFileSync(join(into, 'import.json'), 'utf8'));
    expect(record).toMatchObject({ schema: 'shoalwise/import/1', questions: [] });
    expect(record.made).toHaveLength(Object.keys(texts).length);
  });

  it('with errors in its cells is brought in, the errors are told with their cells, exit 2', async () => {
    const into = join(room(), 'pond');
    const texts = baseSurvey();
    texts['habitat.csv'] = texts['habitat.csv'].replace('T1,0,sand', 'T1,0,sandy');
    const { code, stdout, stderr } = await run([folderOf(texts), '--into', into]);
    expect(code).toBe(2);
    expect(stderr).toContain('pond/habitat.csv row 2, substrate: unknown substrate "sandy"');
    expect(stdout).toContain('cannot be estimated yet');
    expect(existsSync(join(into, 'habitat.csv'))).toBe(true);
  });
});

describe('nothing is written', () => {
  it('where nothing of a survey was given', async () => {
    const into = join(room(), 'out');
    const folder = folderOf({ 'letter.doc': 'Dear all' });
    const { code, stderr } = await run([folder, '--into', into]);
    expect(code).toBe(2);
    expect(stderr).toContain('letter.doc: nothing of a survey was found in these files');
    expect(existsSync(into)).toBe(false);
  });

  it.each<[string, (into: string) => void, string]>([
    [
      'over a folder of somebody else',
      (into) => writeFileSync(join(into, 'thesis.txt'), ''),
      'this folder is not empty and holds no earlier result',
    ],
    [
      'over corrections that were made to an earlier import',
      (into) => {
        writeFileSync(
          join(into, 'import.json'),
          recordText([], [], [], new Map([['habitat.csv', new Uint8Array([1])]])),
        );
        writeFileSync(join(into, 'habitat.csv'), 'corrected');
      },
      'habitat.csv was changed since it was brought in',
    ],
  ])('%s', async (_, put, says) => {
    const into = room();
    put(into);
    const before = readdirSync(into);
    const { code, stderr } = await run([folderOf(baseSurvey()), '--into', into]);
    expect(code).toBe(64);
    expect(stderr).toContain(says);
    expect(readdirSync(into)).toEqual(before);
  });

  it('over the files that are brought in', async () => {
    const folder = folderOf(baseSurvey());
    const { code, stderr } = await run([join(folder, 'habitat.csv'), '--into', folder]);
    expect(code).toBe(64);
    expect(stderr).toContain('nothing was written, name another folder');
  });

  /** beside a sound survey, whose files would be brought in without a question */
  it.each<[string, string, Uint8Array, string]>([
    [
      'of a zip that unpacks to a thousand times its size',
      'maps.zip',
      zipSync({ 'lake.shp': new Uint8Array(25_000_000) }),
      'maps.zip: "lake.shp": unpacks to 25 MB',
    ],
    ['of a shapefile that breaks off', 'lake.shp', latin('\0\0\x27\x0a'), 'lake.shp: '],
    ['of a database that is no GeoPackage', 'lake.gpkg', latin('SQLite format 3\0'), 'lake.gpkg: '],
    ['of a raster that breaks off', 'depth map.tif', latin('II*\0\x08\0\0\0'), 'depth map.tif: '],
    ['of a workbook that is none', 'dives.xlsx', latin('PK\x03\x04 and no more'), 'dives.xlsx'],
    [
      'of a sheet of a million columns',
      'dives.csv',
      latin(`${'a,'.repeat(1e6)}\n`),
      'dives.csv row 1: 1,000,001 cells',
    ],
    ['of answers that cannot be read', 'import.json', latin('{'), 'import.json: not valid JSON'],
  ])('%s', async (_, name, bytes, says) => {
    const into = join(room(), 'out');
    const folder = folderOf(baseSurvey());
    writeFileSync(join(folder, name), bytes);
    const { code, stdout, stderr } = await run([folder, '--into', into]);
    expect(code).toBe(2);
    expect(stderr).toMatch(new RegExp(`^${says}`, 'm'));
    expect(stdout).toContain('Nothing was written.');
    expect(existsSync(into)).toBe(false);
  });

  it('of two files of one name', async () => {
    const [one, other] = [folderOf({ 'lake.csv': 'a' }), folderOf({ 'lake.csv': 'b' })];
    const { code, stderr } = await run([one, other, '--into', join(room(), 'out')]);
    expect(code).toBe(2);
    expect(stderr).toContain('another file of this name is brought in as well');
  });
});

it('a lake without dives comes in with empty tables', async () => {
  const into = join(room(), 'pond');
  const folder = folderOf({ 'shore line.geojson': baseSurvey()['outline.geojson'] });
  const { code, stdout, stderr } = await run([folder, '--into', into, '--accept', 'layers.roles']);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  expect(stdout).toContain('pond: the lake alone; it has no dives yet');
  expect(readFileSync(join(into, 'detections.csv'), 'utf8')).toMatch(/^transect,role,.*\n$/);
  const { features } = JSON.parse(readFileSync(join(into, 'outline.geojson'), 'utf8'));
  const given = JSON.parse(baseSurvey()['outline.geojson']);
  expect(features[0].geometry).toEqual(given.features[0].geometry);
});

it('an earlier import that nobody worked on is replaced', async () => {
  const into = join(room(), 'pond');
  const folder = folderOf(baseSurvey());
  expect((await run([folder, '--into', into])).code).toBe(0);
  expect((await run([folder, '--into', into])).code).toBe(0);
});

describe('questions', () => {
  const UNIT: Question = {
    kind: 'choice',
    id: 'depth.unit',
    about: 'depth.shp, column DEPTH',
    ask: 'Which unit do these depths have?',
    evidence: [
      '412 of 418 values lie between 0 and 12; the divers’ depths there are 3.27 times smaller.',
    ],
    certain: false,
    pictures: [],
    options: [
      { value: 'm', label: 'metres' },
      { value: 'ft', label: 'feet' },
    ],
    proposal: 'ft',
  };
  const COLUMNS: Question = {
    ...UNIT,
    kind: 'matching',
    id: 'transects.columns',
    about: 'dives.csv',
    ask: 'Which column is what?',
    certain: true,
    keys: [{ key: 'rope', label: 'Rope' }],
    options: [{ value: 'transect', label: 'the label' }],
    proposal: { rope: 'transect' },
  };
  const LEVEL: Question = {
    ...UNIT,
    kind: 'number',
    id: 'depth.level',
    ask: 'How high was the lake above the datum?',
    unit: 'm',
    least: 0,
    most: 9000,
    proposal: null,
  };
  const coreAsking = (list: Question[]): Core => ({
    ...pipeline,
    async importGiven(_, asked) {
      const { ask, asked: all } = askerWith(asked);
      for (const question of list) ask(question);
      const questions = all();
      const open = questions.some(({ answer }) => answer === null);
      const made = new Map([['transects.csv', new Uint8Array([65])]]);
      if (!open)
        made.set('import.json', new TextEncoder().encode(recordText([], questions, [], made)));
      const outcome: ImportOutcome = {
        questions,
        findings: [],
        remarks: [],
        pictures: [],
        files: open ? null : made,
      };
      return { ...outcome, judged: open ? null : { findings: [], ok: true } };
    },
  });
  const core = coreAsking([COLUMNS, UNIT, LEVEL]);
  const files = folderOf({ 'dives.csv': 'Rope\n1\n' });
  const fresh = () => join(room(), 'out');

  it('that are open are listed with evidence, proposal and how to answer; exit 2, nothing written', async () => {
    const into = fresh();
    const { code, stdout } = await run([files, '--into', into], core);
    expect(code).toBe(2);
    expect(existsSync(into)).toBe(false);
    expect(stdout).toContain('1. Which column is what?\n   (dives.csv)\n');
    expect(stdout).toContain('   Proposed (certain):\n     Rope: → transect\n');
    expect(stdout).toContain('2. Which unit do these depths have?\n');
    expect(stdout).toContain('     ft: feet  (proposed)\n'.replace('  (', ' ('));
    expect(stdout).toContain('to answer: --accept depth.unit or --answer depth.unit=m\n');
    expect(stdout).toContain('     a number from 0 to 9000 m\n');
    expect(stdout).toContain('3 questions are open; nothing was written.');
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it('are answered one by one, and then the survey is written', async () => {
    const into = fresh();
    const argv = [files, '--into', into, '--yes', '--accept', 'depth.unit'];
    const open = await run(argv, core);
    expect(open.stdout).toContain('1 question is open');
    const { code } = await run([...argv, '--answer', 'depth.level=271.4'], core);
    expect(code).toBe(0);
    const answered = answersOf(join(into, 'import.json'));
    expect(answered).toEqual({
      'transects.columns': { rope: 'transect' },
      'depth.unit': 'ft',
      'depth.level': 271.4,
    });
    const again = fresh();
    const replayed = await run(
      [files, '--into', again, '--answers', join(into, 'import.json')],
      core,
    );
    expect(replayed.code).toBe(0);
    expect(answersOf(join(again, 'import.json'))).toEqual(answered);
  });

  it('are taken in any case of the letters, and a coordinate system by its number', async () => {
    const into = fresh();
    const system: Question = {
      ...UNIT,
      id: 'maps.crs',
      options: [{ value: 'EPSG:26915', label: 'UTM zone 15N' }],
      proposal: null,
    } as Question;
    const typed = ['--answer', 'depth.unit=FT', '--answer', 'maps.crs=26915'];
    const { code } = await run([files, '--into', into, ...typed], coreAsking([UNIT, system]));
    expect(code).toBe(0);
    expect(answersOf(join(into, 'import.json'))).toEqual({
      'depth.unit': 'ft',
      'maps.crs': 'EPSG:26915',
    });
  });

  it('whose proposal lacks a column stay open when it is accepted, and say which', async () => {
    const half: Question = { ...COLUMNS, keys: [...COLUMNS.keys, { key: 'q', label: 'Q7' }] };
    const typed = ['--yes', '--accept', 'transects.columns'];
    const into = fresh();
    const { code, stdout } = await run([files, '--into', into, ...typed], coreAsking([half]));
    expect(code).toBe(2);
    expect(existsSync(into)).toBe(false);
    expect(stdout).toContain('not possible here: nothing is proposed for Q7.\n');
    expect(stdout).toContain('     Rope: → transect\n     Q7: ?\n');
    expect(stdout).toContain('   to answer: in the file of --write-answers\n');
    expect(stdout).not.toContain('--yes accepts');
  });

  it('are written as a list, filled in, and taken', async () => {
    const list = join(room(), 'answers.json');
    expect((await run([files, '--into', fresh(), '--write-answers', list], core)).code).toBe(2);
    const kept = JSON.parse(readFileSync(list, 'utf8'));
    expect(kept.questions[1]).toMatchObject({
      id: 'depth.unit',
      options: { m: 'metres', ft: 'feet' },
      proposal: 'ft',
      accept: false,
      answer: null,
    });
    kept.questions[0].accept = true;
    kept.questions[1].answer = 'm';
    kept.questions[2].answer = 12;
    writeFileSync(list, JSON.stringify(kept));
    expect((await run([files, '--into', fresh(), '--write-answers', list], core)).stderr).toContain(
      'this list is there already',
    );
    expect((await run([files, '--into', fresh(), '--answers', list], core)).code).toBe(0);
  });

  it.each([
    ['--answer depth.level=high', 'high is not a number (m)', 64],
    ['--accept depth.units', 'depth.units: there is no such question', 64],
    ['--answers nowhere.json', 'nowhere.json: there is no such file', 2],
  ])('%s is refused', async (typed, says, code) => {
    const refused = await run([files, '--into', fresh(), ...typed.split(' ')], core);
    expect(refused.code).toBe(code);
    expect(refused.stderr).toContain(says);
  });
});

function answersOf(path: string): Record<string, Answer> {
  const { questions } = JSON.parse(readFileSync(path, 'utf8'));
  return Object.fromEntries(questions.map((q: { id: string; answer: Answer }) => [q.id, q.answer]));
}
