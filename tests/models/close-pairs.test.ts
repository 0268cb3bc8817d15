import { describe, expect, it } from 'vitest';
import { pairsByChance, tallyPairs } from '../../models/close-pairs.ts';

const at = (alongM: number, acrossM = 0) => ({ alongM, acrossM });

describe('pairs in one place', () => {
  it('are counted where they lie and 1 to 3 m along, by hand', () => {
    const tally = tallyPairs({
      lengthM: 10,
      primary: [at(5), at(2)],
      secondary: [at(2.03), at(3.01)],
    });
    // lagged: 3.01 − 1, 3.01 + 2 and 2.03 + 3; of one observer: 2 + 3 = 5 and 2.03 + 1 = 3.03, half a pair each
    expect(tally).toEqual({ mixed: 1, mixedLagged: 3, same: 0, sameLagged: 1 });
  });

  it('are none at 5 cm, nor where they are apart across', () => {
    const pairs = (place: { alongM: number; acrossM: number }) =>
      tallyPairs({ lengthM: 30, primary: [at(14.2, 0.5)], secondary: [place] }).mixed;
    expect(pairs(at(14.25, 0.5))).toBe(0);
    expect(pairs(at(14.24, 0.5))).toBe(1);
    expect(pairs(at(14.23, 0.46))).toBe(0); // √(0.03² + 0.04²) = 0.05
    expect(pairs(at(14.23, 0.47))).toBe(1);
  });

  it('what leaves a transect at one end comes in at the other', () => {
    const tally = tallyPairs({ lengthM: 10, primary: [at(0.5)], secondary: [at(9.5)] });
    expect(tally).toEqual({ mixed: 0, mixedLagged: 1, same: 0, sameLagged: 0 });
  });
});

describe('chance', () => {
  it('is gamma-Poisson: by hand for one pair that nothing else lies near', () => {
    const tally = { mixed: 1, mixedLagged: 0, same: 0, sameLagged: 0 };
    const { observed, expected, p } = pairsByChance([tally], [tally]);
    expect(observed).toBe(1);
    // ½ over six windows; size 1/(2 + 1 + 2): p = 1 − (0.2/(0.2 + 1/12))^0.2
    expect(expected).toBeCloseTo(1 / 12, 12);
    expect(p).toBeCloseTo(1 - (0.2 / (0.2 + 1 / 12)) ** 0.2, 12);
  });

  it('brings more where one and the same observer has close pairs too', () => {
    const tally = { mixed: 12, mixedLagged: 11.5, same: 0, sameLagged: 9 };
    const clumped = { ...tally, same: 11 };
    expect(pairsByChance([tally], [tally]).expected).toBeCloseTo(2, 12); // 12 over six windows
    expect(pairsByChance([clumped], [clumped]).expected).toBeCloseTo(6, 12); // (11 + 1)/(9/3 + 1) as many
    expect(pairsByChance([tally], [tally]).p).toBeLessThan(0.02);
    expect(pairsByChance([clumped], [clumped]).p).toBeGreaterThan(0.05);
  });
});
