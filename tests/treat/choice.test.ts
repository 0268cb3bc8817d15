/** Choosing units: against all choices there are, connected areas against a plain flood, outlines by hand. */

import { describe, expect, it } from 'vitest';
import { seeded } from '../../models/numbers/random.ts';
import { boundOf } from '../../src/treat/beside.ts';
import { type Blocks, blockSide } from '../../src/treat/blocks.ts';
import { choose, grown, perCost } from '../../src/treat/choice.ts';
import { areasWithout, connectedAreas } from '../../src/treat/connected.ts';
import { outlineOf } from '../../src/treat/trace.ts';
import { makeUnits, type Units } from '../../src/treat/units.ts';

function lattice(columns: number, rows: number, sideM = 10): Blocks {
  const count = columns * rows;
  const full = new Float64Array(count).fill(sideM ** 2);
  return {
    side: 1,
    sideM,
    columns,
    rows,
    waterM2: full,
    waterM3: full,
    surveyedM2: full,
    bins: {
      count: 0,
      habitat: [],
      areaM2: [],
      depthM: [],
      band: [],
      reason: [],
    },
    start: new Int32Array(count + 1),
    bin: new Int32Array(0),
    areaM2: new Float64Array(0),
  };
}

function unitsOf(blocks: Blocks, cost = new Float64Array(blocks.waterM2.length).fill(1)): Units {
  return makeUnits(blocks, [...cost.keys()], cost, [0, 0], [], 0);
}

/** The most that any choice of at most `parts` connected areas holds: every one of 2^16 that fits is looked at. */
function bestOfAll(units: Units, value: Float64Array, budget: number, parts: number): number {
  let best = 0;
  for (let bits = 1; bits < 2 ** units.count; bits++) {
    let cost = 0;
    let sum = 0;
    for (let u = 0; u < units.count; u++) {
      if (((bits >> u) & 1) === 0) continue;
      cost += units.cost[u];
      sum += value[u];
    }
    if (cost > budget || sum <= best) continue;
    const inSet = Uint8Array.from({ length: units.count }, (_, u) => (bits >> u) & 1);
    if (connectedAreas(units, inSet).length <= parts) best = sum;
  }
  return best;
}

describe('a choice on a lake of 16 blocks', () => {
  const units = unitsOf(lattice(4, 4));
  const random = seeded(7);
  const fields = Array.from({ length: 12 }, () =>
    Float64Array.from({ length: 16 }, () => random.gamma(0.7)),
  );

  it.each([1, 2])('is the best of all in up to %d areas', (parts) => {
    for (const value of fields) {
      const best = bestOfAll(units, value, 5, parts);
      expect(choose(units, value, { budget: 5, parts })?.value).toBeCloseTo(best, 12);
      expect(boundOf(units, value, 5)).toBeGreaterThanOrEqual(best - 1e-12);
    }
  });

  it('keeps the budget, and gives none where nothing fits', () => {
    const [value] = fields;
    expect(choose(units, value, { budget: 5, parts: 1 })?.cost).toBe(5);
    expect(choose(units, value, { budget: 0.5, parts: 1 })).toBeNull();
  });
});

describe('a choice on a lake of 400 blocks', () => {
  it('holds more than growth by density alone, and than growth by chance', () => {
    const units = unitsOf(lattice(20, 20));
    const random = seeded(3);
    const bumps = Array.from({ length: 6 }, () => [random.uniform() * 20, random.uniform() * 20]);
    const value = Float64Array.from({ length: 400 }, (_, u) => {
      const near = Math.min(...bumps.map(([x, y]) => Math.hypot(units.x[u] - x, units.y[u] - y)));
      return Math.exp(-near / 2) * random.gamma(2);
    });
    const purse = { budget: 60, parts: 1 };
    const density = perCost(units, value);
    const densest = density.indexOf(density.reduce((a, b) => Math.max(a, b)));
    const greedy = grown(units, value, [densest], density, purse).value;
    const held = choose(units, value, purse)?.value ?? 0;
    expect(held).toBeGreaterThan(greedy);
    for (let i = 0; i < 10; i++) {
      const chance = Float64Array.from(value, () => random.uniform());
      expect(held).toBeGreaterThan(grown(units, value, [random.integer(400)], chance, purse).value);
    }
  });
});

describe('units', () => {
  it('a margin joins the blocks around a detection', () => {
    // by hand: at (15, −15) in squares of 10 m; 6 m reach the four beside it, not those at its corners (7.07 m away)
    const blocks = lattice(3, 3);
    const cost = new Float64Array(9).fill(1);
    const units = makeUnits(blocks, [...cost.keys()], cost, [0, 0], [[15, -15]], 6);
    expect(units.count).toBe(5);
    expect(units.blocks.map((own) => [...own].sort()).find((own) => own.length > 1)).toEqual([
      1, 3, 4, 5, 7,
    ]);
    expect([...units.cost].sort()).toEqual([1, 1, 1, 1, 5]);
  });

  it('are as large and as wide as asked for, in whole cells', () => {
    // by hand: half of a square of 35 m is 612.5 m²; of 30 m only 450 m²
    expect(blockSide(500, 20, 5)).toBe(7);
    expect(blockSide(500, 42, 5)).toBe(9);
  });
});

describe('connected areas', () => {
  it('fall into as many parts without a unit as a flood finds', () => {
    const units = unitsOf(lattice(6, 6));
    const random = seeded(11);
    for (let i = 0; i < 40; i++) {
      const inSet = Uint8Array.from({ length: 36 }, () => (random.uniform() < 0.6 ? 1 : 0));
      const { areas, splits } = areasWithout(units, inSet);
      expect(areas).toBe(connectedAreas(units, inSet).length);
      for (let u = 0; u < 36; u++) {
        if (inSet[u] === 0) continue;
        const without = Uint8Array.from(inSet);
        without[u] = 0;
        expect(areas - 1 + splits[u]).toBe(connectedAreas(units, without).length);
      }
    }
  });
});

describe('the outline of blocks', () => {
  it('has the corners of an L, and closes', () => {
    // by hand: blocks 0, 2 and 3 of two columns
    expect(outlineOf(lattice(2, 2), [0, 2, 3], [100, 50])).toEqual([
      [
        [110, 50],
        [110, 40],
        [120, 40],
        [120, 30],
        [100, 30],
        [100, 50],
        [110, 50],
      ],
    ]);
  });

  it('parts a ring from a hole that it meets at a corner', () => {
    // by hand: all of three by three without the middle, and without one corner
    const [ring, hole, ...others] = outlineOf(lattice(3, 3), [1, 2, 3, 5, 6, 7, 8], [0, 0]);
    expect(others).toEqual([]);
    expect(ring).toHaveLength(7);
    expect(hole).toHaveLength(5);
  });
});
