/** The choices as controls: none is forgotten, each has a name and words for its values. */

import { describe, expect, it } from 'vitest';
import { type Analysis, CHOICES, DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import { valueAt } from '../../shared/choice-values.ts';
import {
  CHOICE_GROUPS,
  choiceName,
  choiceOf,
  defaultOf,
  idleBecause,
  unitOf,
  valueGloss,
  valueWords,
} from '../../src/present/choices.ts';

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
  expect(valueWords('density.depth', 'curve')).toBe('natural cubic spline');
  expect(valueWords('density.family', 'nb1')).toBe('negative binomial (NB1)');
  expect(valueWords('density.depth_df', 1)).toBe('1 degree of freedom');
  expect(valueWords('density.depth_df', 3)).toBe('3 degrees of freedom');
  expect(valueWords('segments.max_length_m', null)).toBe('cut at habitat breaks only');
  expect(valueWords('segments.max_length_m', 5)).toBe('5 metres');
  expect(valueWords('map.cell_m', 1)).toBe('1 metre');
  expect(valueWords('map.threshold_per_m2', 1)).toBe('1 mussels per m²');
  expect(valueWords('interval', 0.95)).toBe('95 %');
});

it('give the plain gloss of a value that is a term', () => {
  expect(valueGloss('density.family', 'nb2')).toBe(
    'clumped, with a variance quadratic in the mean',
  );
  // the meaning of this choice says it already
  expect(valueGloss('detection.independence', 'point')).toBeNull();
  expect(valueGloss('density.family', 'auto')).toBeNull();
  expect(valueGloss('map.cell_m', 5)).toBeNull();
});

it('have a unit, unless the name says it', () => {
  expect(unitOf('map.cell_m')).toBe('metres');
  expect(unitOf('density.depth_df')).toBeNull();
  expect(unitOf('seed')).toBeNull();
});

it('have a value and a default each', () => {
  const analysis = structuredClone(DEFAULT_ANALYSIS);
  analysis.map.cell_m = 2;
  expect(valueAt(analysis, 'map.cell_m')).toBe(2);
  expect(defaultOf('map.cell_m')).toBe(5);
});

describe('a choice plays no part', () => {
  const withDepth = (depth: Analysis['density']['depth']): Analysis => ({
    ...DEFAULT_ANALYSIS,
    density: { ...DEFAULT_ANALYSIS.density, depth },
  });

  it('when another makes it idle', () => {
    expect(idleBecause('density.depth_df', withDepth('linear'), true)).toContain(
      'natural cubic spline',
    );
    expect(idleBecause('density.depth_df', withDepth('curve'), true)).toBeNull();
  });

  it('when the survey has no distance transect', () => {
    expect(idleBecause('detection.shape', DEFAULT_ANALYSIS, false)).toContain('distance');
    expect(idleBecause('detection.shape', DEFAULT_ANALYSIS, true)).toBeNull();
  });
});
