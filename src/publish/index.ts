/** The files that a finished survey leaves behind: file name → bytes or text. */

import type { AreasHeld } from '../../shared/areas.ts';
import type { PrecisionAhead } from '../../shared/planning.ts';
import type { EstimateFile, SurveyResult } from '../../shared/result.ts';
import type { Language } from '../../shared/strings/languages.ts';
import { finiteJson } from './finite-json.ts';
import { detectionFeatures, geoJson, segmentFeatures, transectFeatures } from './geojson.ts';
import { gridBands } from './raster/bands.ts';
import { writeGeoTiff } from './raster/geotiff.ts';
import { reportHtml } from './report.ts';
import { shortReportHtml } from './report-short.ts';
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
  'report-short.html',
] as const;

/** What a result is written with. */
export interface PublishOptions {
  /** of the report's first page and of its short version; English if left out */
  language?: Language;
  /** what the treatment areas hold together; left out or null where that is not known */
  held?: AreasHeld | null;
  /** what more dives would bring; left out or null where that is not known */
  ahead?: PrecisionAhead | null;
}

/** All files of one result; grid.tif only where there is a lake. Throws on a figure that is not finite. */
export function publish(
  result: SurveyResult,
  options: PublishOptions = {},
): Map<string, Uint8Array | string> {
  const { estimate, survey, segments, placed, detections } = result;
  const files = new Map<string, Uint8Array | string>([
    ['estimate.json', estimateJson(result)],
    ['segments.csv', segmentsCsv(segments, survey.detections)],
    [
      'transects.geojson',
      geoJson(transectFeatures(placed, segments, survey, result.checks?.effects ?? null)),
    ],
    ['segments.geojson', geoJson(segmentFeatures(segments, survey))],
    ['detections.geojson', geoJson(detectionFeatures(detections, segments, survey))],
    ['strata.csv', strataCsv(estimate.strata)],
    ['models.csv', modelsCsv(estimate.models)],
    ['warnings.csv', warningsCsv(estimate.warnings)],
    ['report.html', reportHtml(result, options)],
    ['report-short.html', shortReportHtml(result, options)],
  ]);
  const grid = gridTiff(result);
  if (grid !== null) files.set('grid.tif', grid);
  return files;
}

/** estimate.json as text: the estimate, and the files it was made from. Throws on a figure that is not finite. */
export function estimateJson(result: Pick<SurveyResult, 'estimate' | 'inputs'>): string {
  return finiteJson(estimateFile(result));
}

export function estimateFile({
  estimate,
  inputs,
}: Pick<SurveyResult, 'estimate' | 'inputs'>): EstimateFile {
  return { ...estimate, inputs };
}

function gridTiff(result: SurveyResult): Uint8Array | null {
  const grid = gridBands(result);
  return grid && writeGeoTiff(grid.frame, result.plane, grid.bands);
}
