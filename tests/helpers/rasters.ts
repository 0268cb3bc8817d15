/** Bands of a GeoTIFF as float32, as our grids are written. */

import type { GeoTIFFImage } from 'geotiff';

/** Throws when a band is of another type. */
export async function floatBands(image: GeoTIFFImage): Promise<Float32Array[]> {
  return Array.from(await image.readRasters(), (band, i) => {
    if (!(band instanceof Float32Array))
      throw new Error(`band ${i + 1} is ${band.constructor.name}, expected Float32Array`);
    return band;
  });
}
