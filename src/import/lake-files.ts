/** Maps of the lake as files of the survey: outline, treatment areas, places to keep out of. */

import type { GivenFile, RawFeature, RawGeometry, RawLayer } from '../../shared/importing.ts';
import { collectionText, featureText } from './bed/geojson.ts';

const NAME = /^name$|name|label|title|^id$/i;

export function outlineFile(outline: RawGeometry): GivenFile {
  return { name: 'outline.geojson', bytes: collectionText([featureText(outline, {})]) };
}

/** The areas of all layers, each with a name; null where there is none. */
export function areasFile(name: string, layers: readonly RawLayer[]): GivenFile | null {
  const areas = layers.flatMap(({ features }) =>
    features.filter(({ geometry }) => /Polygon$/.test(geometry.type)),
  );
  if (areas.length === 0) return null;
  const lines = areas.map((area, i) => featureText(area.geometry, { name: nameOf(area, i) }));
  return { name, bytes: collectionText(lines) };
}

/** All areas of a layer as one. Throws when it has none. */
export function mergedAreas({ file, features }: RawLayer): RawGeometry {
  const areas = features.flatMap(({ geometry }) => {
    if (geometry.type === 'Polygon') return [geometry.coordinates];
    return geometry.type === 'MultiPolygon' ? geometry.coordinates : [];
  });
  if (areas.length === 0) throw new Error(`got ${file} without an area, expected one at least`);
  return areas.length === 1
    ? { type: 'Polygon', coordinates: areas[0] }
    : { type: 'MultiPolygon', coordinates: areas };
}

function nameOf({ properties }: RawFeature, i: number): string {
  const key = Object.keys(properties).find((name) => NAME.test(name));
  const value = key === undefined ? null : properties[key];
  const text = value === null ? '' : String(value).trim();
  return text === '' ? `Area ${i + 1}` : text;
}
