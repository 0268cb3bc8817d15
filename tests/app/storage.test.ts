/** Surveys kept in the browser and carried in zips. */

import 'fake-indexeddb/auto';
import { readdir, readFile } from 'node:fs/promises';
import { describe, expect, it, vi } from 'vitest';
import { SURVEY_FILES } from '../../shared/survey-files.ts';
import type { Edit, Work } from '../../src/app/contract.ts';
import { contentId } from '../../src/app/state/files.ts';
import { draftFor } from '../../src/app/state/log-draft.ts';
import { appended } from '../../src/app/storage/history-file.ts';
import { ChangedElsewhere, KeptByNewer, openShelf } from '../../src/app/storage/keep.ts';
import { fetchDemo } from '../../src/app/storage/served.ts';
import { addedTo, oneSurvey } from '../../src/app/storage/survey-files.ts';
import { surveyPackage } from '../../src/app/storage/survey-package.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const work = (name: string, files: Record<string, string>, edits: Edit[] = []): Work => ({
  name,
  files: new Map(Object.entries(files).map(([n, t]) => [n, bytes(t)])),
  edits,
});
const change = (column: string, before: string, after: string, reason: string): Edit => ({
  file: 'detections.csv',
  row: 7,
  column,
  before,
  after,
  reason,
  at: '2026-07-01T10:00:00.000Z',
});

/** A method of the browser's store throws this error while `during` runs. */
async function failing<M extends string>(
  prototype: Record<M, unknown>,
  method: M,
  error: DOMException,
  during: () => Promise<void>,
): Promise<void> {
  const own = prototype[method];
  prototype[method] = () => {
    throw error;
  };
  try {
    await during();
  } finally {
    prototype[method] = own;
  }
}

