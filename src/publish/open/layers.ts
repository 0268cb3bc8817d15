/** The layers of survey.gpkg: what was searched and recorded, and what the estimate says of the bed, in WGS 84. */

import { labels, term, terms } from '../../../shared/glossary.ts';
import type { BedParts } from '../../../shared/open.ts';
import type { SurveyResult } from '../../../shared/result.ts';
import type { LngLatPolygon, Positions } from '../../../shared/survey.ts';
import { quantityCells } from '../csv.ts';
import { detectionFeatures, type Feature, segmentFeatures, transectFeatures } from '../geojson.ts';
import { degrees, tidy } from '../numbers.ts';
import type { Layer, LayerField } from './geopackage.ts';
import {
  DETECTION_FIELDS,
  field,
  plainFields,
  quantityFields,
  SEGMENT_FIELDS,
  TRANSECT_FIELDS,
} from './layer-fields.ts';
import {
  areaStyle,
  densityStyle,
  detectionStyle,
  lineStyle,
  substrateStyle,
} from './layer-styles.ts';

/** Those that the survey has something for, from the top of a map to its ground. */
export function layersOf(result: SurveyResult, parts: BedParts): Layer[] {
  const { survey, segments, placed, detections, checks } = result;
  return [
    pointLayer(detectionFeatures(detections, segments, survey)),
    lineLayer(
      'transects',
      labels('transect'),
      `One line a ${term('transect')}, from its start to its end as adjusted to all that was recorded of it`,
      TRANSECT_FIELDS,
      transectFeatures(placed, segments, survey, checks?.effects ?? null),
    ),
    lineLayer(
      'segments',
      labels('segment'),
      `One line a ${term('segment')}: a stretch of one ${term('substrate')}, ${term('plantCover')} and ${term('depth')}`,
      SEGMENT_FIELDS,
      segmentFeatures(segments, survey),
    ),
    ...areaLayer(result),
    ...strataLayer(result, parts),
    ...substrateLayer(result, parts),
  ];
}

function pointLayer(features: readonly Feature[]): Layer {
  const fields = withExtras(DETECTION_FIELDS, features);
  return {
    name: 'detections',
    title: labels('detection'),
    description: `One point a ${term('detectedCluster')}, as counted`,
    geometry: 'POINT',
    fields,
    rows: rowsOf(fields, features),
    styles: [detectionStyle('detections')],
  };
}

function lineLayer(
  name: string,
  title: string,
  description: string,
  own: readonly LayerField[],
  features: readonly Feature[],
): Layer {
  const fields = withExtras(own, features);
  return {
    name,
    title,
    description,
    geometry: 'LINESTRING',
    fields,
    rows: rowsOf(fields, features),
    styles: [lineStyle(name)],
  };
}

/** Columns of the sheets that we do not know come last; names that differ in case only are one to a database. */
function withExtras(own: readonly LayerField[], features: readonly Feature[]): LayerField[] {
  const taken = new Set(own.map(({ name }) => name.toLowerCase()));
  const extras: LayerField[] = [];
  for (const { properties } of features)
    for (const name of Object.keys(properties)) {
      if (!name.startsWith('sheet:') || taken.has(name.toLowerCase())) continue;
      taken.add(name.toLowerCase());
      extras.push(field(name, 'TEXT', 'as in the survey’s sheet'));
    }
  return [...own, ...extras];
}

function rowsOf(fields: readonly LayerField[], features: readonly Feature[]): Layer['rows'] {
  return features.map(({ geometry, properties }) => ({
    geometry,
    values: fields.map(({ name }) => {
      const value = properties[name] ?? null;
      return typeof value === 'object' && value !== null ? JSON.stringify(value) : value;
    }),
  }));
}

/** Candidate treatment areas; none where the survey has none. */
function areaLayer({ lake, estimate }: SurveyResult): Layer[] {
  if (lake.treatments.length === 0) return [];
  const rows = lake.treatments.map(({ name, polygons }, i) => {
    const numbers = estimate.treatments?.[i] ?? null;
    return {
      geometry: { type: 'MultiPolygon' as const, coordinates: wound(polygons) },
      values: [
        name,
        numbers?.area_m2 ?? null,
        numbers?.outside_area_m2 ?? null,
        ...quantityCells(numbers?.clusters ?? null),
        ...quantityCells(numbers?.mussels ?? null),
      ],
    };
  });
  return [
    {
      name: 'areas',
      title: labels('treatmentArea'),
      description: `${labels('treatmentArea')} that were thought of. A planning aid, not a prescription.`,
      geometry: 'MULTIPOLYGON',
      fields: [
        field('name', 'TEXT', `name of the ${term('treatmentArea')}`),
        field('area_m2', 'REAL', `${term('surveyedHabitat')} in it, m²`),
        field('outside_area_m2', 'REAL', `bed in it ${term('outsideHabitat')}, m²`),
        ...quantityFields('clusters', `${terms('cluster')} in it`),
        ...quantityFields('mussels', `${terms('mussel')} in it`),
      ],
      rows,
      styles: [areaStyle('areas')],
    },
  ];
}

