/** The files that a finished survey leaves behind: file name → bytes or text. */

import type { SurveyResult } from '../../shared/result.ts';
import { finiteJson } from './finite-json.ts';
import { detectionsGeoJson, segmentsGeoJson, transectsGeoJson } from './geojson.ts';
import { type Band, writeGeoTiff } from './geotiff.ts';
import { reportHtml } from './report.ts';
import { modelsCsv, segmentsCsv, strataCsv, warningsCsv } from './tables.ts';

/** Every name that `publish` may give a file, so that an earlier result can be told from anything else. */
export const RESULT_FILES = [
  'estimate.json',
  'segments.csv',
  'transects.geojson',
  'segments.geojson',
  'detections.geojson',
  'grid.tif',
  'strata.csv',
  'models.csv',
  'warnings.csv',
  'report.html',
] as const;

/** All files of one result; grid.tif only where there is a lake. Throws on a figure that is not finite. */
export function publish(result: SurveyResult): Map<string, Uint8Array | string> {
  const { estimate, survey, segments, placed, detections } = result;
  const files = new Map<string, Uint8Array | string>([
    ['estimate.json', estimateJson(result)],
    ['segments.csv', segmentsCsv(segments, survey.detections)],
    [
      'transects.geojson',
      transectsGeoJson(placed, segments, survey, result.checks?.effects ?? null),
    ],
    ['segments.geojson', segmentsGeoJson(segments, survey)],
    ['detections.geojson', detectionsGeoJson(detections, segments, survey)],
    ['strata.csv', strataCsv(estimate.strata)],
    ['models.csv', modelsCsv(estimate.models)],
    ['warnings.csv', warningsCsv(estimate.warnings)],
    ['report.html', reportHtml(result)],
  ]);
  const grid = gridTiff(result);
  if (grid !== null) files.set('grid.tif', grid);
  return files;
}

/** estimate.json as text. Throws on a figure that is not finite. */
export function estimateJson({ estimate }: Pick<SurveyResult, 'estimate'>): string {
  return finiteJson(estimate);
}

function gridTiff({ bed, surface, plane, analysis }: SurveyResult): Uint8Array | null {
  if (bed === null || surface === null) return null;
  const bands: Band[] = [
    { name: 'mussels per m2', values: surface.densityPerM2 },
    { name: 'coefficient of variation', values: surface.cv },
    { name: 'depth in m', values: bed.cellDepthM },
    { name: '1 where inside the surveyed domain', values: surface.inside },
  ];
  if (surface.aboveThreshold !== null)
    bands.push({
      name: `probability of more than ${analysis.map.threshold_per_m2} mussels per m2`,
      values: surface.aboveThreshold,
    });
  return writeGeoTiff(bed.frame, plane, bands);
}
