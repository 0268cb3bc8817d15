/** The threshold that was looked at is kept for its survey, and gives way to the analysis. */

import { afterEach, describe, expect, it, vi } from 'vitest';
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
