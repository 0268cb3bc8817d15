/** Areas proposed for a budget, in words and figures: what was asked for, what came out, what stands beside it. */

import type { AreaRequest, AreasFile, Proposal } from '../../shared/areas.ts';
import { term, terms } from '../../shared/glossary.ts';
import {
  formatArea,
  formatCount,
  formatDepth,
  formatDigits,
  formatLandArea,
  landArea,
  landAreaUnit,
  M2_PER_ACRE,
  M2_PER_HA,
  M3_PER_ACRE_FOOT,
  type UnitSystem,
} from '../../shared/units.ts';
import { type AreaRow, areaRow, shareCells, sharePercent } from './area-facts.ts';
import { ciName, NONE } from './quantity.ts';

export interface ProposalRow extends AreaRow {
  /** the share without what choosing by the same data added to it */
  corrected: [share: string, interval: string];
}

export interface ProposedRead {
  /** which holds the most, to be read first; null where nothing is proposed, or without a number */
  answer: string | null;
  /** what was asked for */
  asked: string;
  proposals: ProposalRow[];
  /** the best single compact area, to hold them against */
  compact: AreaRow | null;
  /** beside the proposals; or why there is none */
  notes: string[];
  /** the first row is the head */
  curve: string[][];
}

export function readProposed(file: AreasFile, units: UnitSystem = 'metric'): ProposedRead {
  const { request, proposals, compact, blocks } = file;
  return {
    answer: answerOf(file, units),
    asked: askedOf(request, blocks, units),
    proposals: proposals.map((p) => ({
      ...areaRow(p, units),
      corrected: shareCells(p.corrected),
    })),
    compact: compact && areaRow(compact, units),
    notes: notesOf(file),
    curve: curveOf(file, units),
  };
}

/** The proposal that holds the most, without what choosing by the same data added to it; null where nothing is proposed. */
export function bestProposal({ proposals }: AreasFile): Proposal | null {
  const share = (p: Proposal): number => p.corrected?.share ?? p.share?.share ?? 0;
  return proposals.reduce<Proposal | null>(
    (best, p) => (best === null || share(p) > share(best) ? p : best),
    null,
  );
}

function answerOf(file: AreasFile, units: UnitSystem): string | null {
  const best = bestProposal(file);
  if (best === null || best.mussels === null) return null;
  const [share, limits] = shareCells(best.corrected ?? best.share);
  const which =
    file.proposals.length === 1
      ? `${best.name} holds `
      : `Of what is proposed, ${best.name} holds the most: `;
  return `${which}about ${share} of the ${terms('mussel')}${limits === NONE ? '' : ` (${ciName(file.interval)} ${limits})`}, on ${formatLandArea(best.water_m2, units)} of water${best.corrected === null ? '' : '; what an area gains by having been chosen is taken off'}.`;
}

/** Share against budget, for a drawing and its table. */
export interface ShareCurve {
  title: string;
  described: string;
  note: string;
  unit: string;
  /** the best single area of each budget, and what no choice can exceed */
  points: { budget: number; share: number; bound: number }[];
  /** the proposals: as each looks, and corrected with its limits */
  proposals: {
    name: string;
    used: number;
    share: number;
    corrected: { share: number; lower: number | null; upper: number | null } | null;
  }[];
}

/** Null where nothing is proposed. */
export function shareCurve(file: AreasFile, units: UnitSystem = 'metric'): ShareCurve | null {
  const { curve, proposals, request } = file;
  const [first] = proposals;
  if (curve.length < 2 || first === undefined) return null;
  const byArea = request.budget_m2 !== null;
  const perUnit = byArea ? M2_PER[units] : M3_PER[units];
  const unit = byArea ? landAreaUnit(units) : volumeUnit(units);
  const [least, most] = [curve[0], curve[curve.length - 1]];
  const at = (c: AreasFile['curve'][number]): string =>
    `${sharePercent(c.share)} of the ${terms('mussel')} on ${formatDigits(c.budget / perUnit, 3)} ${unit}`;
  return {
    title: `Share of the ${terms('mussel')} against ${byArea ? 'area' : 'volume'}`,
    described: `The best single area holds ${at(least)}, and ${at(most)}; no choice can hold more than ${sharePercent(most.bound_share)} there.`,
    note: `Line: the best single connected area. Broken line: what no choice can exceed. Rings: the proposals as they look; dots with their ${term('confidenceInterval')}: corrected.`,
    unit,
    points: curve.map((c) => ({
      budget: c.budget / perUnit,
      share: c.share,
      bound: c.bound_share,
    })),
    proposals: proposals.map((p) => ({
      name: p.name,
      used: p.used / perUnit,
      share: p.share?.share ?? 0,
      corrected: p.corrected,
    })),
  };
}

const M2_PER = { metric: M2_PER_HA, imperial: M2_PER_ACRE };
const M3_PER = { metric: 1, imperial: M3_PER_ACRE_FOOT };
const volumeUnit = (units: UnitSystem): string => (units === 'metric' ? 'm³' : 'acre-feet');

function askedOf(request: AreaRequest, blocks: AreasFile['blocks'], units: UnitSystem): string {
  const { budget_m2, budget_m3, layer_m, least_area_m2, least_width_m, margin_m } = request;
  const layer =
    layer_m === null
      ? ''
      : `, the layer of ${formatDepth(layer_m, units)} at the surface or over the bed`;
  const budget =
    budget_m2 === null
      ? `${volume(budget_m3 ?? 0, 4, units)} of water${layer}`
      : `${formatArea(budget_m2, units)} of water`;
  const margin =
    margin_m > 0
      ? ` Around each ${term('detection')} within an area at least ${formatDepth(margin_m, units)} belong to it.`
      : '';
  const kept =
    blocks.excluded === 0
      ? ''
      : ` ${formatCount(blocks.excluded)} ${blocks.excluded === 1 ? 'square' : 'squares'} in excluded places left out.`;
  return `At most ${budget}, in squares of ${formatDepth(blocks.side_m, units)} (at least ${formatArea(least_area_m2, units)} as one area, ${formatDepth(least_width_m, units)} wide).${margin}${kept}`;
}

function notesOf({ proposals, blocks }: AreasFile): string[] {
  if (proposals.length === 0)
    return [
      blocks.eligible === 0
        ? `No square is at least half ${term('surveyedHabitat')}: nothing can be proposed.`
        : 'The budget takes no square: nothing can be proposed.',
    ];
  const bound = proposals[0].bound_share;
  return [
    `Share: as it looks. Corrected: without what an area gains by having been chosen by the data that it is judged by; chosen areas look better than they are.`,
    `No choice of such squares for this budget, connected or not, holds more than ${sharePercent(bound)}.`,
  ];
}

function curveOf({ curve, request }: AreasFile, units: UnitSystem): string[][] {
  const byArea = request.budget_m2 !== null;
  return [
    [byArea ? landAreaUnit(units) : volumeUnit(units), 'Share', 'at most'],
    ...curve.map((c) => [
      byArea ? landArea(c.budget, units) : volumeFigure(c.budget, 3, units),
      sharePercent(c.share),
      sharePercent(c.bound_share),
    ]),
  ];
}

function volume(m3: number, digits: number, units: UnitSystem): string {
  return `${volumeFigure(m3, digits, units)} ${volumeUnit(units)}`;
}

function volumeFigure(m3: number, digits: number, units: UnitSystem): string {
  return formatDigits(m3 / M3_PER[units], digits);
}
