/** Exchange: a chosen unit for a better one beside the others, and whatever the budget still takes, until nothing improves. */

import type { Chosen, Purse } from './chosen.ts';
import { areasWithout } from './connected.ts';
import type { Units } from './units.ts';

/** A gain below this share of the value is rounding. */
const NO_GAIN = 1e-12;

export function exchanged(units: Units, value: Float64Array, start: Chosen, purse: Purse): Chosen {
  const chosen: Chosen = { ...start, inSet: Uint8Array.from(start.inSet) };
  // every step raises the value: it ends; the limit is for a lake on which it would end late
  for (let step = 0; step < 4 * units.count + 10; step++)
    if (!filled(units, value, chosen, purse) && !swapped(units, value, chosen, purse)) break;
  return chosen;
}

function put(units: Units, value: Float64Array, chosen: Chosen, unit: number, sign: 1 | -1): void {
  chosen.inSet[unit] = sign === 1 ? 1 : 0;
  chosen.cost += sign * units.cost[unit];
  chosen.value += sign * value[unit];
}

/** Chosen neighbours of a unit, `but` aside. */
function touches({ from, near }: Units, { inSet }: Chosen, unit: number, but = -1): number {
  let n = 0;
  for (let i = from[unit]; i < from[unit + 1]; i++)
    if (near[i] !== but && inSet[near[i]] === 1) n++;
  return n;
}

/** Adds the unit of most mussels that fits; false where none does. */
function filled(units: Units, value: Float64Array, chosen: Chosen, purse: Purse): boolean {
  const left = purse.budget - chosen.cost;
  const fits: number[] = [];
  for (let u = 0; u < units.count; u++)
    if (chosen.inSet[u] === 0 && units.cost[u] <= left && value[u] > 0) fits.push(u);
  if (fits.length === 0) return false;
  const mayStart = purse.parts > 1 && areasWithout(units, chosen.inSet).areas < purse.parts;
  let best = -1;
  for (const u of fits) {
    if (best >= 0 && value[u] <= value[best]) continue;
    if (mayStart || touches(units, chosen, u) > 0) best = u;
  }
  if (best < 0) return false;
  put(units, value, chosen, best, 1);
  return true;
}

/** The best exchange of one for one, of those that give up the least first; false where none gains. */
function swapped(units: Units, value: Float64Array, chosen: Chosen, purse: Purse): boolean {
  const { areas, splits } = areasWithout(units, chosen.inSet);
  const mostFirst = (a: number, b: number): number => value[b] - value[a] || a - b;
  const out: number[] = [];
  const beside: number[] = [];
  for (let u = 0; u < units.count; u++) {
    if (chosen.inSet[u] === 1) {
      if (areas - 1 + splits[u] <= purse.parts) out.push(u);
    } else if (touches(units, chosen, u) > 0) beside.push(u);
  }
  out.sort((a, b) => value[a] - value[b] || a - b);
  beside.sort(mostFirst);
  let all: number[] | null = null;
  for (const less of out) {
    // with one area fewer a new one may begin anywhere
    const anywhere = areas - 1 + splits[less] < purse.parts;
    if (anywhere && purse.parts > 1) all ??= [...value.keys()].sort(mostFirst);
    const room = purse.budget - chosen.cost + units.cost[less];
    for (const more of anywhere && all !== null ? all : beside) {
      if (!(value[more] - value[less] > NO_GAIN * chosen.value)) break;
      if (chosen.inSet[more] === 1 || units.cost[more] > room) continue;
      if (!anywhere && touches(units, chosen, more, less) === 0) continue;
      put(units, value, chosen, less, -1);
      put(units, value, chosen, more, 1);
      return true;
    }
  }
  return false;
}
