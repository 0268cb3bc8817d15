/** Contours of 0 m among layers of depths: a shoreline, where the map names its depths. */

import type { RawLayer } from '../../../shared/importing.ts';
import { kindOf } from './shapes.ts';

/** Elevations are no depths: their 0 is the sea. */
const DEPTH = /^(depth|dep|tief|profond|prof|contour|isobath)/i;

/** Layers of lines with what is 0 in a column of depths; none where there is no such line. */
export function zeroContours(layers: readonly RawLayer[]): RawLayer[] {
  return layers.flatMap((layer) => {
    const features = layer.features.filter(
      ({ geometry, properties }) =>
        kindOf(geometry) === 'lines' &&
        Object.entries(properties).some(
          ([key, value]) =>
            DEPTH.test(key) && value !== null && value !== '' && Number(value) === 0,
        ),
    );
    return features.length === 0 ? [] : [{ ...layer, features }];
  });
}
