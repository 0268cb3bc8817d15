/**
 * Allocation against Neyman's closed form (Cochran 1977, Sampling Techniques, 3rd ed., 5.5, from memory): with independent
 * strata of equal cost the variance of a total is least where n_h is proportional to N_h S_h.
 */

import { describe, expect, it } from 'vitest';
import {
  type AllocationInput,
  allocations,
  LEAST_A_ZONE,
  minutesOf,
  withinMinutes,
} from '../../../models/design/allocate.ts';

/**
 * Homogeneous zones, each with a log density of its own, Poisson counts on a strip of 30 m² all of whose clusters are
 * detected: one transect tells 30 λ of its log density, and N = Σ A λ has ∂ log N / ∂ log λ = A λ / N. So
 * var N = Σ A² λ / (30 n), which is Neyman's with S = √(λ/30): n in proportion to A √λ.
 */
function zones(areas: number[], densities: number[], minutes: number[] = []): AllocationInput {
  const n = areas.length;
  const total = areas.reduce((sum, a, i) => sum + a * densities[i], 0);
  return {
    gradient: Float64Array.from(areas, (a, i) => (a * densities[i]) / total),
    inHand: null,
    zones: areas.map((_, i) => {
      const information = new Float64Array(n * n);
      information[i * n + i] = 30 * densities[i];
      return { information, minutes: minutes[i] ?? 20 };
    }),
  };
}

describe('allocations', () => {
  it("equal Neyman's closed form where that is whole", () => {
    // A √λ = 100, 200, 300: 60 transects are 10, 20, 30
    const input = zones([100, 100, 300], [1, 4, 1]);
    expect(allocations(input, 60).at(-1)?.transects).toEqual([10, 20, 30]);
  });

  it('lie within one transect of it where it is not', () => {
    const [areas, densities] = [
      [900, 400, 250, 700],
      [0.04, 1.5, 12, 0.3],
    ];
    const share = areas.map((a, i) => a * Math.sqrt(densities[i]));
    const sum = share.reduce((a, b) => a + b);
    const got = allocations(zones(areas, densities), 83).at(-1)?.transects ?? [];
    for (const [i, n] of got.entries()) expect(Math.abs(n - (83 * share[i]) / sum)).toBeLessThan(1);
  });

  it('are as many as were asked for, and keep two in a zone where nothing is', () => {
    const path = allocations(zones([100, 100], [1e-9, 5]), 12);
    expect(path.map((a) => a.transects.reduce((x, y) => x + y))).toEqual([
      4, 5, 6, 7, 8, 9, 10, 11, 12,
    ]);
    expect(path.at(-1)?.transects).toEqual([LEAST_A_ZONE, 10]);
  });

  it('with a least share are the same where Neyman has more in each, else as near to it as the share allows', () => {
    const least = (input: AllocationInput, shares: number[]): AllocationInput => ({
      ...input,
      zones: input.zones.map((z, i) => ({ ...z, least: shares[i] })),
    });
    // of 60, half of what the areas give: 6, 6, 18; Neyman's 10, 20, 30 are all more
    const inside = least(zones([100, 100, 300], [1, 4, 1]), [0.1, 0.1, 0.3]);
    expect(allocations(inside, 60).at(-1)?.transects).toEqual([10, 20, 30]);
    // a quarter of 12 is 3; the variance is convex in the numbers, so its least lies on that bound
    const bound = least(zones([100, 100], [1e-9, 5]), [0.25, 0.25]);
    expect(allocations(bound, 12).at(-1)?.transects).toEqual([3, 9]);
  });

  it('under minutes follow n in proportion to A √(λ / minutes)', () => {
    // Cochran 5.5 with costs, from memory: A √λ = 100, 300; minutes 10 and 40 make that 100/√10 : 300/√40, 2 : 3
    const input = zones([100, 300], [1, 1], [10, 40]);
    const got = withinMinutes(input, 4 * (2 * 10 + 3 * 40), 100);
    expect(got?.transects).toEqual([8, 12]);
    expect(minutesOf(input.zones, got?.transects ?? [])).toBe(560);
  });

  it('take off what is known already', () => {
    const input = zones([100, 100], [1, 1]);
    // ten transects were dived in the first zone: 20 more make 15 in each
    const inHand = Float64Array.from([300, 0, 0, 0]);
    expect(allocations({ ...input, inHand }, 20).at(-1)?.transects).toEqual([5, 15]);
  });

  it('have none where minutes do not do for two in every zone', () => {
    expect(withinMinutes(zones([1, 1], [1, 1]), 79, 100)).toBeNull();
    expect(withinMinutes(zones([1, 1], [1, 1]), 80, 100)?.transects).toEqual([2, 2]);
  });
});