describe('the shelf', () => {
  it('gives back what was saved, after it was opened anew', async () => {
    const first = work('pond', { 'transects.csv': 'a', 'depth.tif': '\u0000\u0001' }, [
      change('count', '3', '4', 'typo'),
    ]);
    await openShelf('t1').save('p', first, '12 mussels', '2026-07-01T10:00:00Z');
    expect(await openShelf('t1').load('p')).toEqual(first);
    expect(await openShelf('t1').load('other')).toBeNull();
  });

  it('makes way for a newer release, and then writes nothing more', async () => {
    const shelf = openShelf('t10');
    await shelf.save('p', work('pond', { 'transects.csv': 'a' }), null, '2026-07-01T10:00:00Z');
    // as a newer release would: it waits until no older one has the store open
    const newer = await new Promise<IDBDatabase>((done, fail) => {
      const opening = indexedDB.open('t10', 99);
      opening.onsuccess = () => done(opening.result);
      opening.onerror = () => fail(opening.error);
      opening.onblocked = () => fail(new Error('the older one holds the store'));
    });
    const next = work('pond', { 'transects.csv': 'b' });
    await expect(shelf.save('p', next, null, '2026-07-02T10:00:00Z')).rejects.toThrow(KeptByNewer);
    const kept = await new Promise((done) => {
      const asked = newer.transaction('files').objectStore('files').get(['p', 'transects.csv']);
      asked.onsuccess = () => done(asked.result);
    });
    expect(kept).toEqual(bytes('a'));
    newer.close();
  });

  it('writes changed files, drops removed ones, lists the latest first', async () => {
    const shelf = openShelf('t2');
    const first = work('pond', { 'transects.csv': 'a', 'habitat.csv': 'b' });
    await shelf.save('p', first, null, '2026-07-01T10:00:00Z');
    const second = { ...first, files: new Map([['transects.csv', bytes('changed')]]) };
    await shelf.save('p', second, '9 mussels', '2026-07-01T11:00:00Z');
    await shelf.save('q', work('bay', { 'transects.csv': 'c' }), null, '2026-07-01T10:30:00Z');
    expect((await shelf.load('p'))?.files).toEqual(second.files);
    expect(await shelf.recent()).toEqual([
      { id: 'p', name: 'pond', at: '2026-07-01T11:00:00Z', edits: 0, headline: '9 mussels' },
      { id: 'q', name: 'bay', at: '2026-07-01T10:30:00Z', edits: 0, headline: null },
    ]);
    await shelf.forget('p');
    expect(await shelf.load('p')).toBeNull();
    expect((await shelf.recent()).map((r) => r.id)).toEqual(['q']);
  });

  it('does not write over what another tab has kept since, not even in part', async () => {
    const [mine, theirs] = [openShelf('t4'), openShelf('t4')];
    const first = work('pond', { 'detections.csv': 'a' });
    await mine.save('p', first, null, '2026-07-01T10:00:00Z');
    const read = await theirs.load('p');
    expect(read).toEqual(first);
    const ours = work('pond', { 'detections.csv': 'b' }, [change('count', '1', '2', 'typo')]);
    await mine.save('p', ours, null, '2026-07-01T10:01:00Z');
    const other = work('pond', { 'detections.csv': 'c' }, [change('count', '1', '3', 'sheet')]);
    await expect(theirs.save('p', other, null, '2026-07-01T10:02:00Z')).rejects.toThrow(
      ChangedElsewhere,
    );
    expect(await mine.load('p')).toEqual(ours);
    // whoever reads what was kept may go on from there
    await theirs.load('p');
    await theirs.save('p', other, null, '2026-07-01T10:03:00Z');
    expect(await mine.load('p')).toEqual(other);
  });

  it('keeps two changes that follow each other faster than a save, and what is tapped for the next row', async () => {
    const shelf = openShelf('fast');
    const first = work('pond', { 'detections.csv': 'a' });
    await shelf.save('p', first, null, '2026-07-01T10:00:00Z');
    const second = work('pond', { 'detections.csv': 'b' }, [change('count', '1', '2', 'typo')]);
    const draft = { ...draftFor(2, 'detections'), foundM: '14.5' };
    const third = { ...work('pond', { 'detections.csv': 'c' }, second.edits), draft };
    await Promise.all([
      shelf.save('p', second, null, '2026-07-01T10:00:01Z'),
      shelf.save('p', third, null, '2026-07-01T10:00:01Z'),
    ]);
    expect(await openShelf('fast').load('p')).toEqual(third);
  });

  it('opens its store anew after the connection died, and still knows what another tab kept', async () => {
    const [mine, theirs] = [openShelf('t6'), openShelf('t6')];
    const first = work('pond', { 'detections.csv': 'a' });
    await mine.save('p', first, null, '2026-07-01T10:00:00Z');
    await theirs.load('p');
    const newer = work('pond', { 'detections.csv': 'b' }, [change('count', '1', '2', 'typo')]);
    await theirs.save('p', newer, null, '2026-07-01T10:01:00Z');
    const older = work('pond', { 'detections.csv': 'c' }, [change('count', '1', '3', 'sheet')]);
    const died = new DOMException('the connection is closed', 'InvalidStateError');
    await failing(IDBDatabase.prototype, 'transaction', died, async () => {
      await expect(mine.save('p', older, null, '2026-07-01T10:02:00Z')).rejects.toThrow('closed');
    });
    const opened = vi.spyOn(indexedDB, 'open');
    await expect(mine.save('p', older, null, '2026-07-01T10:03:00Z')).rejects.toThrow(
      ChangedElsewhere,
    );
    expect(opened).toHaveBeenCalledTimes(1);
    opened.mockRestore();
    expect(await mine.load('p')).toEqual(newer);
  });

  it('after a full disk goes on with what it knows, over the same connection', async () => {
    const shelf = openShelf('t7');
    await shelf.save('p', work('pond', { 'detections.csv': 'a' }), null, '2026-07-01T10:00:00Z');
    const opened = vi.spyOn(indexedDB, 'open');
    const next = work('pond', { 'detections.csv': 'b' }, [change('count', '1', '2', 'typo')]);
    const full = new DOMException('no room', 'QuotaExceededError');
    await failing(IDBObjectStore.prototype, 'put', full, async () => {
      await expect(shelf.save('p', next, null, '2026-07-01T10:01:00Z')).rejects.toThrow('no room');
    });
    await shelf.save('p', next, null, '2026-07-01T10:02:00Z');
    expect(opened).not.toHaveBeenCalled();
    opened.mockRestore();
    expect(await openShelf('t7').load('p')).toEqual(next);
  });

  it('does not write over a survey that it never read', async () => {
    const kept = work('pond', { 'detections.csv': 'a' }, [change('count', '1', '2', 'typo')]);
    await openShelf('t8').save('p', kept, null, '2026-07-01T10:00:00Z');
    const unread = openShelf('t8');
    const plain = work('pond', { 'detections.csv': 'b' });
    await expect(unread.save('p', plain, null, '2026-07-01T10:01:00Z')).rejects.toThrow(
      ChangedElsewhere,
    );
    expect(await unread.load('p')).toEqual(kept);
  });

  it('finds the survey with corrections that came from a served folder', async () => {
    const shelf = openShelf('t5');
    const from = (servedFrom: string, edits: Edit[]): Work => ({
      ...work('pond', { 'transects.csv': servedFrom }, edits),
      servedFrom,
    });
    const corrected = [change('count', '1', '2', 'typo')];
    await shelf.save('p1', from('here', corrected), null, '2026-07-01T10:00:00Z');
    await shelf.save('p2', from('here', []), null, '2026-07-01T11:00:00Z');
    await shelf.save('p3', from('there', corrected), null, '2026-07-01T12:00:00Z');
    expect(await shelf.correctedFrom('here')).toBe('p1');
    expect(await shelf.correctedFrom('nowhere')).toBeNull();
    expect((await shelf.load('p1'))?.servedFrom).toBe('here');
  });

  it('forgets the oldest beyond twelve, but none with changes and not the open one', async () => {
    const shelf = openShelf('t3');
    const edits = [change('count', '1', '2', 'typo')];
    for (let i = 0; i < 15; i++)
      await shelf.save(
        `w${i}`,
        work(`w${i}`, { 'transects.csv': String(i) }, i === 0 ? edits : []),
        null,
        `2026-07-${String(i + 1).padStart(2, '0')}`,
      );
    const left = (await shelf.recent()).map((r) => r.id);
    expect(left).toHaveLength(12);
    expect(left).toContain('w0');
    expect(left).toContain('w14');
    expect(left).not.toContain('w1');
  });

  it('knows the same files by their content', async () => {
    const a = new Map([
      ['x.csv', bytes('1')],
      ['y.csv', bytes('2')],
    ]);
    const turned = new Map([...a].reverse());
    const moved = new Map([
      ['x.csv', bytes('12')],
      ['y.csv', bytes('')],
    ]);
    expect(await contentId('pond', turned)).toBe(await contentId('pond', a));
    expect(await contentId('pond', moved)).not.toBe(await contentId('pond', a));
    expect(await contentId('bay', a)).not.toBe(await contentId('pond', a));
  });
});

