/**
 * Choosing units for a budget: as many mussels as can be had in at most so many connected areas (METHOD.md: Treatment
 * areas). Greedy growth from several seeds, then exchange until nothing improves, then a part is taken out and grown
 * again; the best of all is kept. No proof of the best there is: the bound stands beside it.
 */

import type { Chosen, Purse } from './chosen.ts';
import { exchanged } from './exchange.ts';
import { Heap } from './heap.ts';
import type { Units } from './units.ts';

/** Seeds by the density of single units, and as many by that of the surroundings. */
const SEEDS = 3;
/** The best so many of what grew from the seeds are improved by exchange. */
const EXCHANGED = 3;
/** So few units are all seeds, and all that grows from them is improved. */
const FEW = 20;
/** Share of the choice that is taken out and grown again. */
const TAKEN_OUT = 0.25;

/** @param value mussels of each unit; @returns null where no unit fits the budget */
export function choose(units: Units, value: Float64Array, purse: Purse): Chosen | null {
  const density = perCost(units, value);
  const smooth = smoothed(units, value, purse.budget);
  const few = units.count <= FEW;
  const seeds = [...seedsBy(units, density, purse), ...seedsBy(units, smooth, purse)];
  const starts = (few ? affordable(units, purse) : seeds).flatMap((seed) => [
    grown(units, value, [seed], density, purse),
    grown(units, value, [seed], smooth, purse),
  ]);
  for (let n = 2; n <= purse.parts; n++)
    starts.push(grown(units, value, fitting(units, seeds, n, purse), density, purse));
  starts.sort((a, b) => b.value - a.value);
  let best: Chosen | null = null;
  let before: Chosen | null = null;
  let left = few ? Infinity : EXCHANGED;
  for (const start of starts) {
    // two seeds of one area grow to the same
    if (left === 0 || start.value === before?.value) continue;
    before = start;
    left--;
    const chosen = exchanged(units, value, start, purse);
    if (best === null || chosen.value > best.value) best = chosen;
  }
  return best === null ? null : regrown(units, value, best, density, smooth, purse);
}

/** Grows connected areas from their seeds, always by the neighbour of the highest priority that the budget still takes. */
export function grown(
  units: Units,
  value: Float64Array,
  seeds: readonly number[],
  priority: Float64Array,
  { budget }: Pick<Purse, 'budget'>,
): Chosen {
  const chosen: Chosen = { inSet: new Uint8Array(units.count), value: 0, cost: 0 };
  const seen = new Uint8Array(units.count);
  const heap = new Heap(priority);
  const add = (unit: number): void => {
    if (chosen.cost + units.cost[unit] > budget) return;
    chosen.inSet[unit] = 1;
    chosen.cost += units.cost[unit];
    chosen.value += value[unit];
    for (let i = units.from[unit]; i < units.from[unit + 1]; i++) {
      const next = units.near[i];
      if (seen[next] === 1) continue;
      seen[next] = 1;
      heap.push(next);
    }
  };
  for (const seed of seeds) {
    if (seen[seed] === 0) seen[seed] = 1;
    if (chosen.inSet[seed] === 0) add(seed);
  }
  for (let next = heap.pop(); next !== undefined; next = heap.pop())
    if (chosen.inSet[next] === 0) add(next);
  return chosen;
}

/** Takes a part out, the one that growth reaches last, and grows what is left in two ways. */
function regrown(
  units: Units,
  value: Float64Array,
  start: Chosen,
  density: Float64Array,
  smooth: Float64Array,
  purse: Purse,
): Chosen {
  let best = start;
  for (const priority of [density, smooth]) {
    const core = densestCore(units, best, density);
    const again = exchanged(units, value, grown(units, value, core, priority, purse), purse);
    if (again.value > best.value) best = again;
  }
  return best;
}

