/** The Field log without a screen: what it proposes, how entries become rows, what is noted. Expected values by hand. */

import { describe, expect, it } from 'vitest';
import { DETECTIONS, TRANSECTS } from '../../shared/tables.ts';
import type { Work } from '../../src/app/contract.ts';
import { draftOf } from '../../src/app/state/log-draft.ts';
import {
  begunFromPlan,
  knownObservers,
  leftOffAt,
  newTransect,
  nextLabel,
  reachM,
  saysNoneFound,
  transectsIn,
  unsaid,
  withAccuracy,
  withNoneFound,
} from '../../src/app/state/log-entry.ts';
import {
  cellChanged,
  type LogEdit,
  rowAdded,
  rowLeftOut,
  rowsOf,
  tableIn,
} from '../../src/app/state/log-tables.ts';
import { initialState, type PageState, reduce } from '../../src/app/state/reducer.ts';
import { averageFix } from '../../src/app/state/waypoint.ts';
import { counted } from '../../src/app/stations/field/Counts.tsx';
import { stepped } from '../../src/app/stations/field/parts.tsx';
import { emptySurvey } from '../../src/app/storage/empty-survey.ts';

const encode = (text: string) => new TextEncoder().encode(text);
const text = ({ files }: Work, file: string) => new TextDecoder().decode(files.get(file));
const AT = '2026-07-01T10:00:00.000Z';

function opened(files: Record<string, string> = {}): PageState {
  const { name, files: empty } = emptySurvey('Minnow Pond');
  const given = Object.entries(files).map(([file, t]) => [file, encode(t)] as const);
  const work = { name, files: new Map([...empty, ...given]), edits: [] };
  const shown = reduce(initialState('metric', 'system', false, 'survey'), {
    type: 'open',
    work,
    id: 'p',
  });
  return reduce(shown, { type: 'log', open: true });
}

const enter = (state: PageState, edits: LogEdit[], join = false): PageState =>
  reduce(state, { type: 'enter', edits: edits.map((e) => ({ ...e, at: AT })), join });
const add = (state: PageState, values: Record<string, string>): PageState =>
  enter(state, rowAdded(state.work!, TRANSECTS, values).edits);

describe('a label', () => {
  it.each([
    [[], 'T1'],
    [['T07'], 'T08'],
    [['T99'], 'T100'],
    [['north'], 'north2'],
    [['2026-3', '2026-4'], '2026-5'],
    [['T3', 'T2'], 'T4'], // T3 is taken
  ])('after %j is %s', (labels, next) => {
    expect(nextLabel(labels)).toBe(next);
  });
});

describe('a new transect', () => {
  const rows = 'transect,date,design,primary,secondary,length_m,width_m\n';
  const files = (table: string) => opened({ 'transects.csv': rows + table }).work!.files;

  it('has the day, the roles exchanged, design, length and width of the last one searched', () => {
    expect(newTransect(files('T1,2026-06-30,distance,Ann,Ben,25,2\n'), '2026-07-01')).toEqual({
      transect: 'T2',
      date: '2026-07-01',
      design: 'distance',
      primary: 'Ben',
      secondary: 'Ann',
      bearing_ref: '',
      length_m: '25',
      width_m: '2',
    });
    expect(newTransect(files('T1,2026-06-30,belt,Ann,,30,\n'), '2026-07-01')).toMatchObject({
      primary: 'Ann',
      secondary: '',
    });
  });

  it('from a plan keeps what was planned', () => {
    const planned = files('T1,2026-06-30,distance,Ann,Ben,25,2\nP1,,,,,18,\n');
    const [plan] = transectsIn(planned).planned;
    expect(begunFromPlan(planned, plan, '2026-07-01')).toEqual({
      date: '2026-07-01',
      design: 'distance',
      primary: 'Ben',
      secondary: 'Ann',
    });
  });

  it('offers the observers of the others, the latest first', () => {
    const known = files(
      'T1,2026-06-30,belt,Ann,Ben,30,\nT2,2026-06-30,belt,Cy,Ann,30,\nT3,x,belt,C,,,\n',
    );
    expect(knownObservers(known, 4)).toEqual(['Ann', 'Cy', 'Ben']);
  });

  it('of a distance design reaches 1 m to either side, of a belt half a metre, unless its width says otherwise', () => {
    expect(reachM({ design: 'distance', width_m: '' })).toBe(1);
    expect(reachM({ design: 'belt', width_m: '' })).toBe(0.5);
    expect(reachM({ design: 'distance', width_m: '3' })).toBe(1.5);
  });
});