describe('files that were chosen or dropped', () => {
  const at = (...paths: string[]) => paths.map((path) => ({ path, bytes: bytes(path) }));

  it('make one survey, by their names without regard to case', () => {
    const survey = oneSurvey(
      at('Pond 2026/Transects.CSV', 'Pond 2026/habitat.csv', 'Pond 2026/photo.csv'),
      'x',
    );
    expect(survey.name).toBe('Pond 2026');
    expect([...survey.files.keys()]).toEqual(['transects.csv', 'habitat.csv']);
  });

  it('of several folders the highest that holds transects.csv', () => {
    const survey = oneSurvey(
      at('all/depth.tif', 'all/b/transects.csv', 'all/a/transects.csv', 'all/a/old/transects.csv'),
      'x',
    );
    expect([...survey.files.values()].map((b) => new TextDecoder().decode(b))).toEqual([
      'all/a/transects.csv',
    ]);
  });

  it('without a folder take the name that is given', () => {
    expect(oneSurvey(at('transects.csv'), 'survey').name).toBe('survey');
  });

  it('without a file of a survey are refused', () => {
    expect(() => oneSurvey(at('holiday/photo.jpg'), 'x')).toThrow('No file of a survey was found');
  });
});

describe('the saved folder', () => {
  it('holds the files byte for byte, what the tables mean, and the changes', () => {
    const files = surveyPackage(
      work('pond', { 'transects.csv': 'a\r\n1\r\n' }, [change('count', '3', '4', 'typo')]),
      'Minnow Pond',
    );
    expect([...files.keys()]).toEqual(['transects.csv', 'history.csv', 'datapackage.json']);
    expect(files.get('transects.csv')).toEqual(bytes('a\r\n1\r\n'));
    expect(JSON.parse(files.get('datapackage.json') as string).title).toBe('Minnow Pond');
  });

  it('no cell of the changes can start a formula; numbers stay numbers', () => {
    const csv = appended('', [
      change('notes', '=1+1', '+cmd|x', '@SUM(A1)'),
      change('start_lon', '-93.5', '\t=2', 'he said "no", twice'),
      change('offset', '-x', '+1.5', '=HYPERLINK("x")'),
    ]);
    expect(csv!.split('\r\n').slice(1, 4)).toEqual([
      "2026-07-01T10:00:00.000Z,,detections.csv,7,notes,'=1+1,'+cmd|x,'@SUM(A1)",
      `2026-07-01T10:00:00.000Z,,detections.csv,7,start_lon,-93.5,'\t=2,"he said ""no"", twice"`,
      `2026-07-01T10:00:00.000Z,,detections.csv,7,offset,'-x,+1.5,"'=HYPERLINK(""x"")"`,
    ]);
  });
});

