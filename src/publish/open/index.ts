/** The open files of a survey: the survey itself, and what was found, in formats that other programs read. */

import type { SqlJsStatic } from 'sql.js';
import type { BedParts, Credits } from '../../../shared/open.ts';
import type { SurveyResult } from '../../../shared/result.ts';
import { SURVEY_FILES } from '../../../shared/survey-files.ts';
import { gridBands } from '../raster/bands.ts';
import { type Deflate, writeCog } from '../raster/cog.ts';
import { aboutSurvey } from './about.ts';
import { citationCff } from './citation.ts';
import { darwinCoreFiles } from './darwin-core.ts';
import { dataPackageJson } from './data-package.ts';
import { writeGeoPackage } from './geopackage.ts';
import { layersOf } from './layers.ts';

/** Every name that `openFiles` may give a file. */
export const OPEN_FILES: readonly string[] = [
  'datapackage.json',
  ...SURVEY_FILES,
  'survey.gpkg',
  'grid.tif',
  'darwin-core.zip',
  'citation.cff',
];

export interface OpenInput {
  result: SurveyResult;
  parts: BedParts;
  /** the survey's own files, by name */
  files: ReadonlyMap<string, Uint8Array>;
  credits: Credits;
}

/** What command line and page do each in their own way. */
export interface OpenTools {
  /** loads the database library */
  sql(): Promise<SqlJsStatic>;
  deflate: Deflate;
  /** hexadecimal */
  sha256(bytes: Uint8Array): Promise<string>;
  zip(files: ReadonlyMap<string, Uint8Array | string>, at: string): Promise<Uint8Array>;
  /** now, ISO 8601 in UTC with milliseconds */
  at: string;
}

/** File name → bytes; grid.tif only where there is a lake. Throws on a figure that is not finite. */
export async function openFiles(
  { result, parts, files, credits }: OpenInput,
  tools: OpenTools,
): Promise<Map<string, Uint8Array>> {
  const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
  const { at } = tools;
  const about = aboutSurvey(result, credits, at);
  const out = new Map<string, Uint8Array>();
  for (const name of SURVEY_FILES) {
    const own = files.get(name);
    if (own !== undefined) out.set(name, own);
  }
  const layers = layersOf(result, parts);
  const metadata = { standard: about.emlStandard, xml: about.eml };
  out.set('survey.gpkg', writeGeoPackage(await tools.sql(), { layers, metadata, at }));
  const grid = gridBands(result);
  if (grid !== null)
    out.set('grid.tif', await writeCog(grid.frame, result.plane, grid.bands, tools.deflate));
  out.set('darwin-core.zip', await tools.zip(darwinCoreFiles(result, credits, about.eml), at));
  out.set('citation.cff', encode(citationCff(about, credits)));
  const packed = await Promise.all(
    [...out].map(async ([name, bytes]) => ({
      name,
      bytes: bytes.length,
      sha256: await tools.sha256(bytes),
    })),
  );
  return new Map([
    ['datapackage.json', encode(dataPackageJson(result.estimate.lake, packed, credits, at))],
    ...out,
  ]);
}
