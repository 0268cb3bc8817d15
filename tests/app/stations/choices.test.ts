/** The choices as controls: none is forgotten, and what is typed is held to the limits of shared/analysis.ts. */

import { describe, expect, it } from 'vitest';
import { type Analysis, CHOICES, DEFAULT_ANALYSIS } from '../../../shared/analysis.ts';
import {
  CHOICE_GROUPS,
  choiceName,
  choiceOf,
  defaultOf,
  idleBecause,
  rangeWords,
  readNumber,
  valueWords,
} from '../../../src/app/stations/density/choices.ts';

const offered = CHOICE_GROUPS.flatMap((g) => g.paths);
/** Name and classes belong to the tables; `outside` has one value. */
const NOT_OFFERED = ['lake', 'map.outside', 'substrates'];

describe('the controls', () => {
  it('offer every choice once', () => {
    expect([...offered, ...NOT_OFFERED].sort()).toEqual(CHOICES.map((c) => c.path).sort());
  });

  it.each(offered)('%s has a name and words for its values', (path) => {
    expect(choiceName(path)).not.toBe(path);
    const { choices = [] } = choiceOf(path);
    const words = choices.map((value) => valueWords(path, value));
    expect(new Set(words).size).toBe(words.length);
    expect(valueWords(path, defaultOf(path))).not.toBe('');
  });

  it('know no other choice', () => {
    expect(() => choiceOf('density.colour')).toThrow('density.colour');
  });
});

it('say values as people do', () => {
  expect(valueWords('density.depth', 'curve')).toBe('a smooth curve');
  expect(valueWords('segments.max_length_m', null)).toBe('cut at habitat breaks only');
  expect(valueWords('segments.max_length_m', 5)).toBe('5 metres');
  expect(valueWords('map.cell_m', 1)).toBe('1 metre');
  expect(valueWords('map.threshold_per_m2', 1)).toBe('1 mussels per m²');
  expect(valueWords('interval', 0.95)).toBe('95 %');
});

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

  it('has its limits in words', () => {
    expect(rangeWords(choiceOf('interval'))).toBe('0.01 to 0.9999');
    expect(rangeWords(choiceOf('seed'))).toBe('0 or more');
  });
});

describe('a choice plays no part', () => {
  const withDepth = (depth: Analysis['density']['depth']): Analysis => ({
    ...DEFAULT_ANALYSIS,
    density: { ...DEFAULT_ANALYSIS.density, depth },
  });

  it('when another makes it idle', () => {
    expect(idleBecause('density.depth_df', withDepth('linear'), true)).toContain('smooth curve');
    expect(idleBecause('density.depth_df', withDepth('curve'), true)).toBeNull();
  });

  it('when the survey has no distance transect', () => {
    expect(idleBecause('detection.shape', DEFAULT_ANALYSIS, false)).toContain('distance');
    expect(idleBecause('detection.shape', DEFAULT_ANALYSIS, true)).toBeNull();
  });
});