/** A stratum that has most of no cell is in the layer's table, and not on the map. */
function strataLayer({ estimate }: SurveyResult, { strata }: BedParts): Layer[] {
  if (strata === null || estimate.strata === null) return [];
  const fields = [
    ...plainFields('strata'),
    ...quantityFields('mussels_per_m2', `${terms('mussel')} per m²`),
    ...quantityFields('mussels', terms('mussel')),
  ];
  const rows = estimate.strata.map((s) => {
    const shape = strata.find(
      ({ substrate, depthFromM }) => substrate === s.substrate && depthFromM === s.depth_from_m,
    );
    return {
      geometry:
        shape === undefined
          ? null
          : { type: 'MultiPolygon' as const, coordinates: wound(shape.polygons) },
      values: [
        s.substrate,
        s.depth_from_m,
        s.depth_to_m,
        s.area_m2,
        ...quantityCells(s.mussels_per_m2),
        ...quantityCells(s.mussels),
      ],
    };
  });
  return [
    {
      name: 'strata',
      title: labels('stratum'),
      description: `Where each ${term('stratum')} of the ${term('surveyedHabitat')} lies, by cells of the grid, and what the estimate says of it; one that has most of no cell is in the table alone`,
      geometry: 'MULTIPOLYGON',
      fields,
      rows,
      styles: [densityStyle('strata', 'mussels_per_m2_estimate')],
    },
  ];
}

function substrateLayer({ lake, analysis }: SurveyResult, { patches }: BedParts): Layer[] {
  if (lake.substrate === null || lake.substrate.length === 0) return [];
  const rows = lake.substrate.map(({ substrate, plantCover, polygons }, i) => {
    const numbers = patches?.[i] ?? null;
    return {
      geometry: {
        type: 'MultiPolygon' as const,
        coordinates: wound(polygons.map((rings) => rings.map(pairs))),
      },
      values: [
        substrate.join('+'),
        plantCover,
        numbers === null ? null : tidy(numbers.surveyedM2),
        ...quantityCells(numbers?.musselsPerM2 ?? null),
        ...quantityCells(numbers?.mussels ?? null),
      ],
    };
  });
  const met = [...new Set(lake.substrate.map(({ substrate }) => substrate.join('+')))];
  return [
    {
      name: 'substrate',
      title: labels('substrate'),
      description: `The map of ${terms('substrate')} that was given, with the mean ${term('density')} of the ${term('surveyedHabitat')} in each polygon`,
      geometry: 'MULTIPOLYGON',
      fields: [
        ...plainFields('substrate'),
        ...quantityFields(
          'mussels_per_m2',
          `${terms('mussel')} per m² of ${term('surveyedHabitat')} in it`,
        ),
        ...quantityFields('mussels', `${terms('mussel')} in it`),
      ],
      rows,
      styles: [
        densityStyle('substrate', 'mussels_per_m2_estimate'),
        substrateStyle('substrate', met, analysis.substrates),
      ],
    },
  ];
}

function pairs(ring: Positions): LngLatPolygon[number] {
  return Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i], ring[2 * i + 1]]);
}

/** Outer rings counter-clockwise, holes clockwise, positions to 7 decimals; rings that vanish in that are left out. */
function wound(polygons: readonly LngLatPolygon[]): LngLatPolygon[] {
  return polygons.map((rings) =>
    rings.map((ring, k) => {
      const rounded = ring.map(([lon, lat]): [number, number] => [degrees(lon), degrees(lat)]);
      let twice = 0;
      for (let i = 0; i + 1 < rounded.length; i++)
        twice +=
          (rounded[i][0] - rounded[0][0]) * (rounded[i + 1][1] - rounded[0][1]) -
          (rounded[i + 1][0] - rounded[0][0]) * (rounded[i][1] - rounded[0][1]);
      return twice > 0 === (k === 0) ? rounded : rounded.reverse();
    }),
  );
}