describe('entries', () => {
  it('are rows by the names of the columns, whatever their order', () => {
    const state = add(opened({ 'transects.csv': withAll('notes,transect,date') }), {
      transect: 'T1',
      date: '2026-07-01',
    });
    expect(tableIn(state.work!.files, TRANSECTS).rows).toMatchObject([
      { row: 2, cells: { transect: 'T1', date: '2026-07-01', notes: '' } },
    ]);
  });

  it('give a table the columns that it lacks, its rows staying what they are', () => {
    const state = opened({
      'detections.csv': 'transect,role,distance_m,count\nT1,primary,"3,5",2\n',
    });
    const { row, edits } = rowAdded(state.work!, DETECTIONS, { transect: 'T1', offset_m: '0.3' });
    const after = enter(state, edits).work!;
    expect(row).toBe(3);
    expect(text(after, 'detections.csv')).toBe(
      'transect,role,distance_m,count,offset_m,cluster_length_cm,cluster_width_cm\n' +
        'T1,primary,"3,5",2,,,\nT1,,,,0.3,,\n',
    );
  });

  it('make a table that is missing', () => {
    const state = opened();
    const work = { ...state.work!, files: new Map([...state.work!.files].slice(0, 1)) };
    const made = enter({ ...state, work }, rowAdded(work, DETECTIONS, { transect: 'T1' }).edits);
    expect(rowsOf(made.work!.files, DETECTIONS, 'T1')).toHaveLength(1);
  });

  it('typed on in one cell are one change, which is taken back as a whole', () => {
    let state = add(opened(), { transect: 'T1', date: '2026-07-01' });
    for (const typed of ['1', '13', '137'])
      state = enter(state, [cellChanged(TRANSECTS, 2, 'bearing_deg', typed)], true);
    expect(state.work!.edits).toHaveLength(2);
    expect(state.work!.edits[1]).toMatchObject({ before: '', after: '137' });
    state = enter(state, [cellChanged(TRANSECTS, 2, 'length_m', '2')], true);
    state = enter(state, [cellChanged(TRANSECTS, 2, 'bearing_deg', '13')], true);
    expect(state.work!.edits).toHaveLength(4);
    const back = reduce(reduce(state, { type: 'undo' }), { type: 'undo' });
    const [{ cells }] = tableIn(back.work!.files, TRANSECTS).rows;
    expect([cells.bearing_deg, cells.length_m]).toEqual(['137', '']);
  });

  it('of one tap are taken back by one, and nothing is joined to a part of them', () => {
    const begun = add(opened(), { transect: 'T1', date: '2026-07-01', primary: 'Ann' });
    const swap = [
      cellChanged(TRANSECTS, 2, 'primary', ''),
      cellChanged(TRANSECTS, 2, 'secondary', 'Ann'),
    ];
    let state = reduce(begun, {
      type: 'enter',
      edits: swap.map((e) => ({ ...e, at: AT, together: AT })),
      join: false,
    });
    state = enter(state, [cellChanged(TRANSECTS, 2, 'secondary', 'Anna')], true);
    expect(state.work!.edits).toHaveLength(4);
    const back = reduce(reduce(state, { type: 'undo' }), { type: 'undo' });
    const [{ cells }] = tableIn(back.work!.files, TRANSECTS).rows;
    expect([cells.primary, cells.secondary]).toEqual(['Ann', '']);
  });

  it('ask for no estimate until the log is left', () => {
    const begun = opened();
    expect(begun.asked).toBeNull();
    const state = add(begun, { transect: 'T1' });
    expect(state.asked).toBeNull();
    expect(reduce(state, { type: 'note', change: { foundM: '7' } }).asked).toBeNull();
    const left = reduce(state, { type: 'log', open: false });
    expect(left.asked?.files).toBe(state.work!.files);
    expect(reduce(state, { type: 'go', station: 'lake' })).toMatchObject({ log: false });
  });

  it('that are not a row yet are kept beside the tables', () => {
    const state = reduce(opened(), { type: 'note', change: { foundM: '14.5' } });
    expect(draftOf(state.work!)).toMatchObject({ foundM: '14.5', breakM: '0' });
    expect(draftOf(add(state, { transect: 'T1' }).work!).foundM).toBe('14.5');
  });
});

