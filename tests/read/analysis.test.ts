/** analysis.json: defaults, merging, and agreement of the list of keys with the type. Faults: tests/hostile. */

import { describe, expect, it } from 'vitest';
import { CHOICES, DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import { readAnalysis } from '../../src/read/analysis.ts';

const read = (text: string) => readAnalysis(new TextEncoder().encode(text), 'some-folder');

/** Dotted paths of the leaves. */
function paths(value: object, prefix = ''): string[] {
  return Object.entries(value).flatMap(([key, inner]) =>
    typeof inner === 'object' && inner !== null && !Array.isArray(inner)
      ? paths(inner, `${prefix}${key}.`)
      : [`${prefix}${key}`],
  );
}

describe('the list of keys', () => {
  it('has every key of the defaults once, and no other', () => {
    expect(CHOICES.map(({ path }) => path).sort()).toEqual(paths(DEFAULT_ANALYSIS).sort());
  });

  it('accepts the defaults themselves', () => {
    const { analysis, findings } = read(JSON.stringify({ ...DEFAULT_ANALYSIS, lake: 'Pike Lake' }));
    expect(findings).toEqual([]);
    expect(analysis).toEqual({ ...DEFAULT_ANALYSIS, lake: 'Pike Lake' });
  });

  it('says what each key means', () => {
    for (const { path, meaning } of CHOICES) expect(meaning, path).toMatch(/^[A-Z].{15,}\.$/);
  });
});

describe('reading', () => {
  it('no file: all defaults, the lake named after the folder', () => {
    const { analysis, findings, classesKnown } = readAnalysis(undefined, 'some-folder');
    expect(analysis).toEqual({ ...DEFAULT_ANALYSIS, lake: 'some-folder' });
    expect(findings).toEqual([]);
    expect(classesKnown).toBe(true);
  });

  it('a choice changes itself and nothing else', () => {
    const { analysis, findings } = read(
      '\uFEFF{ "density": { "depth": "linear", "transect_effect": false }, "segments": { "max_length_m": null }, "interval": 0.9 }',
    );
    expect(findings).toEqual([]);
    expect(analysis).toEqual({
      ...DEFAULT_ANALYSIS,
      lake: 'some-folder',
      density: { ...DEFAULT_ANALYSIS.density, depth: 'linear', transect_effect: false },
      segments: { max_length_m: null },
      interval: 0.9,
    });
  });

  it('a fault does not hide the others, and keeps the default', () => {
    const { analysis, findings } = read(
      '{ "seed": "x", "density": { "depth_df": 99 }, "lakes": 1 }',
    );
    expect(findings.map(({ column }) => column)).toEqual(['seed', 'density.depth_df', 'lakes']);
    expect(analysis.seed).toBe(1);
    expect(analysis.density.depth_df).toBe(3);
  });

  it('does not touch the defaults', () => {
    read('{ "map": { "cell_m": 10 }, "substrates": ["clay"] }');
    expect(DEFAULT_ANALYSIS.map.cell_m).toBe(5);
    expect(DEFAULT_ANALYSIS.substrates[0]).toBe('mud');
  });

  it('trims class names', () => {
    expect(read('{ "substrates": [" clay ", "Sand"] }').analysis.substrates).toEqual([
      'clay',
      'Sand',
    ]);
  });

  it.each([
    ['{ "map": { "threshold_per_m2": 0 } }', 'map', 'threshold_per_m2', 0],
    ['{ "map": { "depth_tolerance_m": 0 } }', 'map', 'depth_tolerance_m', 0],
    ['{ "segments": { "max_length_m": 0.1 } }', 'segments', 'max_length_m', 0.1],
    ['{ "density": { "depth_df": 10 } }', 'density', 'depth_df', 10],
    ['{ "density": { "depth_df": 1 } }', 'density', 'depth_df', 1],
  ] as const)('%s is at a limit, and allowed', (text, section, key, value) => {
    const { analysis, findings } = read(text);
    expect(findings).toEqual([]);
    expect((analysis[section] as Record<string, unknown>)[key]).toBe(value);
  });
});
