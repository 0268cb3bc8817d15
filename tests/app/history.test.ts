/** history.csv through zip, opening, correcting and saving again. Expected lines by hand. */

import { describe, expect, it } from 'vitest';
import type { Edit, Work } from '../../src/app/contract.ts';
import { makeEdit, takeBackAtOnce } from '../../src/app/state/edits.ts';
import { initialState, type PageState, reduce } from '../../src/app/state/reducer.ts';
import { appended, historyOfChanges, withHistory } from '../../src/app/storage/history-file.ts';
import { oneSurvey } from '../../src/app/storage/survey-files.ts';
import { surveyPackage } from '../../src/app/storage/survey-package.ts';
import { unpackSurvey } from '../../src/app/storage/survey-zip.ts';
import { packZip } from '../../src/publish/pack-zip.ts';
import { readFolder } from '../../src/read/index.ts';
import { baseSurvey, toFolder } from '../helpers/base-survey.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const text = (file: Uint8Array | string | undefined) =>
  typeof file === 'string' ? file : new TextDecoder('utf-8', { ignoreBOM: true }).decode(file);
const HEADER = 'when,who,table,row,column,old,new,why\r\n';
const AT = '2026-07-01T10:00:00.000Z';
const change = (over: Partial<Edit> = {}): Omit<Edit, 'before'> => ({
  file: 'transects.csv',
  row: 2,
  column: 'length_m',
  after: '31',
  reason: 'sheet read again',
  at: AT,
  who: 'Ann',
  ...over,
});
const FIRST = `${AT},Ann,transects.csv,2,length_m,30,31,sheet read again\r\n`;

const opened = async (zip: Uint8Array): Promise<Work> => ({
  ...oneSurvey(await unpackSurvey(zip), 'pond'),
  edits: [],
});
const saved = (work: Work) => packZip(surveyPackage(work, 'Minnow Pond'), AT);
const readHistory = async (files: Map<string, Uint8Array>) => readFolder({ name: 'pond', files });

describe('the history', () => {
  it('goes on over zip, opening, a change and the next zip; what stood there stays byte for byte', async () => {
    const first = makeEdit({ ...toFolder(baseSurvey()), edits: [] }, change());
    const again = await opened(await saved(first));
    expect(text(again.files.get('history.csv'))).toBe(HEADER + FIRST);
    const second = makeEdit(
      again,
      change({ after: '30', who: '', reason: 'it was 30, "after all"' }),
    );
    const last = await opened(await saved(second));
    expect(text(last.files.get('history.csv'))).toBe(
      `${HEADER}${FIRST}${AT},,transects.csv,2,length_m,31,30,"it was 30, ""after all"""\r\n`,
    );
    const { history, findings } = await readHistory(last.files);
    expect(findings).toEqual([]);
    expect(history.map(({ who, old, new: now, why }) => [who, old, now, why])).toEqual([
      ['Ann', '30', '31', 'sheet read again'],
      ['', '31', '30', 'it was 30, "after all"'],
    ]);
    // saved once more without a change: nothing is added
    expect(text(surveyPackage(last, 'x').get('history.csv'))).toBe(
      text(last.files.get('history.csv')),
    );
  });

  it('changes no number and no fingerprint', async () => {
    const bare = toFolder(baseSurvey());
    const { fingerprint } = await readFolder(bare);
    const files = new Map(bare.files).set('history.csv', bytes(HEADER + FIRST));
    expect((await readHistory(files)).fingerprint).toBe(fingerprint);
  });

  it('keeps foreign columns and their order, and adds the line end that is missing', () => {
    const before =
      'why,what else,new,old,column,row,table,who,when\nx,y,2,1,a,3,t.csv,B,2026-01-01T00:00:00Z';
    const after = appended(before, [{ ...change(), before: '30' }]);
    expect(after).toBe(
      `${before}\r\nsheet read again,,31,30,length_m,2,transects.csv,Ann,${AT}\r\n`,
    );
  });

  it('what changes.csv of earlier releases held comes over', async () => {
    const old = `at,file,row,column,before,after,reason\r\n${AT},transects.csv,2,length_m,30,31,sheet read again\r\n`;
    const zip = await packZip(
      new Map<string, Uint8Array | string>([...toFolder(baseSurvey()).files, ['changes.csv', old]]),
      AT,
    );
    const { files } = await opened(zip);
    expect(files.has('changes.csv')).toBe(false);
    expect(text(files.get('history.csv'))).toBe(HEADER + FIRST.replace('Ann', ''));
    expect(historyOfChanges(bytes('at,what\n1,2\n'))).toBeNull();
  });
});

