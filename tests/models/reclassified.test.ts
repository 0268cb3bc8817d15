import { describe, expect, it } from 'vitest';
import { reclassifiedTotal } from '../../models/reclassified.ts';

/** Class 0 holds 10, class 1 holds 40 of what is mapped as 0, and 100 of what is mapped as 1. */
const value = (mapped: number, recorded: number): number =>
  mapped === 0 ? [10, 40][recorded] : [25, 100][recorded];

describe('the total by recorded substrates', () => {
  it('is the map’s where both agree, without an error', () => {
    const stretches = [0, 1].flatMap((transect) => [
      { transect, mapped: 0, recorded: 0, lengthM: 20 },
      { transect, mapped: 1, recorded: 1, lengthM: 10 },
    ]);
    expect(reclassifiedTotal(stretches, value)).toEqual({ total: 110, se: 0 });
  });

  it('moves by the share that was recorded as another, by hand', () => {
    // 30 of 40 m agree on class 0: 0.75 × 10 + 0.25 × 40 = 17.5; mapped class 1 agrees: 100
    const stretches = [
      { transect: 0, mapped: 0, recorded: 0, lengthM: 20 },
      { transect: 1, mapped: 0, recorded: 0, lengthM: 10 },
      { transect: 1, mapped: 0, recorded: 1, lengthM: 10 },
      { transect: 1, mapped: 1, recorded: 1, lengthM: 5 },
    ];
    const { total, se } = reclassifiedTotal(stretches, value);
    expect(total).toBeCloseTo(117.5, 12);
    // e₀ = 20/40 × (10 − 17.5) = −3.75, e₁ = 10/40 × (10 − 17.5) + 10/40 × (40 − 17.5) = 3.75; √(2 × 2 × 3.75²)
    expect(se).toBeCloseTo(7.5, 12);
  });

  it('has no error from one transect', () => {
    const one = [{ transect: 4, mapped: 0, recorded: 1, lengthM: 3 }];
    expect(reclassifiedTotal(one, value)).toEqual({ total: 40, se: null });
  });
});
