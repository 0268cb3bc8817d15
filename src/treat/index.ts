/**
 * Treatment areas: numbers of any area, order of several, proposals for a budget. A page that draws areas needs
 * `treatBasis` once and `measureArea` for each polygon; the command asks for all of it at once.
 */

import { chanceOfMore, jointTotals, logNormalQuantity, shareOfWhole } from '../../models/index.ts';
import type { AreaRequest, AreasFile, AreasHeld, NamedArea, Proposal } from '../../shared/areas.ts';
import type { LngLatPolygon, Plane, XY, XYPolygon } from '../../shared/survey.ts';
import { type MeasuredArea, measureArea, shareRecord } from './area.ts';
import type { TreatBasis } from './basis.ts';
import { type ProposedShape, proposeAreas } from './proposals.ts';

export { type MeasuredArea, measureArea } from './area.ts';
export { type TreatBasis, treatBasis } from './basis.ts';
export { buffered, cutFrom, joined } from './shapes.ts';

/** An area as it is drawn. */
export interface DrawnArea {
  name: string;
  polygons: readonly LngLatPolygon[];
}

/** What the numbers of areas follow from. */
export type AreaMeasure = (
  polygons: readonly LngLatPolygon[],
  layerM: number | null,
) => MeasuredArea;

export interface TreatInput {
  basis: TreatBasis;
  plane: Plane;
  request: AreaRequest;
  candidates: readonly DrawnArea[];
  /** places that must not be chosen */
  excluded: readonly LngLatPolygon[];
  /** in the plane */
  detections: readonly XY[];
  seed: number;
  /** confidence level */
  level: number;
}

type Held = Pick<AreasHeld, 'total' | 'candidates' | 'left_out' | 'pairs'>;
export type TreatNumbers = Omit<AreasFile, 'schema' | 'lake' | 'depth_from_m' | 'depth_to_m'>;

/** @throws RangeError as of `measureArea` */
export function measureIn(basis: TreatBasis, plane: Plane): AreaMeasure {
  return (polygons, layerM) => measureArea(basis, inPlane(polygons, plane), layerM);
}

/**
 * What each of the areas holds, what is left outside of all, and which holds more.
 * @param measure in place of the basis' own, which may remember areas that were measured before
 * @throws RangeError where an area is too large to be laid out
 */
export function heldByAreas(
  basis: TreatBasis,
  plane: Plane,
  areas: readonly DrawnArea[],
  layerM: number | null,
  measure: AreaMeasure = measureIn(basis, plane),
): Held {
  const known = areas.map(({ name, polygons }) => ({ name, area: measure(polygons, layerM) }));
  return { ...heldOf(basis, areas, known, measure), pairs: pairsOf(known) };
}

function heldOf(
  basis: TreatBasis,
  areas: readonly DrawnArea[],
  known: readonly Measured[],
  measure: AreaMeasure,
): Omit<Held, 'pairs'> {
  const [first, ...others] = known;
  // what all of them hold has been measured where there is one alone
  const whole = (): MeasuredArea =>
    first !== undefined && others.length === 0
      ? first.area
      : measure(
          areas.flatMap(({ polygons }) => polygons),
          null,
        );
  return {
    total: { mussels: totalMussels(basis), surveyed_m2: basis.surveyedM2 },
    candidates: areas.map(({ name, polygons }, i) => ({
      name,
      polygons: [...polygons],
      ...known[i].area.numbers,
    })),
    left_out: areas.length === 0 ? null : leftOut(basis, whole()),
  };
}

/** @throws RangeError where an area is too large to be laid out */
export function treatAreas(
  input: TreatInput,
  progress: (share: number) => void = () => {},
): TreatNumbers {
  const { basis, plane, request, level, seed } = input;
  const known: Measured[] = [];
  const measured = (name: string, shape: readonly XYPolygon[]): NamedArea => {
    const area = measureArea(basis, shape, request.layer_m);
    known.push({ name, area });
    const polygons = shape.map((rings) => rings.map((ring) => ring.map((p) => plane.inverse(p))));
    return { name, polygons, ...area.numbers };
  };
  const excluded = inPlane(input.excluded, plane);
  const proposed = proposeAreas(
    basis,
    { request, excluded, detections: input.detections, seed, level },
    progress,
  );
  const measure = measureIn(basis, plane);
  for (const { name, polygons } of input.candidates)
    known.push({ name, area: measure(polygons, request.layer_m) });
  const held = heldOf(basis, input.candidates, known, measure);
  const proposals = proposed.proposals.map((shape, i): Proposal => {
    const name = `Proposal ${String.fromCharCode(65 + i)}`;
    const whole = measured(name, shape.parts);
    return {
      ...whole,
      parts: partsOf(basis, shape, whole, plane, request.layer_m),
      used: shape.used,
      bound_share: shape.boundShare,
      corrected: shape.corrected,
    };
  });
  const { compact } = proposed;
  return {
    interval: level,
    total: held.total,
    request,
    candidates: held.candidates,
    left_out: held.left_out,
    blocks: proposed.blocks,
    proposals,
    compact: compact && measured('Compact area', compact.parts),
    curve: proposed.curve,
    pairs: pairsOf(known),
  };
}

interface Measured {
  name: string;
  area: MeasuredArea;
}

/** The connected areas of a proposal, each with numbers of its own; a single one is the proposal itself. */
function partsOf(
  basis: TreatBasis,
  { parts }: ProposedShape,
  whole: NamedArea,
  plane: Plane,
  layerM: number | null,
): NamedArea[] {
  if (parts.length === 1) return [whole];
  return parts.map((rings, i) => ({
    name: `${whole.name}${i + 1}`,
    polygons: [rings.map((ring) => ring.map((p) => plane.inverse(p)))],
    ...measureArea(basis, [rings], layerM).numbers,
  }));
}

function totalMussels({ total, quantile }: TreatBasis) {
  const { estimates, covariance } = jointTotals([total]);
  return logNormalQuantity(estimates[0], Math.sqrt(Math.max(0, covariance[0])), quantile);
}

/** The surveyed habitat without all of the areas: its number is the rest of the total, its error that of the rest. */
function leftOut(basis: TreatBasis, { numbers, totals }: MeasuredArea): AreasHeld['left_out'] {
  const rest = basis.total.map((whole, m) => ({
    ...whole,
    mussels: Math.max(0, whole.mussels - totals[m].mussels),
    gradient: whole.gradient.map((g, k) => g - totals[m].gradient[k]),
  }));
  const joint = jointTotals([rest, basis.total]);
  const se = Math.sqrt(Math.max(0, joint.covariance[0]));
  return {
    surveyed_m2: Math.max(0, basis.surveyedM2 - numbers.surveyed_m2),
    mussels: logNormalQuantity(joint.estimates[0], se, basis.quantile),
    share: shareRecord(shareOfWhole(joint, 0, 1, basis.quantile)),
  };
}

function pairsOf(known: readonly Measured[]): AreasHeld['pairs'] {
  const joint = jointTotals(known.map(({ area }) => area.totals));
  return known.flatMap(({ name }, i) =>
    known.slice(i + 1).map((other, k) => ({
      first: name,
      second: other.name,
      chance: chanceOfMore(joint, i, i + 1 + k),
    })),
  );
}

function inPlane(polygons: readonly LngLatPolygon[], plane: Plane): XYPolygon[] {
  return polygons.map((rings) => rings.map((ring) => ring.map((p) => plane.forward(p))));
}
