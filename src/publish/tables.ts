/** The result's tables: segments, strata, models, notices. */

import type { Estimate } from '../../shared/estimate.ts';
import type { Detection, Segment } from '../../shared/survey.ts';
import { quantityCells, quantityColumns, toCsv } from './csv.ts';
import { degrees, tidy } from './numbers.ts';

/** One row a segment, in the order of Segment.segment: where it lies, what it is, what was found on it. */
export function segmentsCsv(segments: Segment[], detections: Detection[]): string {
  return toCsv(
    [
      'segment',
      'transect',
      'design',
      'from_m',
      'to_m',
      'horizontal_m',
      'width_m',
      'area_m2',
      'substrate',
      'plant_cover',
      'depth_m',
      'clarity_m',
      'primary',
      'secondary',
      'clusters_primary',
      'clusters_secondary',
      'mussels_counted',
      'start_lat',
      'start_lon',
      'end_lat',
      'end_lon',
      'position_se_m',
    ],
    segments.map((s) => {
      const found = countsOf(s, detections);
      return [
        s.segment,
        s.transect,
        s.design,
        tidy(s.fromM),
        tidy(s.toM),
        tidy(s.horizontalM),
        tidy(s.widthM),
        tidy(s.areaM2),
        s.substrate.join('+'),
        s.plantCover,
        tidy(s.depthM),
        s.clarityM,
        s.primary,
        s.secondary,
        found.primary,
        found.secondary,
        found.mussels,
        degrees(s.startLngLat[1]),
        degrees(s.startLngLat[0]),
        degrees(s.endLngLat[1]),
        degrees(s.endLngLat[0]),
        tidy(s.positionSeM),
      ];
    }),
  );
}

/** What was found on a segment: clusters by pass, and mussels in all of them. */
export function countsOf(
  segment: Segment,
  detections: Detection[],
): { primary: number; secondary: number; mussels: number } {
  const counts = { primary: 0, secondary: 0, mussels: 0 };
  for (const index of segment.detections) {
    const detection = detections[index];
    counts[detection.role] += 1;
    counts.mussels += detection.count;
  }
  return counts;
}

/** The columns of estimate.json's strata, quantities flattened; the header alone when there is no lake. */
export function strataCsv(strata: Estimate['strata']): string {
  return toCsv(
    [
      'substrate',
      'depth_from_m',
      'depth_to_m',
      'area_m2',
      ...quantityColumns('mussels_per_m2'),
      ...quantityColumns('mussels'),
    ],
    (strata ?? []).map((s) => [
      s.substrate,
      s.depth_from_m,
      s.depth_to_m,
      s.area_m2,
      ...quantityCells(s.mussels_per_m2),
      ...quantityCells(s.mussels),
    ]),
  );
}

/** The models that were compared, as in estimate.json. */
export function modelsCsv(models: Estimate['models']): string {
  return toCsv(
    [
      'family',
      'transect_effect',
      'shape',
      'log_likelihood',
      'parameters',
      'aicc',
      'boundary',
      'depth',
      'depth_df',
      'weight',
      'in_choice',
      'shore_pairs',
    ],
    models.map((m) => [
      m.family,
      m.transect_effect,
      m.shape,
      m.log_likelihood,
      m.parameters,
      m.aicc,
      m.boundary,
      m.depth,
      m.depth_df,
      m.weight,
      m.in_choice,
      m.shore_pairs,
    ]),
  );
}

/** The notices, as in estimate.json. */
export function warningsCsv(warnings: Estimate['warnings']): string {
  return toCsv(
    ['code', 'table', 'row', 'message'],
    warnings.map((w) => [w.code, w.table, w.row, w.message]),
  );
}
