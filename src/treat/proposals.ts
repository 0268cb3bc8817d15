/** Areas proposed for a budget, with what stands beside them: bound, best compact area, corrected share, other budgets. */

import {
  expectedDensity,
  jointOfBins,
  logistic,
  normalQuantile,
  percentileInterval,
  type WeightedJoint,
} from '../../models/index.ts';
import type { AreaRequest, AreasFile, CorrectedShare } from '../../shared/areas.ts';
import type { XY, XYPolygon } from '../../shared/survey.ts';
import type { TreatBasis } from './basis.ts';
import { bestCompact, boundOf } from './beside.ts';
import {
  type Blocks,
  blockSide,
  blockValues,
  eligibleBlocks,
  layBlocks,
  touchedBlocks,
} from './blocks.ts';
import { choose } from './choice.ts';
import type { Chosen } from './chosen.ts';
import { connectedAreas } from './connected.ts';
import { optimismDraws } from './optimism.ts';
import { outlineOf } from './trace.ts';
import { makeUnits, type Units, unitValues } from './units.ts';

/** A proposal of one area more holds at least so many times the mussels of the one before. */
const WORTHWHILE = 1.01;
/** Budgets of the curve, times the one that was asked for. */
const CURVE = [0.25, 0.5, 1, 1.5, 2, 3, 4, 6];

export interface ProposalInput {
  request: AreaRequest;
  /** in the plane */
  detections: readonly XY[];
  excluded: readonly XYPolygon[];
  seed: number;
  level: number;
}

/** A choice as polygons of the plane, one a connected area, the one with the most mussels first. */
export interface ProposedShape {
  parts: XYPolygon[];
  used: number;
}

export interface ProposedAreas {
  blocks: AreasFile['blocks'];
  proposals: (ProposedShape & { boundShare: number; corrected: CorrectedShare | null })[];
  compact: ProposedShape | null;
  curve: AreasFile['curve'];
}

/** What choices are made from; null where the water of the lake cannot be laid out. */
export interface ChoiceBasis {
  blocks: Blocks;
  units: Units;
  joint: WeightedJoint[];
  /** mussels of each unit, and of the surveyed habitat */
  value: Float64Array;
  total: number;
  budget: number;
  eligible: number;
  excluded: number;
}

/** @throws RangeError where the water of the lake or of an excluded place cannot be laid out */
export function choiceBasis(basis: TreatBasis, input: ProposalInput): ChoiceBasis {
  const { bed, cutter } = basis;
  const { request } = input;
  const water = cutter.water(bed);
  if (water === null) throw new RangeError('got a lake whose water cannot be laid out');
  const side = blockSide(request.least_area_m2, request.least_width_m, bed.frame.cellM);
  const blocks = layBlocks(bed, water, side, request.layer_m);
  const touched = new Set<number>();
  if (input.excluded.length > 0) {
    const { water: place } = cutter.cut(input.excluded);
    if (place === null) throw new RangeError('got an excluded place that cannot be laid out');
    for (const k of touchedBlocks(blocks, bed.frame, place)) touched.add(k);
  }
  const eligible = eligibleBlocks(blocks, touched);
  const cost = request.budget_m2 === null ? blocks.waterM3 : blocks.waterM2;
  const corner: XY = [bed.frame.x0, bed.frame.y0];
  const units = makeUnits(blocks, eligible, cost, corner, input.detections, request.margin_m);
  const joint = jointOfBins(basis.models, blocks.bins);
  const density = expectedDensity(joint);
  let total = 0;
  for (let b = 0; b < density.length; b++) total += density[b] * blocks.bins.areaM2[b];
  return {
    blocks,
    units,
    joint,
    value: unitValues(units, blockValues(blocks, density)),
    total,
    budget: request.budget_m2 ?? request.budget_m3 ?? 0,
    eligible: eligible.length,
    excluded: eligibleBlocks(blocks, new Set()).length - eligible.length,
  };
}

/** @param progress of the draws, the longest part */
export function proposeAreas(
  basis: TreatBasis,
  input: ProposalInput,
  progress: (share: number) => void = () => {},
): ProposedAreas {
  const from = choiceBasis(basis, input);
  const { blocks, units, value, total, budget } = from;
  const corner: XY = [basis.bed.frame.x0, basis.bed.frame.y0];
  const shape = (chosen: Chosen): ProposedShape => ({
    parts: connectedAreas(units, chosen.inSet)
      .sort((a, b) => sumOf(b, value) - sumOf(a, value))
      .map((own) =>
        outlineOf(
          blocks,
          own.flatMap((u) => units.blocks[u]),
          corner,
        ),
      ),
    used: chosen.cost,
  });
  const boundShare = (of: number): number => boundOf(units, value, of) / total;
  const kept = worthwhile(from, input.request.most_parts);
  const proposals = kept.map(({ chosen, parts }, i) => {
    const told = (share: number) => progress((i + share) / kept.length);
    const draws = optimismDraws(
      { ...from, seed: input.seed },
      { budget, parts },
      chosen,
      undefined,
      told,
    );
    return {
      ...shape(chosen),
      boundShare: boundShare(budget),
      corrected: correctedShare(chosen.value / total, draws, input.level, basis.quantile),
    };
  });
  const compact = bestCompact(units, value, budget);
  const curve = CURVE.flatMap((times) => {
    const chosen = choose(units, value, { budget: budget * times, parts: 1 });
    if (chosen === null) return [];
    const share = chosen.value / total;
    return [{ budget: budget * times, share, bound_share: boundShare(budget * times) }];
  });
  const { eligible, excluded } = from;
  return {
    blocks: { side_m: blocks.sideM, eligible, excluded },
    proposals,
    compact: compact && shape(compact),
    curve,
  };
}

/** The choice of one area, of up to two, …, as far as one area more is worth it. */
function worthwhile({ units, value, budget }: ChoiceBasis, mostParts: number) {
  const kept: { chosen: Chosen; parts: number }[] = [];
  for (let parts = 1; parts <= mostParts; parts++) {
    const chosen = choose(units, value, { budget, parts });
    const before = kept.at(-1)?.chosen.value ?? 0;
    if (chosen !== null && chosen.value > before * WORTHWHILE) kept.push({ chosen, parts });
  }
  return kept;
}

function sumOf(own: readonly number[], value: Float64Array): number {
  return own.reduce((sum, u) => sum + value[u], 0);
}

/**
 * The share with its bias taken off on the logit scale, and its interval from the draws of the difference, as much wider
 * as the quantile of this survey's intervals is than a normal one.
 * @returns null where the share is 0 or 1, or no draw has a difference
 */
export function correctedShare(
  naive: number,
  draws: readonly number[],
  level: number,
  quantile: number | null,
): CorrectedShare | null {
  if (!(naive > 0 && naive < 1) || draws.length === 0) return null;
  const bias = draws.reduce((sum, d) => sum + d, 0) / draws.length;
  const logit = Math.log(naive / (1 - naive));
  const wider = quantile === null ? null : quantile / normalQuantile((1 + level) / 2);
  const drawn = percentileInterval(draws, level);
  const limit = (difference: number): number | null =>
    wider === null ? null : logistic(logit - bias - wider * (difference - bias));
  return {
    share: logistic(logit - bias),
    lower: limit(drawn.upper),
    upper: limit(drawn.lower),
    bias_logit: bias,
    draws: draws.length,
  };
}
