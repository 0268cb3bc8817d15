/** Chains of a shoreline that do not close. */

import { distance, type Line, lengthOf } from './network.ts';

const CLOSES_SHARE = 0.2;

export interface Bridge {
  from: number[];
  to: number[];
  lengthM: number;
}

/** Chains that do not close, joined by straight bridges between their nearest ends until they do. */
export function bridged(open: readonly Line[]): { rings: Line[]; bridges: Bridge[] } {
  const chains = open.map((line) => [...line]);
  const bridges: Bridge[] = [];
  const rings: Line[] = [];
  while (chains.length > 0) {
    const best = nearestEnds(chains);
    const { i, j, flipI, flipJ, lengthM } = best;
    const first = flipI ? chains[i].toReversed() : chains[i];
    if (i === j) {
      bridges.push({ from: first.at(-1)!, to: first[0], lengthM });
      rings.push([...first, first[0]]);
      chains.splice(i, 1);
      continue;
    }
    const second = flipJ ? chains[j].toReversed() : chains[j];
    bridges.push({ from: first.at(-1)!, to: second[0], lengthM });
    chains[i] = [...first, ...second];
    chains.splice(j, 1);
  }
  return { rings, bridges };
}

function nearestEnds(chains: readonly Line[]) {
  let best = { i: 0, j: 0, flipI: false, flipJ: false, lengthM: Infinity };
  for (let i = 0; i < chains.length; i++)
    for (let j = i; j < chains.length; j++)
      for (const flipI of [false, true])
        for (const flipJ of [false, true]) {
          const from = flipI ? chains[i][0] : chains[i].at(-1)!;
          const to = flipJ ? chains[j].at(-1)! : chains[j][0];
          const lengthM = distance(from, to);
          if (i === j && (flipI || flipJ || !mayClose(chains, i, lengthM))) continue;
          if (lengthM < best.lengthM) best = { i, j, flipI, flipJ, lengthM };
        }
  return best;
}

/** A short arc is not closed by itself while others are there that it may belong to. */
function mayClose(chains: readonly Line[], i: number, lengthM: number): boolean {
  return chains.length === 1 || lengthM < CLOSES_SHARE * lengthOf(chains[i]);
}