describe('a history that does not fit', () => {
  const HOSTILE: [string, Uint8Array][] = [
    ['another header', bytes('a,b\n1,2\n')],
    ['a column twice', bytes(`${HEADER.trim()},who\r\n`)],
    ['quotes that none closes', bytes(`${HEADER}${AT},"Ann,transects.csv,2,a,1,2,x\r\n`)],
    ['no text', new Uint8Array([0xff, 0xfe, 0x00, 0xd8])],
    ['NUL', bytes(`${HEADER}\0`)],
  ];

  it.each(HOSTILE)('%s: notices alone, kept beside a new one', async (_, file) => {
    const files = new Map(toFolder(baseSurvey()).files).set('history.csv', file);
    const { findings, history } = await readHistory(files);
    expect(history).toEqual([]);
    expect(new Set(findings.map(({ severity }) => severity))).toEqual(new Set(['notice']));
    const edits = [{ ...change(), before: '30' }];
    const out = withHistory(files, edits);
    const kept = [out.get('history-unread.csv'), out.get('history.csv')];
    if (kept[0] === undefined) expect(text(kept[1]).startsWith(text(file))).toBe(true);
    else expect([kept[0], kept[1]]).toEqual([file, HEADER + FIRST]);
  });

  it('rows that do not fit are told, the others read', async () => {
    const rows = [
      'yesterday,Ann,t.csv,2,a,1,2,x',
      `${AT},Ann,t.csv,two,a,1,2,x`,
      `${AT},Ann,t.csv,2,a,1,2,'=x`,
    ];
    const files = new Map(toFolder(baseSurvey()).files).set(
      'history.csv',
      bytes(`${HEADER}${rows.join('\r\n')}\r\n`),
    );
    const { findings, history } = await readHistory(files);
    expect(findings.map(({ row, column, code }) => [row, column, code])).toEqual([
      [2, 'when', 'history-unread'],
      [3, 'row', 'history-unread'],
    ]);
    expect(history.map(({ why }) => why)).toEqual(['=x']);
  });
});

describe('changes made at once', () => {
  const two = [
    { ...change({ together: 'x' }) },
    { ...change({ row: 3, together: 'x', reason: 'as row 2' }) },
  ];

  it('are taken back at once and done again at once, and other changes by themselves', () => {
    let state: PageState = {
      ...initialState('metric', 'light', false, 'survey', 'Ann'),
      workId: 'w',
    };
    state = { ...state, work: { ...toFolder(baseSurvey()), edits: [] } };
    const lengths = () =>
      [2, 3].map(
        (row) => text(state.work!.files.get('transects.csv')).split('\n')[row - 1]!.split(',')[11],
      );
    state = reduce(state, { type: 'edit', edit: change({ row: 2, after: '29' }) });
    state = reduce(state, { type: 'enter', edits: two, join: false });
    expect([lengths(), state.work!.edits.length]).toEqual([['31', '31'], 3]);
    state = reduce(state, { type: 'undo' });
    expect([lengths(), state.work!.edits.length, state.undone.length]).toEqual([
      ['29', '30'],
      1,
      2,
    ]);
    state = reduce(state, { type: 'redo' });
    expect([lengths(), state.work!.edits.length, state.undone.length]).toEqual([
      ['31', '31'],
      3,
      0,
    ]);
    state = reduce(reduce(state, { type: 'undo' }), { type: 'undo' });
    expect([lengths(), state.work!.edits.length]).toEqual([['30', '30'], 0]);
    expect(takeBackAtOnce(state.work!)).toBeNull();
  });
});
