/** Depths recorded, or mapped, in feet instead of metres: a suspicion with its evidence, never a correction. */

import { extent, median } from '../../shared/extent.ts';
import { type Finding, noticeAt } from '../../shared/findings.ts';
import { pointAlong } from '../../shared/rope.ts';
import type { PlacedTransect, XY } from '../../shared/survey.ts';
import { HABITAT } from '../../shared/tables.ts';
import { M_PER_FOOT } from '../../shared/units.ts';
import { plain, quoted } from '../../shared/words.ts';
import type { Context } from './context.ts';
import { profileOf } from './depths.ts';

/** Deeper than recreational and scientific divers on air search along a rope (the usual limit is 40 m). */
const DEEPEST_SEARCH_M = 40;
/** A drop of half the rope, 30°, on the typical transect of a lake is a cliff; in feet it is 9°. */
const STEEPEST_TYPICAL = 0.5;
const FEWEST_TRANSECTS = 3;
/** Feet in a metre, and how far a ratio may be off: gauges and maps agree to 10 % or so. */
const FEET = 1 / M_PER_FOOT;
const RATIO_TOLERANCE = 0.12;
/** Shallower than this, map and gauge differ by too much for a ratio. */
const SHALLOWEST_RATIO_M = 0.5;
const FEWEST_PAIRS = 6;
/** Of one transect. */
const FEWEST_PLACES = 3;

/** From the tables alone: depths that no search reaches, or ropes that are all too steep. */
export function feetFromTables(context: Context): Finding[] {
  const profiles = [...context.habitatOf.keys()]
    .map((label) => ({ label, profile: profileOf(context, label) }))
    .filter(({ profile }) => profile.length > 0);
  const depths = profiles.flatMap(({ profile }) => profile);
  if (depths.length === 0) return [];
  const deepest = depths.reduce((a, b) => (b.depthM > a.depthM ? b : a));
  const slopes = profiles.flatMap(({ label, profile }) => {
    const ropeM = context.transectOf.get(label)?.cells.length_m ?? null;
    const values = profile.map(({ depthM }) => depthM);
    if (ropeM === null) return [];
    const [least, greatest] = extent(values);
    return [(greatest - least) / ropeM];
  });
  const evidence: string[] = [];
  if (deepest.depthM > DEEPEST_SEARCH_M) {
    const inMetres = (deepest.depthM / FEET).toFixed(1);
    evidence.push(
      `the greatest is ${plain(deepest.depthM)} m (row ${deepest.row}), beyond a usual dive; as feet it would be ${inMetres} m`,
    );
  }
  if (slopes.length >= FEWEST_TRANSECTS && median(slopes) > STEEPEST_TYPICAL) {
    const share = Math.round(100 * median(slopes));
    evidence.push(`on the typical transect the depth changes by ${share} % of the rope's length`);
  }
  return evidence.length === 0 ? [] : [suspicion(evidence.join('; '))];
}

/**
 * From the map: recorded depths over mapped depths at the same places have a typical ratio near 3.28
 * (sheets in feet) or 0.305 (map in feet). `depthAt` reads the map in the plane of `placed`, null off it.
 */
export function feetFromMap(
  placed: readonly PlacedTransect[],
  depthAt: (p: XY) => number | null,
): Finding[] {
  const ratios = placed.flatMap((transect) => ratiosOf(transect, depthAt));
  if (ratios.length < FEWEST_PAIRS) return [];
  const ratio = median(ratios);
  const evidence = `recorded depths are ${ratio.toFixed(2)} times those of the map (median of ${ratios.length} places; a metre is 3.28 feet)`;
  if (isNear(ratio, FEET)) return [suspicion(evidence)];
  if (!isNear(ratio, 1 / FEET)) return [];
  const message = `depths in feet suspected on the map: ${evidence}; used as they stand, in metres`;
  return [noticeAt({ table: 'depth.geojson', column: 'depth_m' }, 'map-depth-in-feet', message)];
}

/**
 * Single transects whose depths have that ratio to the map while the others agree with it. `rowOf` gives the first row of a
 * transect in habitat.csv.
 */
export function feetOnTransects(
  placed: readonly PlacedTransect[],
  depthAt: (p: XY) => number | null,
  rowOf: ReadonlyMap<string, number>,
): Finding[] {
  const typical = placed.flatMap((transect) => {
    const ratios = ratiosOf(transect, depthAt);
    return ratios.length < FEWEST_PLACES ? [] : [{ transect, ratio: median(ratios) }];
  });
  if (typical.length < FEWEST_TRANSECTS) return [];
  if (!isNear(median(typical.map(({ ratio }) => ratio)), 1)) return [];
  return typical.flatMap(({ transect: { transect }, ratio }) => {
    const row = rowOf.get(transect.transect);
    if (!isNear(ratio, FEET) || row === undefined) return [];
    const evidence = `the depths of ${quoted(transect.transect)} are ${ratio.toFixed(2)} times those of the map, the others agree with it (a metre is 3.28 feet)`;
    return [suspicion(evidence, row, 'depth-in-feet-on-transect')];
  });
}

/** Recorded over mapped depths, where both are deep enough to tell. */
function ratiosOf(transect: PlacedTransect, depthAt: (p: XY) => number | null): number[] {
  const { horizontalM, depthM } = transect.profile;
  return horizontalM.flatMap((alongM, i) => {
    const mappedM = depthAt(pointAlong(transect, alongM).xy);
    const recordedM = depthM[i];
    const usable = mappedM !== null && Math.min(mappedM, recordedM) >= SHALLOWEST_RATIO_M;
    return usable ? [recordedM / mappedM] : [];
  });
}

function suspicion(evidence: string, row: number | null = null, code = 'depth-in-feet'): Finding {
  const message = `depths in feet suspected: ${evidence}; used as they stand, in metres`;
  return noticeAt({ table: HABITAT.file, row, column: 'depth_m' }, code, message);
}

function isNear(ratio: number, target: number): boolean {
  return Math.abs(ratio / target - 1) <= RATIO_TOLERANCE;
}