/** What grows first around the densest chosen unit, connected, without the last share of the cost. */
function densestCore(units: Units, { inSet, cost }: Chosen, density: Float64Array): number[] {
  let first = -1;
  for (let u = 0; u < units.count; u++)
    if (inSet[u] === 1 && (first < 0 || density[u] > density[first])) first = u;
  const core: number[] = [];
  const heap = new Heap(density);
  const seen = new Uint8Array(units.count);
  seen[first] = 1;
  heap.push(first);
  let left = (1 - TAKEN_OUT) * cost;
  for (let u = heap.pop(); u !== undefined && left > 0; u = heap.pop()) {
    core.push(u);
    left -= units.cost[u];
    for (let i = units.from[u]; i < units.from[u + 1]; i++) {
      const next = units.near[i];
      if (inSet[next] === 0 || seen[next] === 1) continue;
      seen[next] = 1;
      heap.push(next);
    }
  }
  return core;
}

export function perCost(units: Units, value: Float64Array): Float64Array {
  return value.map((v, u) => v / units.cost[u]);
}

/** Density of each unit with those within the radius of a round area of the budget, on a coarse lattice of their middles. */
export function smoothed(units: Units, value: Float64Array, budget: number): Float64Array {
  const { x, y, cost, count } = units;
  const meanCost = cost.reduce((sum, c) => sum + c, 0) / Math.max(1, count);
  const radius = Math.max(1, Math.round(Math.sqrt(budget / meanCost / Math.PI)));
  let columns = 0;
  let rows = 0;
  for (let u = 0; u < count; u++) {
    columns = Math.max(columns, Math.round(x[u]) + 1);
    rows = Math.max(rows, Math.round(y[u]) + 1);
  }
  const wide = columns + 1;
  const values = new Float64Array(wide * (rows + 1));
  const costs = new Float64Array(wide * (rows + 1));
  for (let u = 0; u < count; u++) {
    const at = (Math.round(y[u]) + 1) * wide + Math.round(x[u]) + 1;
    values[at] += value[u];
    costs[at] += cost[u];
  }
  for (const sums of [values, costs])
    for (let row = 1; row <= rows; row++)
      for (let column = 1; column <= columns; column++) {
        const at = row * wide + column;
        sums[at] += sums[at - 1] + sums[at - wide] - sums[at - wide - 1];
      }
  const within = (sums: Float64Array, u: number): number => {
    const [left, right] = [Math.round(x[u]) - radius, Math.round(x[u]) + radius + 1];
    const [up, down] = [Math.round(y[u]) - radius, Math.round(y[u]) + radius + 1];
    const corner = (column: number, row: number): number =>
      sums[Math.min(rows, Math.max(0, row)) * wide + Math.min(columns, Math.max(0, column))];
    return corner(right, down) - corner(left, down) - corner(right, up) + corner(left, up);
  };
  // where little of the surroundings may be chosen the sum is worth more than the mean
  const most = (2 * radius + 1) ** 2 * meanCost;
  return Float64Array.from(
    { length: count },
    (_, u) => within(values, u) / Math.max(within(costs, u), most / 2),
  );
}

/** The units of the highest priority that fit the budget, so far apart that round areas around them would not meet. */
function seedsBy(units: Units, priority: Float64Array, purse: Purse): number[] {
  const { budget } = purse;
  const order = affordable(units, purse).sort((a, b) => priority[b] - priority[a] || a - b);
  const meanCost = units.cost.reduce((sum, c) => sum + c, 0) / Math.max(1, units.count);
  const apart = Math.max(2, Math.sqrt(budget / meanCost / Math.PI));
  const seeds: number[] = [];
  for (const u of order) {
    if (seeds.length === SEEDS) break;
    const far = seeds.every(
      (s) => Math.hypot(units.x[s] - units.x[u], units.y[s] - units.y[u]) >= apart,
    );
    if (far) seeds.push(u);
  }
  return seeds;
}

function affordable({ cost }: Units, { budget }: Purse): number[] {
  return [...cost.keys()].filter((u) => cost[u] <= budget);
}

/** The first seeds that the budget takes together. */
function fitting(
  units: Units,
  seeds: readonly number[],
  most: number,
  { budget }: Purse,
): number[] {
  const taken: number[] = [];
  let left = budget;
  for (const u of seeds) {
    if (taken.length === most || taken.includes(u) || units.cost[u] > left) continue;
    taken.push(u);
    left -= units.cost[u];
  }
  return taken;
}
