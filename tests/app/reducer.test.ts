/** From one state of the page to the next: corrections, undo, redo, and what moved. */

import { describe, expect, it } from 'vitest';
import { noticeAt } from '../../shared/findings.ts';
import type { Edit, JudgedView, ResultView, Work } from '../../src/app/contract.ts';
import { editWords } from '../../src/app/state/edit-words.ts';
import { initialState, type PageState, reduce, stationOf } from '../../src/app/state/reducer.ts';
import { beforeOf } from '../../src/present/before.ts';
import { handMadeResult } from '../helpers/result.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const work: Work = {
  name: 'pond',
  files: new Map([['detections.csv', bytes('transect,count\nT1,3\n')]]),
  edits: [],
};
const edit: Omit<Edit, 'before'> = {
  file: 'detections.csv',
  row: 2,
  column: 'count',
  after: '5',
  reason: 'checked',
  at: '2026-07-01T10:00:00Z',
};
const open = (): PageState =>
  reduce(initialState('metric', 'system', false, 'lake'), { type: 'open', work, id: 'p' });
describe('what is pinned on the map', () => {
  it('belongs to its station; the transect in focus goes along', () => {
    const pinned = reduce(open(), {
      type: 'focus',
      change: { spot: [-93, 45], treatment: 1, transect: 'T1' },
    });
    expect(reduce(pinned, { type: 'go', station: 'density' }).focus).toMatchObject({
      spot: null,
      treatment: null,
      lookAt: null,
      transect: 'T1',
    });
  });
});

const count = (state: PageState) =>
  new TextDecoder().decode(state.work!.files.get('detections.csv')).split('\n')[1];
/** The hand-made result as the page gets it, with another number of mussels. */
function resultOf(mussels: number): ResultView {
  const { plane, bed, surface, ...result } = handMadeResult();
  const { abundance } = result.estimate;
  if (abundance === null) throw new Error('the hand-made result has no abundance');
  const quantity = {
    estimate: mussels,
    se: null,
    cv: null,
    lower: mussels / 2,
    upper: mussels * 2,
  };
  const estimate = { ...result.estimate, abundance: { ...abundance, mussels: quantity } };
  return { ...result, estimate, planeProj: plane.proj, grid: null };
}

describe('corrections', () => {
  it('are made, undone and done again', () => {
    let state = reduce(open(), { type: 'edit', edit });
    expect([count(state), state.work!.edits.length, state.run.state]).toEqual([
      'T1,5',
      1,
      'working',
    ]);
    state = reduce(state, { type: 'undo' });
    expect([count(state), state.work!.edits.length, state.undone.length]).toEqual(['T1,3', 0, 1]);
    state = reduce(state, { type: 'redo' });
    expect([count(state), state.work!.edits.length, state.undone.length]).toEqual(['T1,5', 1, 0]);
    expect(reduce(state, { type: 'redo' })).toBe(state);
  });

  it('a new one ends what could be done again', () => {
    const undone = reduce(reduce(open(), { type: 'edit', edit }), { type: 'undo' });
    expect(reduce(undone, { type: 'edit', edit: { ...edit, after: '7' } }).undone).toEqual([]);
  });

  it('that cannot be made are told and change nothing', () => {
    const before = open();
    const state = reduce(before, { type: 'edit', edit: { ...edit, row: 12 } });
    expect(state.trouble).toBe('detections.csv has no row 12');
    expect(state.work).toBe(before.work);
  });

  it('say what they are', () => {
    expect(editWords({ ...edit, before: '3' })).toBe('detections.csv row 2, count: 3 → 5');
    expect(editWords({ ...edit, before: '3', after: '' })).toBe(
      'detections.csv row 2, count: 3 → blank',
    );
    expect(editWords({ ...edit, column: '*', after: '' })).toBe('detections.csv row 2 left out');
    expect(editWords({ ...edit, column: '*', after: '["T1"]' })).toBe('detections.csv row 2 added');
    expect(
      editWords({
        ...edit,
        file: 'analysis.json',
        row: null,
        column: 'density.family',
        before: '',
        after: 'nb1',
      }),
    ).toBe('analysis.json, density.family: the default → nb1');
  });
});

describe('what moved', () => {
  it('is nothing on the first estimate, then the numbers before the last change', () => {
    let state = reduce(open(), { type: 'estimated', result: resultOf(100) });
    expect(state.before).toBeNull();
    state = reduce(state, { type: 'edit', edit });
    expect(state.result).not.toBeNull(); // stays on the screen while the new one is made
    state = reduce(state, { type: 'estimated', result: resultOf(120) });
    expect(state.before).toMatchObject({
      label: 'detections.csv row 2, count: 5',
      mussels: 100,
      se: null,
      lower: 50,
      upper: 200,
    });
  });

  it('is remembered through a fault', () => {
    let state = reduce(open(), { type: 'estimated', result: resultOf(100) });
    state = reduce(state, { type: 'edit', edit: { ...edit, after: 'x' } });
    state = reduce(state, { type: 'focus', change: { finding: 0 } });
    state = reduce(state, { type: 'faulty', judged: { ok: false } as JudgedView });
    expect(state.result).toBeNull();
    expect(state.focus.finding).toBeNull(); // errors are numbered anew: the first may be another one now
    state = reduce(state, { type: 'undo' });
    state = reduce(state, { type: 'estimated', result: resultOf(100) });
    expect(state.before?.mussels).toBe(100);
  });
});

describe('a cancelled run', () => {
  it('leaves what was there, says so, and can be made again', () => {
    const before = reduce(reduce(open(), { type: 'estimated', result: resultOf(100) }), {
      type: 'edit',
      edit,
    });
    const stopped = reduce(before, { type: 'cancelled' });
    expect([stopped.stopped, stopped.run.state, stopped.result]).toEqual([
      true,
      'idle',
      before.result,
    ]);
    const again = reduce(stopped, { type: 'again' });
    expect([again.stopped, again.run.state]).toEqual([false, 'working']);
    expect(again.work).toEqual(stopped.work);
    expect(again.asked).not.toBe(stopped.asked);
  });

  it('a change makes a new run by itself', () => {
    const stopped = reduce(open(), { type: 'cancelled' });
    expect(reduce(stopped, { type: 'edit', edit }).stopped).toBe(false);
  });
});

describe('the address', () => {
  it('names the station', () => {
    expect([stationOf('#lake'), stationOf(''), stationOf('#nowhere')]).toEqual([
      'lake',
      'survey',
      'survey',
    ]);
  });

  it('another survey starts afresh, the settings stay', () => {
    const state = reduce(
      { ...open(), units: 'us', before: { ...beforeOf(handMadeResult()), label: '' } },
      { type: 'open', work, id: 'q' },
    );
    expect([state.units, state.before, state.judged, state.workId]).toEqual([
      'us',
      null,
      null,
      'q',
    ]);
  });
});

describe('an estimate', () => {
  it('adds what the model remarked to what the tables did', () => {
    const [onTables, ofModel] = [
      noticeAt({ table: 'transects.csv', row: 2 }, 'a', 'b'),
      noticeAt({ table: 'model' }, 'c', 'd'),
    ];
    const judged = reduce(open(), {
      type: 'judged',
      judged: { findings: [onTables], ok: true } as JudgedView,
    });
    const result = { ...resultOf(5), findings: [onTables, ofModel] };
    const state = reduce(judged, { type: 'estimated', result });
    expect(state.judged?.findings).toEqual([onTables, ofModel]);
    expect(state.judged?.ok).toBe(true);
  });
});
