/** Where shapes would lie, by the systems that fit best: drawn beside the question. */

import type { ImportPicture, PictureShape, RawGeometry } from '../../../shared/importing.ts';
import type { LngLat } from '../../../shared/survey.ts';
import { converterOf } from './crs.ts';
import type { Numbers } from './numbers.ts';
import { type Candidate, readingOf, thinned } from './rank.ts';
import { kindOf } from './shapes.ts';

const MOST_VERTICES = 300;

export function pictureOf(
  group: readonly Numbers[],
  drawn: readonly Candidate[],
  near: readonly LngLat[],
): ImportPicture[] {
  if (drawn.length === 0) return [];
  const shapes: PictureShape[] = drawn.flatMap((candidate) =>
    group.flatMap(({ item, about, positions }) => {
      const convert = readingOf(converterOf(candidate.system), candidate.reading);
      const isArea = !('features' in item) || kindOf(item.features[0].geometry) === 'areas';
      const parts =
        'features' in item
          ? largestParts(item.features.map((f) => f.geometry))
          : [positions.slice(0, 4)];
      return parts.flatMap((part): PictureShape[] => {
        const line = thinned(part, MOST_VERTICES).flatMap(([x, y]) => placeOrNone(convert, x, y));
        if (line.length < 2) return [];
        const geometry: RawGeometry = isArea
          ? { type: 'Polygon', coordinates: [[...line, line[0]]] }
          : kindOfItem(item) === 'points'
            ? { type: 'MultiPoint', coordinates: line }
            : { type: 'LineString', coordinates: line };
        return [
          {
            look: isArea ? 'area' : geometry.type === 'MultiPoint' ? 'point' : 'line',
            label: about,
            option: candidate.value,
            geometry,
          },
        ];
      });
    }),
  );
  if (near.length > 0)
    shapes.push({
      look: 'point',
      label: 'known places',
      option: null,
      geometry: { type: 'MultiPoint', coordinates: thinned(near, MOST_VERTICES) },
    });
  return [
    { kind: 'map', caption: 'Where the shapes would lie, by the systems that fit best', shapes },
  ];
}

function kindOfItem(item: Numbers['item']) {
  return 'features' in item ? kindOf(item.features[0].geometry) : 'areas';
}

/** The few longest parts of a layer; of points all together. */
function largestParts(geometries: readonly RawGeometry[]): number[][][] {
  const parts = geometries.flatMap((geometry): number[][][] => {
    switch (geometry.type) {
      case 'Point':
        return [];
      case 'MultiPoint':
      case 'LineString':
        return [geometry.coordinates];
      case 'MultiLineString':
        return geometry.coordinates;
      default:
        return outerRings(geometry);
    }
  });
  const points = geometries.flatMap((geometry) =>
    geometry.type === 'Point' ? [geometry.coordinates] : [],
  );
  if (points.length > 0) parts.push(points);
  return parts.sort((a, b) => b.length - a.length).slice(0, 12);
}

export function placeOrNone(
  convert: { toLngLat(x: number, y: number): LngLat },
  x: number,
  y: number,
): LngLat[] {
  try {
    return [convert.toLngLat(x, y)];
  } catch {
    return [];
  }
}

export function outerRings(geometry: RawGeometry): number[][][] {
  if (geometry.type === 'Polygon') return geometry.coordinates.slice(0, 1);
  return geometry.type === 'MultiPolygon'
    ? geometry.coordinates.flatMap((rings) => rings.slice(0, 1))
    : [];
}
