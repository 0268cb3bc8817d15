/** How files and layers are called in sentences. */

import type { RawLayer } from '../../../shared/importing.ts';

/** `lake.gpkg`, or `lake.gpkg, contours` for one of its layers. */
export function layerName({ file, layer }: Pick<RawLayer, 'file' | 'layer'>): string {
  return layer === null ? file : `${file}, ${layer}`;
}
