/**
 * The chosen look better than they are: what choosing by the same data adds to a share, by a parametric bootstrap of the
 * choice (METHOD.md: Treatment areas). For each draw θ* ~ Normal(θ̂, Σ) an area A(θ*) is chosen as before; what choosing
 * added is logit s(A(θ*); θ*) − logit s(A(θ*); θ̂). Draws of log density raise what is left outside more than what is inside,
 * whatever is chosen: the mean of the same difference on the one area A(θ̂) is taken off.
 */

import { drawnDensity, type WeightedJoint } from '../../models/index.ts';
import { type Blocks, blockValues } from './blocks.ts';
import { choose } from './choice.ts';
import type { Chosen, Purse } from './chosen.ts';
import { type Units, unitValues } from './units.ts';

export const DRAWS = 200;

export interface OptimismInput {
  blocks: Blocks;
  units: Units;
  joint: readonly WeightedJoint[];
  /** mussels of each unit, and of the surveyed habitat, as estimated */
  value: Float64Array;
  total: number;
  seed: number;
}

/**
 * What choosing added to the logit, one number a draw; a draw whose choice holds all or none has none.
 * @param proposed the area chosen by the estimate itself
 */
export function optimismDraws(
  input: OptimismInput,
  purse: Purse,
  proposed: Chosen,
  draws = DRAWS,
  progress: (share: number) => void = () => {},
): number[] {
  const { blocks, units, joint, value, total, seed } = input;
  const differences: number[] = [];
  const unchosen: number[] = [];
  const before = logitOf(proposed.value, total);
  for (let i = 0; i < draws; i++) {
    const density = drawnDensity(joint, seed, i, draws);
    const drawn = unitValues(units, blockValues(blocks, density));
    let drawnTotal = 0;
    for (let b = 0; b < density.length; b++) drawnTotal += density[b] * blocks.bins.areaM2[b];
    const chosen = choose(units, drawn, purse);
    const looked = chosen === null ? null : logitOf(chosen.value, drawnTotal);
    const was = chosen === null ? null : logitOf(heldBy(chosen, value), total);
    if (looked !== null && was !== null) differences.push(looked - was);
    const same = logitOf(heldBy(proposed, drawn), drawnTotal);
    if (same !== null && before !== null) unchosen.push(same - before);
    progress((i + 1) / draws);
  }
  const shift = unchosen.reduce((sum, d) => sum + d, 0) / Math.max(1, unchosen.length);
  return differences.map((d) => d - shift);
}

export function heldBy({ inSet }: Chosen, value: Float64Array): number {
  let sum = 0;
  for (let u = 0; u < value.length; u++) if (inSet[u] === 1) sum += value[u];
  return sum;
}

function logitOf(part: number, total: number): number | null {
  return part > 0 && part < total * (1 - 1e-9) ? Math.log(part / (total - part)) : null;
}
