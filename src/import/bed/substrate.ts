/** A map of substrates, from areas with codes or from points → substrate.geojson. */

import { term } from '../../../shared/glossary.ts';
import type { Ask, ImportedTables, RawGeometry, RawLayer } from '../../../shared/importing.ts';
import type { MadeMap } from './depth-final.ts';
import { layerName } from './names.ts';
import { substrateOfAreas } from './substrate-areas.ts';
import { substrateOfPoints } from './substrate-points.ts';

/** Null where nothing was given and no map is asked for. Points are used where there are no areas. */
export function substrateMap(
  layers: readonly RawLayer[],
  tables: ImportedTables,
  outline: RawGeometry | null,
  ask: Ask,
): MadeMap {
  const has = (layer: RawLayer, pattern: RegExp): boolean =>
    layer.features.some((f) => pattern.test(f.geometry.type));
  const areas = layers.filter((layer) => has(layer, /Polygon$/));
  const points = layers.filter((layer) => !areas.includes(layer) && has(layer, /Point$/));
  if (areas.length === 0) return substrateOfPoints(points, tables, outline, ask);
  const made = substrateOfAreas(areas, tables, ask);
  if (points.length > 0)
    made.remarks.push(
      `${points.map(layerName).join(', ')}: points are left out where there are areas of the ${term('substrate')}.`,
    );
  return made;
}
