/** Everything that the map shows of a survey, made ready for its sources; and what tells one lake from the next. */

import type { Analysis } from '../../../../shared/analysis.ts';
import type { Finding } from '../../../../shared/findings.ts';
import { pairsOf, positionsFrom } from '../../../../shared/positions.ts';
import type {
  Lake,
  LngLat,
  LngLatPolygon,
  PlacedTransect,
  Positions,
  Segment,
  Survey,
} from '../../../../shared/survey.ts';
import { type PlannedRow, plannedPlaces } from '../../../present/planned.ts';
import type { Focus } from '../../contract.ts';
import { LARGEST_COUNT_PX, type TransectZooms } from '../layer-parts.ts';
import { zoomWhere } from '../scale.ts';
import { largestCountM } from './counts.ts';
import { boundsOf, type Places } from './geo.ts';

/** What a judged and an estimated survey have in common. */
export interface Shown {
  survey: Survey;
  placed: PlacedTransect[];
  segments: Segment[];
  lake: Lake;
  analysis: Analysis;
  findings: Finding[];
  /** of a judged survey */
  planned?: readonly PlannedRow[];
}

/** A transect shorter than this on screen is drawn as a mark. */
const TRUE_LINE_PX = 26;
/** A transect as long as this has room for its clusters and segments. */
const CLUSTERS_PX = 110;
/** Pixels of half a metre at which its mark is drawn. */
const HALF_METRE_PX = 7;
const USUAL_LENGTH_M = 30;

export function transectZooms(placed: readonly PlacedTransect[]): TransectZooms {
  const lengths = placed.map((p) => p.horizontalLengthM).sort((a, b) => a - b);
  const middleM = lengths[Math.floor(lengths.length / 2)] || USUAL_LENGTH_M;
  const lat = placed[0]?.startLngLat[1] ?? 0;
  const line = zoomWhere(middleM, TRUE_LINE_PX, lat);
  return {
    line,
    clusters: zoomWhere(middleM, CLUSTERS_PX, lat),
    ticks: Math.max(line, zoomWhere(0.5, HALF_METRE_PX, lat)),
    counts: zoomWhere(largestCountM(placed), LARGEST_COUNT_PX, lat),
  };
}

/** What the map is fitted to: the outline, else the transects, else the maps' other files; null without any place. */
export function placesToFit({ lake, placed, survey, planned = [] }: Shown): Places | null {
  const shores = lake.outline?.map((rings) => rings[0] ?? []) ?? [];
  const transects = placed.map((p): LngLat[] => [p.startLngLat, p.endLngLat]);
  const waypoints = survey.transects.map((t): LngLat[] => [[t.startLon, t.startLat]]);
  const starts = plannedPlaces(planned).map(({ start }): LngLat[] => [start]);
  const found = [shores, transects, waypoints, starts].find(isSomewhere);
  if (found) return found;
  const patches = lake.substrate?.flatMap((p) => p.polygons.flat().map(pairsOf)) ?? [];
  return isSomewhere(patches) ? patches : null;
}

/** A transect, a treatment area or whatever rings are named; null where it has no place. */
export function placesToLookAt(
  { lake, placed }: Pick<Shown, 'lake' | 'placed'>,
  at: Focus['lookAt'],
): Places | null {
  if (at === null) return null;
  if ('rings' in at) return at.rings;
  if ('treatment' in at) {
    const area = lake.treatments[at.treatment]?.polygons.map((rings) => rings[0] ?? []) ?? [];
    return isSomewhere(area) ? area : null;
  }
  const found = placed.find((p) => p.transect.transect === at.transect);
  return found === undefined ? null : [[found.startLngLat, found.endLngLat]];
}

function isSomewhere(places: Places): boolean {
  return boundsOf(places.flat()) !== null;
}

/** Changes when the lake's geometry does: a new estimate of the same lake draws nothing anew. */
export function lakeKey({ outline, substrate, depth, treatments }: Lake): string {
  const parts: (string | number)[] = [];
  const add = (polygons: readonly (readonly Positions[])[]): void => {
    for (const rings of polygons) for (const ring of rings) parts.push(ring.length, sum(ring));
  };
  const addPairs = (polygons: LngLatPolygon[]): void =>
    add(polygons.map((rings) => rings.map(positionsFrom)));
  addPairs(outline ?? []);
  for (const p of substrate ?? []) {
    parts.push(p.substrate.join('+'));
    add(p.polygons);
  }
  if (depth?.kind === 'lines')
    for (const l of depth.lines) parts.push(l.depthM, l.points.length, sum(l.points));
  for (const t of treatments) {
    parts.push(t.name);
    addPairs(t.polygons);
  }
  return parts.join();
}

/** Weighted by place, so that two vertices that change places are seen. */
function sum(positions: Positions): number {
  let total = 0;
  for (let i = 0; i < positions.length; i += 2)
    total += (positions[i] + 2 * positions[i + 1]) * (((i / 2) % 97) + 1);
  return total;
}
