/** Drafts → the survey's records: rows without a fault, defaults filled in, end rows told apart. */

import type { DraftRow, Reading, TransectCells } from '../../shared/reading.ts';
import { isEndRow, ROPE_TOLERANCE_M } from '../../shared/rope.ts';
import type {
  Detection,
  HabitatRow,
  PlantedShells,
  Survey,
  Transect,
} from '../../shared/survey.ts';
import { DEFAULT_WIDTH_M } from '../../shared/tables.ts';

/**
 * A row with a fault, or of a transect that is not among the sound ones, is left out: its fault is an error
 * that stops the run. Habitat rows are put in the order of the transects and of distance.
 */
export function buildSurvey(drafts: Reading['drafts']): Survey {
  const transects: Transect[] = [];
  const byLabel = new Map<string, Transect>();
  for (const row of drafts.transects.rows) {
    const transect = toTransect(row);
    if (transect === null || byLabel.has(transect.transect)) continue;
    transects.push(transect);
    byLabel.set(transect.transect, transect);
  }
  const survey = {
    transects,
    habitat: toHabitat(drafts, byLabel),
    detections: toDetections(drafts, byLabel),
  };
  return drafts.planted.readable ? { ...survey, planted: toPlanted(drafts, byLabel) } : survey;
}

function toTransect({ row, cells, bad, extra }: DraftRow<TransectCells>): Transect | null {
  const { transect, date, design, primary } = cells;
  const { start_lat: startLat, start_lon: startLon, length_m: lengthM } = cells;
  if (bad.size > 0 || transect === null || date === null || design === null) return null;
  if (primary === null || startLat === null || startLon === null || lengthM === null) return null;
  return {
    transect,
    date,
    design,
    primary,
    secondary: cells.secondary,
    startLat,
    startLon,
    endLat: cells.end_lat,
    endLon: cells.end_lon,
    bearingDeg: cells.bearing_deg,
    bearingRef: cells.bearing_ref ?? 'magnetic',
    lengthM,
    widthM: cells.width_m ?? DEFAULT_WIDTH_M[design],
    clarityM: cells.clarity_m,
    stop: cells.stop,
    setupMin: cells.setup_min,
    habitatMin: cells.habitat_min,
    searchMin: cells.search_min,
    notes: cells.notes,
    extra,
    row,
  };
}

function toHabitat(drafts: Reading['drafts'], byLabel: Map<string, Transect>): HabitatRow[] {
  const rowsOf = new Map<string, HabitatRow[]>([...byLabel.keys()].map((label) => [label, []]));
  for (const { row, cells, bad, extra } of drafts.habitat.rows) {
    const { transect: label, distance_m: distanceM, depth_m: depthM } = cells;
    if (bad.size > 0 || label === null || distanceM === null || depthM === null) continue;
    const transect = byLabel.get(label);
    if (transect === undefined) continue;
    const habitat = {
      transect: label,
      // what the checks take for the rope's beginning is that for the rest as well
      distanceM: distanceM <= ROPE_TOLERANCE_M ? 0 : distanceM,
      substrate: cells.substrate,
      plantCover: cells.plant_cover,
    };
    const atEnd = isEndRow(distanceM, transect.lengthM)
      ? { distanceM: transect.lengthM, substrate: null, plantCover: null }
      : {};
    rowsOf.get(label)!.push({ ...habitat, ...atEnd, depthM, extra, row });
  }
  return [...rowsOf.values()].flatMap((rows) => rows.sort((a, b) => a.distanceM - b.distanceM));
}

function toDetections(drafts: Reading['drafts'], byLabel: Map<string, Transect>): Detection[] {
  const detections: Detection[] = [];
  for (const { row, cells, bad, extra } of drafts.detections.rows) {
    const { transect, role, distance_m: distanceM, count } = cells;
    if (bad.size > 0 || transect === null || role === null || distanceM === null) continue;
    if (count === null || !byLabel.has(transect)) continue;
    detections.push({
      transect,
      role,
      distanceM,
      offsetM: cells.offset_m,
      count,
      clusterLengthCm: cells.cluster_length_cm,
      clusterWidthCm: cells.cluster_width_cm,
      extra,
      row,
    });
  }
  return detections;
}

function toPlanted(drafts: Reading['drafts'], byLabel: Map<string, Transect>): PlantedShells[] {
  const seen = new Set<string>();
  return drafts.planted.rows.flatMap(({ row, cells, bad }) => {
    const { transect, planted, found_first, found_second_only } = cells;
    if (bad.size > 0 || transect === null || planted === null) return [];
    if (found_first === null || found_second_only === null) return [];
    if (!byLabel.has(transect) || seen.has(transect)) return [];
    seen.add(transect);
    return [
      { transect, planted, foundFirst: found_first, foundSecondOnly: found_second_only, row },
    ];
  });
}
