/** What stands beside a proposal: the bound that no choice exceeds, and the best single compact area. */

import { grown, smoothed } from './choice.ts';
import type { Chosen } from './chosen.ts';
import type { Units } from './units.ts';

/** Middles that are tried for a compact area, the most promising first. */
const MOST_MIDDLES = 1500;

/** Mussels of the budget filled by density, connected or not, the last unit in part: no choice of units holds more. */
export function boundOf(units: Units, value: Float64Array, budget: number): number {
  const order = [...value.keys()].sort(
    (a, b) => value[b] * units.cost[a] - value[a] * units.cost[b] || a - b,
  );
  let left = budget;
  let sum = 0;
  for (const u of order) {
    if (units.cost[u] >= left) return sum + (value[u] * left) / units.cost[u];
    sum += value[u];
    left -= units.cost[u];
  }
  return sum;
}

/**
 * The best area that grows from a middle by distance alone. Of a large lake the middles are those whose surroundings are
 * the densest.
 */
export function bestCompact(units: Units, value: Float64Array, budget: number): Chosen | null {
  const smooth = smoothed(units, value, budget);
  const middles = [...smooth.keys()].sort((a, b) => smooth[b] - smooth[a] || a - b);
  const closeness = new Float64Array(units.count);
  let best: Chosen | null = null;
  for (const middle of middles.slice(0, MOST_MIDDLES)) {
    if (units.cost[middle] > budget) continue;
    for (let u = 0; u < units.count; u++)
      closeness[u] = -Math.hypot(units.x[u] - units.x[middle], units.y[u] - units.y[middle]);
    const chosen = grown(units, value, [middle], closeness, { budget });
    if (best === null || chosen.value > best.value) best = chosen;
  }
  return best;
}
