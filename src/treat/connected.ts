/** Connected areas of chosen units, and into how many parts each unit's own would fall without it (Tarjan 1972, SIAM J. Comput. 1:146). */

import type { Units } from './units.ts';

export interface Connected {
  /** number of connected areas */
  areas: number;
  /** by unit: parts of its area without it; 0 for one that stands by itself and for those not chosen */
  splits: Int32Array;
}

export function areasWithout({ count, from, near }: Units, inSet: Uint8Array): Connected {
  const splits = new Int32Array(count);
  const order = new Int32Array(count); // 0 = not met
  const low = new Int32Array(count);
  const parent = new Int32Array(count).fill(-1);
  const next = Int32Array.from(from.subarray(0, count));
  const path: number[] = [];
  let met = 0;
  let areas = 0;
  for (let root = 0; root < count; root++) {
    if (inSet[root] === 0 || order[root] > 0) continue;
    areas++;
    enter(root, -1);
    while (path.length > 0) {
      const u = path[path.length - 1];
      if (next[u] < from[u + 1]) {
        const v = near[next[u]++];
        if (inSet[v] === 0 || v === parent[u]) continue;
        if (order[v] > 0) low[u] = Math.min(low[u], order[v]);
        else enter(v, u);
        continue;
      }
      path.pop();
      const p = parent[u];
      if (p < 0) continue;
      low[p] = Math.min(low[p], low[u]);
      // what hangs on u reaches nothing above p: without p it is a part of its own
      if (p === root || low[u] >= order[p]) splits[p]++;
    }
  }
  // for all but the first unit of an area there is one part more: the one it was reached from
  for (let u = 0; u < count; u++) if (parent[u] >= 0) splits[u]++;
  return { areas, splits };

  function enter(u: number, from_: number): void {
    order[u] = ++met;
    low[u] = order[u];
    parent[u] = from_;
    path.push(u);
  }
}

/** The chosen units by connected area, the area with the lowest unit first. */
export function connectedAreas({ count, from, near }: Units, inSet: Uint8Array): number[][] {
  const seen = new Uint8Array(count);
  const areas: number[][] = [];
  for (let root = 0; root < count; root++) {
    if (inSet[root] === 0 || seen[root] === 1) continue;
    const own = [root];
    seen[root] = 1;
    for (let i = 0; i < own.length; i++)
      for (let k = from[own[i]]; k < from[own[i] + 1]; k++) {
        const v = near[k];
        if (inSet[v] === 0 || seen[v] === 1) continue;
        seen[v] = 1;
        own.push(v);
      }
    areas.push(own);
  }
  return areas;
}
