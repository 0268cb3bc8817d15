/** The files of a survey; any other file in a folder is left alone. */
export const SURVEY_FILES = [
  'transects.csv',
  'habitat.csv',
  'detections.csv',
  'outline.geojson',
  'substrate.geojson',
  'depth.geojson',
  'depth.tif',
  'treatments.geojson',
  'analysis.json',
] as const;