describe('files that are added', () => {
  const edit = {
    row: 2,
    column: 'a',
    before: '1',
    after: '2',
    reason: 'checked',
    at: '2026-07-01',
  };
  const open = {
    name: 'pond',
    files: new Map([
      ['transects.csv', bytes('t')],
      ['habitat.csv', bytes('h')],
    ]),
    edits: [
      { ...edit, file: 'transects.csv' },
      { ...edit, file: 'habitat.csv' },
    ],
  };
  const chosen = (single: boolean, ...names: string[]) => ({
    name: 'survey',
    files: new Map(names.map((name) => [name, bytes('new')])),
    single,
  });

  it('join the open survey in place of their like, whose changes go with it', () => {
    const { name, files, edits } = addedTo(open, chosen(true, 'habitat.csv', 'depth.tif'));
    expect(name).toBe('pond');
    expect([...files.keys()]).toEqual(['transects.csv', 'habitat.csv', 'depth.tif']);
    expect(files.get('habitat.csv')).toEqual(bytes('new'));
    expect(edits?.map((e) => e.file)).toEqual(['transects.csv']);
    expect(open.files.get('habitat.csv')).toEqual(bytes('h'));
  });

  it('are a survey of their own with transects, from a folder, or when nothing is open', () => {
    for (const [work, files] of [
      [open, chosen(true, 'transects.csv', 'habitat.csv')],
      [open, chosen(false, 'habitat.csv')],
      [null, chosen(true, 'habitat.csv')],
    ] as const)
      expect(addedTo(work, files)).toBe(files);
  });
});

it('takes the demo lake from the page itself where the program is in one file, and asks for nothing', async () => {
  const held = { textContent: '{"transects.csv":"transect\\nT1 ↓\\n","habitat.csv":""}' };
  vi.stubGlobal('document', { getElementById: (id: string) => (/demo/.test(id) ? held : null) });
  vi.stubGlobal('fetch', () => Promise.reject(new Error('asked')));
  try {
    const { name, files } = await fetchDemo();
    expect(name).toBe('demo-lake');
    expect(files.get('transects.csv')).toEqual(bytes('transect\nT1 ↓\n'));
    expect(files.get('habitat.csv')).toEqual(bytes(''));
  } finally {
    vi.unstubAllGlobals();
  }
});

it('asks the demo lake for all files that it has, and for no other', async () => {
  const fromDisk = async (url: string) =>
    readFile(new URL(`../../${url}`, import.meta.url)).then(
      (content) => new Response(new Uint8Array(content)),
      () => new Response(null, { status: 404 }),
    );
  vi.stubGlobal('fetch', fromDisk);
  vi.stubGlobal('document', { getElementById: () => null });
  try {
    const { files } = await fetchDemo();
    const there = await readdir(new URL('../../demo-lake/', import.meta.url));
    const expected = SURVEY_FILES.filter((name) => there.includes(name));
    expect([...files.keys()].sort()).toEqual(expected.sort());
  } finally {
    vi.unstubAllGlobals();
  }
});
