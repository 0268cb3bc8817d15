/** What the Density station says: where mussels sit most densely, and on which bed most of them are. */

import type { Estimate } from '../../../../shared/estimate.ts';
import type { DensityCurve } from '../../../../shared/result.ts';
import { type Summit, summit } from '../../plots/density-data.ts';

/** A curve whose highest and lowest density differ by less than this share does not follow depth. */
const LEVEL = 0.01;

export interface Concentration {
  densest: Summit;
  /** the densest curve is the same at every depth */
  level: boolean;
  /** the substrate whose highest density is the lowest, when there are two or more */
  sparsest: Summit | null;
  /** within the recorded depths */
  fromM: number;
  toM: number;
}

/** Within the depths that were recorded (not the tolerance beyond them); null without a density above 0. */
export function concentration(
  curves: readonly DensityCurve[],
  recorded: { fromM: number; toM: number },
): Concentration | null {
  const summits = curves.flatMap((c) => summit(c, recorded) ?? []);
  const [densest, ...others] = summits.sort((a, b) => b.musselsPerM2 - a.musselsPerM2);
  if (densest === undefined || !(densest.musselsPerM2 > 0)) return null;
  const curve = curves.find((c) => c.substrate === densest.substrate);
  const level = curve !== undefined && isLevel(curve);
  return { densest, level, sparsest: others.at(-1) ?? null, ...recorded };
}

function isLevel({ musselsPerM2 }: DensityCurve): boolean {
  const [least, most] = [Math.min(...musselsPerM2), Math.max(...musselsPerM2)];
  return most - least < LEVEL * most;
}

export interface SubstrateShare {
  substrate: string;
  mussels: number;
  share: number;
}

/** Mussels of the lake by substrate, most first, with their share of the total; empty without a lake. */
export function sharesBySubstrate(strata: Estimate['strata']): SubstrateShare[] {
  const sums = new Map<string, number>();
  for (const s of strata ?? [])
    sums.set(s.substrate, (sums.get(s.substrate) ?? 0) + (s.mussels?.estimate ?? 0));
  const total = [...sums.values()].reduce((a, b) => a + b, 0);
  if (!(total > 0)) return [];
  return [...sums]
    .map(([substrate, mussels]) => ({ substrate, mussels, share: mussels / total }))
    .sort((a, b) => b.mussels - a.mussels);
}

/** Substrates on which nothing was found, with what could have been missed there. */
export function emptyClasses(estimate: Pick<Estimate, 'upper_limits'>): string[] {
  return estimate.upper_limits.map((l) => l.class);
}
