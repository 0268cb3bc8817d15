/** The numbers of one area: its water, and the mussels of the surveyed habitat within it (METHOD.md: Treatment areas). */

import {
  type AreaTotals,
  areaTotals,
  averageSums,
  jointTotals,
  logNormalQuantity,
  type ShareEstimate,
  shareOfWhole,
} from '../../models/index.ts';
import type { AreaCut, AreaNumbers, ShareOfTotal } from '../../shared/areas.ts';
import type { Quantity } from '../../shared/estimate.ts';
import { type Bed, REASONS, type XYPolygon } from '../../shared/survey.ts';
import { M2_PER_ACRE, M2_PER_HA, M3_PER_ACRE_FOOT } from '../../shared/units.ts';
import type { TreatBasis } from './basis.ts';
import { searchedWithin } from './strips.ts';

const DEPTH_UNMAPPED = REASONS.indexOf('depth unmapped');
/** Less of an area than this is rounding, m². */
const NO_AREA = 1e-3;

/** The numbers, and the totals under each model that shares and orders of several areas follow from. */
export interface MeasuredArea {
  numbers: AreaNumbers;
  totals: AreaTotals;
}

/**
 * @param polygons in the plane of the lake, closed rings
 * @param layerM thickness of the layer whose volume is asked for; null: none
 * @throws RangeError where the area is too large or too steep to be laid out, or the layer is not above 0
 */
export function measureArea(
  basis: TreatBasis,
  polygons: readonly XYPolygon[],
  layerM: number | null,
): MeasuredArea {
  const cut = basis.cutter.cut(polygons);
  const { bed, water } = cut;
  if (bed === null || water === null)
    throw new RangeError('got an area that cannot be laid out, expected one of fewer cells');
  const totals = areaTotals(averageSums(basis.models, bed.pieces));
  const joint = jointTotals([totals, basis.total]);
  const mussels = logNormalQuantity(
    joint.estimates[0],
    Math.sqrt(Math.max(0, joint.covariance[0])),
    basis.quantile,
  );
  const surveyedM2 = surveyedOf(bed);
  const size = sizeOf(cut, water, layerM);
  const searched = searchedWithin(basis.searched, polygons);
  const per = (amount: number): Quantity | null =>
    surveyedM2 > 0 && amount > 0 ? scaled(mussels, 1 / amount) : null;
  return {
    totals,
    numbers: {
      ...size,
      surveyed_m2: surveyedM2,
      outside: outsideOf(bed),
      searched_m2: searched,
      searched_share: size.water_m2 > 0 ? Math.min(1, searched / size.water_m2) : null,
      mussels: surveyedM2 > 0 ? mussels : null,
      mussels_per_ha: per(size.water_m2 / M2_PER_HA),
      mussels_per_1000_m3: per(size.volume_m3 / 1000),
      share: surveyedM2 > 0 ? shareRecord(shareOfWhole(joint, 0, 1, basis.quantile)) : null,
    },
  };
}

export function shareRecord(estimate: ShareEstimate | null): ShareOfTotal | null {
  if (estimate === null) return null;
  const { share, lower, upper } = estimate;
  return { share, lower, upper };
}

type Size = Pick<
  AreaNumbers,
  | 'water_m2'
  | 'water_acres'
  | 'off_lake_m2'
  | 'mean_depth_m'
  | 'greatest_depth_m'
  | 'depth_unmapped_m2'
  | 'volume_m3'
  | 'volume_acre_feet'
  | 'layer_m'
  | 'layer_m3'
  | 'layer_acre_feet'
>;

/** Area, depth and volume of the water. */
function sizeOf({ polygonM2 }: AreaCut, water: Bed, layerM: number | null): Size {
  const { volumeM3, layerM3, knownM2, deepestM, unknownM2 } = volumesOf(water, layerM);
  const waterM2 = water.outlineM2;
  const off = polygonM2 - waterM2;
  return {
    water_m2: waterM2,
    water_acres: waterM2 / M2_PER_ACRE,
    off_lake_m2: off > NO_AREA ? off : 0,
    mean_depth_m: knownM2 > 0 ? volumeM3 / knownM2 : null,
    greatest_depth_m: knownM2 > 0 ? deepestM : null,
    depth_unmapped_m2: unknownM2,
    volume_m3: volumeM3,
    volume_acre_feet: volumeM3 / M3_PER_ACRE_FOOT,
    layer_m: layerM,
    layer_m3: layerM === null ? null : layerM3,
    layer_acre_feet: layerM === null ? null : layerM3 / M3_PER_ACRE_FOOT,
  };
}

interface Volumes {
  volumeM3: number;
  layerM3: number;
  knownM2: number;
  deepestM: number;
  unknownM2: number;
}

/**
 * ∫ depth dA and ∫ min(depth, h) dA over the pieces. Depth is linear on a piece and told at its centroid, so the first is
 * exact; so is the second where h is a whole metre, at which pieces are cut, else good to the slope across a piece.
 * The bottom layer of h metres has the volume of the top one: both are min(depth, h) thick everywhere.
 */
export function volumesOf({ pieces }: Bed, layerM: number | null): Volumes {
  if (layerM !== null && !(layerM > 0))
    throw new RangeError(`got a layer of ${layerM} m, expected one above 0`);
  const sums = { volumeM3: 0, layerM3: 0, knownM2: 0, deepestM: 0, unknownM2: 0 };
  for (let i = 0; i < pieces.count; i++) {
    const areaM2 = pieces.areaM2[i];
    if (pieces.reason[i] === DEPTH_UNMAPPED) {
      sums.unknownM2 += areaM2;
      continue;
    }
    const depthM = pieces.depthM[i];
    sums.knownM2 += areaM2;
    sums.volumeM3 += areaM2 * depthM;
    if (layerM !== null) sums.layerM3 += areaM2 * Math.min(depthM, layerM);
    if (depthM > sums.deepestM) sums.deepestM = depthM;
  }
  return sums;
}

function surveyedOf({ pieces }: Bed): number {
  let area = 0;
  for (let i = 0; i < pieces.count; i++) if (pieces.reason[i] === 0) area += pieces.areaM2[i];
  return area;
}

function outsideOf({ pieces, unmappedM2 }: Bed): AreaNumbers['outside'] {
  const areas = new Float64Array(REASONS.length);
  for (let i = 0; i < pieces.count; i++) areas[pieces.reason[i]] += pieces.areaM2[i];
  const known = REASONS.slice(1).map((reason, k) => ({ reason, area_m2: areas[k + 1] }));
  return [...known, { reason: 'unmapped', area_m2: unmappedM2 }].filter(
    ({ area_m2: areaM2 }) => areaM2 > NO_AREA,
  );
}

function scaled(q: Quantity, by: number): Quantity {
  const times = (x: number | null): number | null => (x === null ? null : x * by);
  return {
    estimate: q.estimate * by,
    se: times(q.se),
    cv: q.cv,
    lower: times(q.lower),
    upper: times(q.upper),
  };
}
