/** Files of others on the page: what begins an import and what opens a survey, and the desk where questions are answered. By hand. */

import { describe, expect, it } from 'vitest';
import type { Answer, GivenFile } from '../../shared/importing.ts';
import type { Work } from '../../src/app/contract.ts';
import type { AnswersGiven, ImportedView } from '../../src/app/import-contract.ts';
import { bringInDesk } from '../../src/app/state/bring-in.ts';
import { areForImport } from '../../src/app/storage/chosen-files.ts';

/** As a browser hands over a single file. */
const file = (name: string, text = '') =>
  Object.assign(new File([text], name), { webkitRelativePath: '' });
const HEADER = 'transect,date,design,primary,start_lat,start_lon,length_m\n';

describe('chosen files', () => {
  it.each<[string, File[], boolean]>([
    ['a survey in our format', [file('transects.csv', HEADER), file('habitat.csv')], false],
    [
      'with what lies beside it',
      [file('transects.csv', HEADER), file('truth.json'), file('README.md')],
      false,
    ],
    ['a single file of ours', [file('treatments.geojson')], false],
    [
      'a survey with a map of somebody else',
      [file('transects.csv', HEADER), file('lake.shp')],
      true,
    ],
    ['a spreadsheet', [file('Dives 2026.xlsx')], true],
    [
      'sheets with our name, but not our header',
      [file('transects.csv', 'Rope;Datum;Tiefe\n')],
      true,
    ],
    ['nothing that is known: the place says so', [file('letter.doc')], true],
  ])('%s', async (_, files, brings) => {
    expect(await areForImport(files)).toBe(brings);
  });
});

/** Asks for one unit, and makes one file of the answer. */
function desk() {
  const told: { read: string[][]; asked: AnswersGiven[]; names: string[]; ended: number } = {
    read: [],
    asked: [],
    names: [],
    ended: 0,
  };
  const made = (answer: Answer | null): ImportedView => ({
    questions: [],
    findings: [],
    remarks: [],
    pictures: [],
    files:
      answer === null
        ? null
        : new Map([
            ['depth.geojson', new TextEncoder().encode(String(answer))],
            ['habitat.csv', new TextEncoder().encode('same')],
          ]),
    judged: null,
  });
  const bringIn = bringInDesk(() => ({
    core: {
      async readGiven(files: GivenFile[]) {
        told.read.push(files.map(({ name }) => name));
        return { recognised: files.map(({ name }) => ({ name, as: 'a map' })) };
      },
      async importGiven(answers: AnswersGiven, name: string) {
        told.asked.push(answers);
        told.names.push(name);
        return made(answers.answers.get('depth.unit') ?? null);
      },
    },
    end: () => {
      told.ended += 1;
    },
    broken: new Promise<never>(() => {}),
  }));
  return { bringIn, told };
}

async function settled(bringIn: ReturnType<typeof desk>['bringIn']): Promise<void> {
  while (bringIn.get().busy !== null) await Promise.resolve();
}

const edit = { row: 2, column: 'x', before: '1', after: '2', reason: '', at: '' };
const OPEN: Work = {
  name: 'pond 2026',
  files: new Map([
    ['habitat.csv', new TextEncoder().encode('same')],
    ['depth.geojson', new TextEncoder().encode('old')],
  ]),
  edits: [
    { ...edit, file: 'habitat.csv' },
    { ...edit, file: 'depth.geojson' },
  ],
};

describe('the desk', () => {
  it('reads once, asks after each answer, and makes a survey of its own by the file’s name', async () => {
    const { bringIn, told } = desk();
    await bringIn.add([file('Long Lake.gpkg')], null);
    await settled(bringIn);
    expect(bringIn.get()).toMatchObject({ shown: true, name: 'Long Lake', busy: null });
    expect(bringIn.finished()).toBeNull();
    bringIn.answer('depth.unit', 'ft');
    await settled(bringIn);
    expect(told.read).toEqual([['Long Lake.gpkg']]);
    expect(told.asked).toHaveLength(2);
    expect(bringIn.finished()).toMatchObject({ name: 'Long Lake', edits: [] });
    bringIn.withdraw('depth.unit');
    await settled(bringIn);
    expect(bringIn.finished()).toBeNull();
  });

  it('joins the open survey: its files are read with the new ones, which stand in place of their like', async () => {
    const { bringIn, told } = desk();
    await bringIn.add([file('depth.geojson'), file('sheet.csv')], OPEN);
    await settled(bringIn);
    expect(told.read).toEqual([['depth.geojson', 'sheet.csv', 'habitat.csv']]);
    bringIn.answer('depth.unit', 'ft');
    await settled(bringIn);
    expect(told.names.at(-1)).toBe('pond 2026');
    // the depths are others now: a correction of the old ones has nothing to stand on
    expect(bringIn.finished()?.edits.map(({ file: name }) => name)).toEqual(['habitat.csv']);
    bringIn.join(null);
    await settled(bringIn);
    expect(told.read.at(-1)).toEqual(['depth.geojson', 'sheet.csv']);
  });

  it('takes a proposal by its name; an answer of one’s own stands in its place', async () => {
    const { bringIn, told } = desk();
    await bringIn.add([file('a.csv')], null);
    bringIn.accept('depth.unit');
    await settled(bringIn);
    expect([...told.asked.at(-1)!.accepted]).toEqual(['depth.unit']);
    bringIn.answer('depth.unit', 'm');
    await settled(bringIn);
    expect([...told.asked.at(-1)!.accepted]).toEqual([]);
  });

  it('is empty once it is left, or its last file is taken away', async () => {
    const { bringIn, told } = desk();
    await bringIn.add([file('a.csv')], null);
    await settled(bringIn);
    bringIn.remove(['a.csv']);
    expect(bringIn.get()).toMatchObject({ shown: false, files: [] });
    expect(told.ended).toBe(1);
  });
});
