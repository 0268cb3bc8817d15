import { HISTORY_FILE } from './history.ts';

/** Candidate treatment areas. */
export const TREATMENTS_FILE = 'treatments.geojson';
/** Places where no treatment area may be proposed. */
export const KEEP_OUT_FILE = 'keep-out.geojson';
/** How files of others became this survey: what was asked, on what evidence, and what was answered. */
export const IMPORT_FILE = 'import.json';

/** Places where nobody may dive: outside of the surveyed habitat, and no transect is planned there. */
export const NO_DIVE_FILE = 'no-dive.geojson';

/** The files of a survey; any other file in a folder is left alone. */
export const SURVEY_FILES = [
  'transects.csv',
  'habitat.csv',
  'detections.csv',
  'planted_shells.csv',
  'outline.geojson',
  'substrate.geojson',
  'depth.geojson',
  'depth.tif',
  TREATMENTS_FILE,
  KEEP_OUT_FILE,
  NO_DIVE_FILE,
  'analysis.json',
  'variants.json',
  IMPORT_FILE,
  HISTORY_FILE,
] as const;

/** All files of a survey together, unpacked; more is not read into the page. Larger than any: contour maps have some 20 MB, a raster of a large lake 100 MB. */
export const MOST_SURVEY_BYTES = 400_000_000;
