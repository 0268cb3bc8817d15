/** The threshold that was looked at is kept for its survey, and gives way to the analysis. */

import { afterEach, describe, expect, it, vi } from 'vitest';
import { goalOf, keepGoal, USUAL_GOAL } from '../../src/app/state/goal.ts';
import { keepThreshold, keptThreshold } from '../../src/app/state/kept-threshold.ts';

function storage(): Pick<Storage, 'getItem' | 'setItem'> {
  const kept = new Map<string, string>();
  return {
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, value) => void kept.set(key, value),
  };
}

describe('a threshold that was looked at', () => {
  afterEach(() => vi.unstubAllGlobals());

  it('is kept for its survey until the analysis has another', () => {
    vi.stubGlobal('localStorage', storage());
    keepThreshold('pond', { perM2: 0.2, inAnalysis: 1 });
    keepThreshold('pond', { perM2: 0.5, inAnalysis: 1 });
    expect(keptThreshold('pond', 1)).toBe(0.5);
    expect(keptThreshold('lake', 1)).toBeNull();
    expect(keptThreshold('pond', 2)).toBeNull();
  });

  it('is not kept where storage is forbidden or holds something else', () => {
    vi.stubGlobal('localStorage', { ...storage(), getItem: () => '[["pond", 3], 7, {"a": 1}]' });
    expect(keptThreshold('pond', null)).toBeNull();
    vi.stubGlobal('localStorage', undefined);
    expect(() => keepThreshold('pond', { perM2: 1, inAnalysis: null })).not.toThrow();
    expect(keptThreshold('pond', null)).toBeNull();
  });
});

describe('a goal that was set before the dives', () => {
  afterEach(() => vi.unstubAllGlobals());

  it('is kept for its survey, and is the usual one where none was set or storage holds something else', () => {
    const store = storage();
    vi.stubGlobal('localStorage', store);
    keepGoal('pond', 20);
    expect([goalOf('pond'), goalOf('lake')]).toEqual([20, USUAL_GOAL]);
    store.setItem('shoalwise-goals', '[["pond", -3], ["lake", "20"]]');
    expect([goalOf('pond'), goalOf('lake')]).toEqual([USUAL_GOAL, USUAL_GOAL]);
  });
});
