/** What is typed into a choice is held to the limits of shared/analysis.ts. */

import { describe, expect, it } from 'vitest';
import {
  rangeWords,
  readLimits,
  readNumber,
} from '../../../src/app/stations/density/typed-number.ts';
import { choiceOf } from '../../../src/present/choices.ts';

describe('a typed number', () => {
  const read = (path: string, typed: string) => readNumber(choiceOf(path), typed);

  it('is taken within its limits', () => {
    expect(read('map.cell_m', ' 2.50 ')).toEqual({ ok: true, text: '2.5' });
    expect(read('density.depth_df', '10')).toEqual({ ok: true, text: '10' });
    expect(read('bootstrap.replicates', '0')).toEqual({ ok: true, text: '0' });
  });

  it.each([
    ['map.cell_m', '0', 'expected above 0 and at most 10,000'],
    ['density.depth_df', '11', 'expected 1 to 10'],
    ['density.depth_df', '2.5', 'a whole number is expected'],
    ['interval', '1', 'expected 0.01 to 0.9999'],
    ['segments.max_length_m', '0.05', 'expected 0.1 to 10000'],
    ['map.cell_m', '2,5', '"2,5" is not a number'],
    ['map.cell_m', '', 'nothing is not a number'],
    ['seed', '-1', 'expected 0 or more'],
  ])('%s does not take "%s"', (path, typed, problem) => {
    expect(read(path, typed)).toEqual({ ok: false, problem });
  });

  it('may be a word where one may stand in its place', () => {
    expect(read('detection.availability', ' Planted ')).toEqual({ ok: true, text: 'planted' });
    expect(read('detection.availability', '0.8')).toEqual({ ok: true, text: '0.8' });
    expect(read('detection.availability', 'all')).toEqual({
      ok: false,
      problem: '"all" is not a number, nor planted',
    });
  });

  it('has its limits in words', () => {
    expect(rangeWords(choiceOf('interval'))).toBe('0.01 to 0.9999');
    expect(rangeWords(choiceOf('seed'))).toBe('0 or more');
  });
});

describe('typed limits of classes', () => {
  const classes = choiceOf('detection.distance_classes');

  it.each(['0, 0.25, 0.75, 1', ' 0 0.25  .75 1 ', '0;0.25; 0.75;1.0'])(
    'are taken from "%s"',
    (typed) => {
      expect(readLimits(classes, typed)).toEqual({ ok: true, text: '[0,0.25,0.75,1]' });
    },
  );

  it.each([
    ['nothing', ''],
    ['a single class', '0, 1'],
    ['no start at 0', '0.25, 0.75, 1'],
    ['a step back', '0, 0.75, 0.25, 1'],
    ['a limit twice', '0, 0.5, 0.5, 1'],
    ['a word', '0, half, 1'],
    ['a negative one', '0, -0.5, 1'],
    ['decimal commas, which read as other numbers', '0 0,25 0,75 1'],
  ])('are told where there is %s', (_, typed) => {
    expect(readLimits(classes, typed)).toMatchObject({ ok: false });
  });
});
