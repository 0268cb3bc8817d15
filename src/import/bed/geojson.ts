/** Features of the files that import writes. */

import type { RawGeometry } from '../../../shared/importing.ts';

/** A tenth of a millimetre: nothing is lost, and the dust of conversions goes. */
const DECIMALS = 9;

/** One feature on a line; positions are longitude and latitude alone. */
export function featureText(
  geometry: RawGeometry,
  properties: Record<string, string | number>,
): string {
  const coordinates = positionsOf(geometry.coordinates);
  return JSON.stringify({
    type: 'Feature',
    properties,
    geometry: { type: geometry.type, coordinates },
  });
}

/** The file of such features; `members` are foreign members of the collection. */
export function collectionText(
  features: readonly string[],
  members: Record<string, unknown> = {},
): Uint8Array {
  const more = Object.entries(members).map(
    ([name, value]) => `${JSON.stringify(name)}:${JSON.stringify(value)},`,
  );
  return new TextEncoder().encode(
    `{"type":"FeatureCollection",${more.join('')}"features":[\n${features.join(',\n')}\n]}\n`,
  );
}

type Nested = number[] | Nested[];

function positionsOf(coordinates: Nested): Nested {
  if (typeof coordinates[0] === 'number')
    return (coordinates as number[]).slice(0, 2).map((v) => Number(v.toFixed(DECIMALS)));
  return (coordinates as Nested[]).map(positionsOf);
}
