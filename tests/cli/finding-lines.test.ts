/** Errors and notices on standard error. Expected lines by hand. */

import { describe, expect, it } from 'vitest';
import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import { printFindings } from '../../src/cli/finding-lines.ts';
import { keepingTerminal } from './terminal.ts';

const twice = (row: number) =>
  noticeAt({ table: 'detections.csv', row, column: 'distance_m' }, 'twice', 'counted twice?');
const depth = (row: number) =>
  errorAt({ table: 'habitat.csv', row, column: 'depth_m' }, 'not-a-number', '"x" is not a number');
const rows = (from: number, n: number) => Array.from({ length: n }, (_, i) => from + i);

function printed(findings: Finding[], { prefix = '', listAll = false } = {}): string[] {
  const terminal = keepingTerminal();
  printFindings(findings, terminal, prefix, listAll);
  expect(terminal.stdout).toBe('');
  return terminal.stderr.split('\n').slice(0, -1);
}

describe('notices of one kind', () => {
  it('are the first, in the form of every notice, and a line for the others', () => {
    expect(printed([3, 7, 8, 9].map(twice))).toEqual([
      'notice: detections.csv row 3, distance_m: counted twice?',
      'notice: detections.csv, distance_m: … and 3 more like it (rows 7, 8, 9)',
    ]);
  });

  it('are both there when they are two', () => {
    expect(printed([3, 7].map(twice))).toEqual([
      'notice: detections.csv row 3, distance_m: counted twice?',
      'notice: detections.csv row 7, distance_m: counted twice?',
    ]);
  });

  it('are all there when that is asked for', () => {
    const lines = printed(rows(3, 60).map(twice), { listAll: true });
    expect(lines).toHaveLength(60);
    expect(lines.at(-1)).toBe('notice: detections.csv row 62, distance_m: counted twice?');
  });

  it('keep the folder before the file', () => {
    expect(printed([3, 7, 8].map(twice), { prefix: 'lake/' })).toEqual([
      'notice: lake/detections.csv row 3, distance_m: counted twice?',
      'notice: lake/detections.csv, distance_m: … and 2 more like it (rows 7, 8)',
    ]);
  });
});

describe('repairs', () => {
  it('stand on a line each below the one that they are for, with their evidence', () => {
    const terminal = keepingTerminal();
    const repair = (row: number, title: string, why: string) => {
      const answers = [{ code: 'not-a-number', table: 'habitat.csv', row, column: 'depth_m' }];
      return {
        id: title,
        title,
        why,
        edits: [],
        certain: false,
        picture: { kind: 'cells' as const },
        answers,
      };
    };
    const repairs = [repair(4, 'Set it to 3.8', 'a\nletter'), repair(9, 'No repair', 'of another')];
    printFindings([3, 4].map(depth), terminal, 'lake/', false, repairs);
    expect(terminal.stderr.split('\n').slice(0, -1)).toEqual([
      'lake/habitat.csv row 3, depth_m: "x" is not a number',
      'lake/habitat.csv row 4, depth_m: "x" is not a number',
      '  repair: Set it to 3.8 – a letter',
    ]);
  });
});

describe('errors of one kind', () => {
  it('are all there up to 200', () => {
    expect(printed(rows(2, 200).map(depth))).toEqual(
      rows(2, 200).map((row) => `habitat.csv row ${row}, depth_m: "x" is not a number`),
    );
  });

  it('beyond 200 are counted, and the line says how to see them', () => {
    const lines = printed(rows(2, 1207).map(depth));
    expect(lines).toHaveLength(201);
    expect(lines.slice(-2)).toEqual([
      'habitat.csv row 201, depth_m: "x" is not a number',
      'habitat.csv, depth_m: … and 1,007 more like it (rows 202, 203, 204, 205, 206 …); --list-all lists each',
    ]);
    expect(printed(rows(2, 1207).map(depth), { listAll: true })).toHaveLength(1207);
  });

  it('do not hide those of another kind', () => {
    const other = errorAt({ table: 'habitat.csv', row: 2000, column: 'depth_m' }, 'negative', '-1');
    expect(printed([...rows(2, 300).map(depth), other]).at(-1)).toBe(
      'habitat.csv row 2000, depth_m: -1',
    );
  });
});

it('a message of several lines is one, without control characters', () => {
  const message = 'a\n  b\u001b[2J';
  expect(printed([noticeAt({ table: 'model' }, 'x', message)])).toEqual([
    'notice: model: a b\\u001b[2J',
  ]);
});

it('the order is kept: the line for the others comes after the last one listed', () => {
  const other = noticeAt({ table: 'detections.csv', row: 4, column: 'count' }, 'x', 'y');
  expect(printed([twice(3), other, twice(7), twice(8)])).toEqual([
    'notice: detections.csv row 3, distance_m: counted twice?',
    'notice: detections.csv, distance_m: … and 2 more like it (rows 7, 8)',
    'notice: detections.csv row 4, count: y',
  ]);
});