it('a transect that is opened again goes on where its entries were left off', () => {
  const { work } = opened({
    'habitat.csv':
      'transect,distance_m,substrate,plant_cover,depth_m\nT1,0,sand,0,1\nT1,12.5,rock,0,2.4\n',
    'detections.csv': 'transect,role,distance_m,count\nT1,primary,7,2\nT2,primary,9,1\n',
  });
  expect(leftOffAt(work!.files, 'T1')).toEqual({ breakM: '12.5', depthM: '2.4', foundM: '7' });
  expect(leftOffAt(work!.files, 'T3')).toEqual({});
});

describe('"none found"', () => {
  it('stands among the notes, and is taken back', () => {
    const said = withNoneFound('light chop', true);
    expect(said).toBe('light chop Searched to the end, none found.');
    expect(saysNoneFound(said)).toBe(true);
    expect(withNoneFound(said, false)).toBe('light chop');
  });

  it('is asked for where a transect of the log has neither, and only there', () => {
    const others = `${TRANSECTS.columns.map((c) => c.name).join(',')}\n${'T1,2026-06-30'}${','.repeat(17)}\n`;
    let state = add(opened({ 'transects.csv': others }), { transect: 'T2', date: '2026-07-01' });
    expect(unsaid(state.work!).map(({ cells }) => cells.transect)).toEqual(['T2']);
    const found = rowAdded(state.work!, DETECTIONS, { transect: 'T2', count: '1' });
    state = enter(state, found.edits);
    expect(unsaid(state.work!)).toEqual([]);
    state = enter(state, [rowLeftOut(DETECTIONS, found.row)]);
    expect(unsaid(state.work!)).toHaveLength(1);
    state = enter(state, [cellChanged(TRANSECTS, 3, 'notes', withNoneFound('', true))]);
    expect(unsaid(state.work!)).toEqual([]);
  });
});

describe('a position of the device', () => {
  it('is the mean with weights 1/accuracy²', () => {
    // weights 1/2² and 1/4²: 4 to 1; so 0.8 and 0.2 of 0.0001° of latitude, 11.1195 m on the sphere
    const mean = averageFix([
      { lat: 45, lon: -93, accuracyM: 2 },
      { lat: 45.0001, lon: -93, accuracyM: 4 },
    ]);
    expect(mean.lat).toBeCloseTo(45.00002, 9);
    expect(mean.lon).toBeCloseTo(-93, 9);
    // √(0.8·0.2² + 0.2·0.8²) = 0.4 of them
    expect(mean.spreadM).toBeCloseTo(0.4 * 11.1195, 3);
    // √(2 / (1/4 + 1/16))
    expect(mean.accuracyM).toBeCloseTo(Math.sqrt(6.4), 9);
  });

  it('is not believed to be better than a metre, and is none without any', () => {
    const mean = averageFix([
      { lat: 45, lon: -93, accuracyM: 0.001 },
      { lat: 45.0002, lon: -93, accuracyM: 1 },
    ]);
    expect(mean.lat).toBeCloseTo(45.0001, 9);
    expect(() => averageFix([])).toThrow(RangeError);
  });

  it('is noted once for each end', () => {
    const first = withAccuracy('chop', 'start', '±4.2 m, 3 positions, spread 1.5 m');
    expect(first).toBe('chop Start by device: ±4.2 m, 3 positions, spread 1.5 m.');
    const again = withAccuracy(withAccuracy(first, 'end', '±3 m, 1 position'), 'start', '±2 m, 9');
    expect(again).toBe('chop End by device: ±3 m, 1 position. Start by device: ±2 m, 9.');
  });
});

it('a step goes from what stands there, never below 0', () => {
  expect(stepped('14.2', 0.5, 0)).toBe('14.7');
  expect(stepped('0.3', -0.5, 0)).toBe('0');
  expect(stepped('', 0.5, 3)).toBe('3');
  expect(stepped('1.15', 0.05, 0)).toBe('1.2'); // binary dust is rounded away
  expect(stepped('1O', 1, 30)).toBe('30');
});

/** A header with these columns first, then the others of the table. */
function withAll(first: string): string {
  const named = first.split(',');
  const others = TRANSECTS.columns.map((c) => c.name).filter((name) => !named.includes(name));
  return `${[...named, ...others].join(',')}\n`;
}

it('counts a large cluster up from five; below that there is a tap for each number', () => {
  expect(counted('5', 1)).toBe('6');
  expect(counted('6', 5)).toBe('11');
  expect(counted('6', -1)).toBe('5');
  expect(counted('5', -1)).toBeNull();
  expect(counted('', 1)).toBe('5');
  expect(counted('many', 5)).toBe('5');
});
