/** The fields of the layers, each with what it says and its unit. */

import { gloss, term, terms } from '../../../shared/glossary.ts';
import { DETECTIONS, type Table, TRANSECTS } from '../../../shared/tables.ts';
import { quantityColumns } from '../csv.ts';
import type { FieldType, LayerField } from './geopackage.ts';

export const field = (name: string, type: FieldType, meaning: string): LayerField => ({
  name,
  type,
  meaning,
});

/** As the survey's tables have it, with the unit. */
function sheetField(table: Table, name: string, type: FieldType): LayerField {
  const column = table.columns.find((c) => c.name === name);
  if (column === undefined) throw new Error(`got "${name}", expected a column of ${table.file}`);
  return field(
    name,
    type,
    column.unit === null ? column.meaning : `${column.meaning} Unit: ${column.unit}.`,
  );
}

const counts = [
  field('clusters', 'INTEGER', `${terms('detectedCluster')} on it, as counted`),
  field('mussels_counted', 'INTEGER', `${terms('mussel')} in them, as counted`),
];

export const TRANSECT_FIELDS: readonly LayerField[] = [
  sheetField(TRANSECTS, 'transect', 'TEXT'),
  sheetField(TRANSECTS, 'date', 'DATE'),
  sheetField(TRANSECTS, 'design', 'TEXT'),
  sheetField(TRANSECTS, 'primary', 'TEXT'),
  sheetField(TRANSECTS, 'secondary', 'TEXT'),
  sheetField(TRANSECTS, 'length_m', 'REAL'),
  field('horizontal_length_m', 'REAL', 'length on the map, m'),
  sheetField(TRANSECTS, 'width_m', 'REAL'),
  ...counts,
  field(
    'grid_bearing_deg',
    'REAL',
    'direction from start to end in the plane of grid.tif, degrees',
  ),
  field('declination_deg', 'REAL', 'magnetic declination used, degrees east'),
  field('end_inferred', 'BOOLEAN', 'whether the end follows from the bearing alone'),
  field('start_se_m', 'REAL', `${term('standardError')} of the start, m`),
  field('end_se_m', 'REAL', `${term('standardError')} of the end, m`),
  field('effect', 'REAL', `${term('transectEffect')} on the log ${term('density')}`),
  field('effect_se', 'REAL', `its ${term('standardError')}`),
];

export const SEGMENT_FIELDS: readonly LayerField[] = [
  field('segment', 'INTEGER', `number of the ${term('segment')}`),
  sheetField(TRANSECTS, 'transect', 'TEXT'),
  sheetField(TRANSECTS, 'design', 'TEXT'),
  field('from_m', 'REAL', `where it begins along the ${term('rope')}, m`),
  field('to_m', 'REAL', `where it ends along the ${term('rope')}, m`),
  field('area_m2', 'REAL', `${term('searchedArea')}, m²`),
  field('substrate', 'TEXT', 'classes of the bed, the dominant one first'),
  field('plant_cover', 'INTEGER', `${term('plantCover')}: ${gloss('plantCover')}`),
  field('depth_m', 'REAL', `${term('depth')} at its middle, m`),
  ...counts,
  field('position_se_m', 'REAL', `${term('standardError')} of its place, m`),
];

export const DETECTION_FIELDS: readonly LayerField[] = [
  sheetField(DETECTIONS, 'transect', 'TEXT'),
  field('segment', 'INTEGER', `number of the ${term('segment')}`),
  sheetField(DETECTIONS, 'role', 'TEXT'),
  field('diver', 'TEXT', `the ${term('observer')}`),
  sheetField(DETECTIONS, 'distance_m', 'REAL'),
  sheetField(DETECTIONS, 'offset_m', 'REAL'),
  sheetField(DETECTIONS, 'count', 'INTEGER'),
  sheetField(DETECTIONS, 'cluster_length_cm', 'REAL'),
  sheetField(DETECTIONS, 'cluster_width_cm', 'REAL'),
  field('substrate', 'TEXT', 'classes of the bed there, the dominant one first'),
  field('depth_m', 'REAL', `${term('depth')} of its ${term('segment')}, m`),
  field('position_se_m', 'REAL', `${term('standardError')} of its place, m`),
];

/** Of the layers of the bed, what is not an estimate. */
export function plainFields(layer: 'strata' | 'substrate'): LayerField[] {
  if (layer === 'strata')
    return [
      field('substrate', 'TEXT', 'class of the bed, or classes joined by +'),
      field('depth_from_m', 'REAL', `upper edge of the ${term('depthBand')}, m`),
      field('depth_to_m', 'REAL', `lower edge of the ${term('depthBand')}, m`),
      field('area_m2', 'REAL', `${term('surveyedHabitat')} of this ${term('stratum')}, m²`),
    ];
  return [
    field('substrate', 'TEXT', 'classes of the bed, the dominant one first'),
    field('plant_cover', 'INTEGER', `${term('plantCover')} as mapped: ${gloss('plantCover')}`),
    field('surveyed_m2', 'REAL', `${term('surveyedHabitat')} in it, m²`),
  ];
}

/** An estimate, its standard error, coefficient of variation and limits. */
export function quantityFields(name: string, what: string): LayerField[] {
  const meanings = [
    what,
    `${term('standardError')} of it`,
    `${gloss('cv')}`,
    `lower limit of its ${term('confidenceInterval')}`,
    `${term('upperLimit')} of its ${term('confidenceInterval')}`,
  ];
  return quantityColumns(name).map((column, i) => field(column, 'REAL', meanings[i]));
}
