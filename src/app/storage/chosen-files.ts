/** Whether chosen or dropped files are a survey in our format, which is opened, or files of others, which are brought in. */

import { SURVEY_FILES } from '../../../shared/survey-files.ts';
import { TRANSECTS } from '../../../shared/tables.ts';

/** Sheets, maps, and what belongs to them; .json only where no survey lies beside it. */
const BROUGHT_IN =
  /\.(csv|tsv|txt|xlsx|xlsm|xls|ods|shp|dbf|shx|prj|cpg|gpkg|geojson|kml|kmz|gpx|tiff?|zip)$/i;
const MAYBE_MAP = /\.json$/i;
/** Lies beside a survey of ours. */
const COMPANIONS = new Set([
  ...SURVEY_FILES,
  'datapackage.json',
  'changes.csv',
  'history.csv',
  'truth.json',
  'readme.txt',
]);
/** Enough of a file to see its header. */
const HEADER_BYTES = 2_000;

/** A single zip is for its content to decide. */
export async function areForImport(files: readonly File[]): Promise<boolean> {
  const names = files.map(({ name }) => name.toLowerCase());
  const hasSurvey = names.includes(TRANSECTS.file);
  const others = names.filter(
    (name) =>
      !COMPANIONS.has(name) && (BROUGHT_IN.test(name) || (!hasSurvey && MAYBE_MAP.test(name))),
  );
  if (others.length > 0) return true;
  if (!names.some((name) => (SURVEY_FILES as readonly string[]).includes(name))) return true;
  const sheet = files.find(({ name }) => name.toLowerCase() === TRANSECTS.file);
  return sheet !== undefined && !(await hasOurHeader(sheet));
}

export function isOneZip(files: readonly File[]): boolean {
  return files.length === 1 && /\.zip$/i.test(files[0].name);
}

async function hasOurHeader(sheet: File): Promise<boolean> {
  const bytes = await sheet.slice(0, HEADER_BYTES).arrayBuffer();
  const [line = ''] = new TextDecoder().decode(bytes).split(/\r?\n/, 1);
  const names = line.split(',').map((cell) => cell.trim().toLowerCase().replaceAll('"', ''));
  return names.includes('transect') && names.includes('start_lat');
}
