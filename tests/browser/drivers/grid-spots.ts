/** Spots of a density raster, read by a library that is not ours, to be pointed at on the map. */

import { readFileSync } from 'node:fs';
import { fromArrayBuffer } from 'geotiff';
import proj4 from 'proj4';
import type { LngLat } from '../../../shared/survey.ts';
import { densityClass } from '../../../src/present/ramp.ts';
import { floatBands } from '../../helpers/rasters.ts';

/** grid.tif read by the geotiff library, and spots whose surroundings are of one colour. */
export async function openGrid(path: string) {
  const file = readFileSync(path);
  const tiff = await fromArrayBuffer(
    file.buffer.slice(file.byteOffset, file.byteOffset + file.length),
  );
  const image = await tiff.getImage();
  const keys = image.getGeoKeys()!;
  const width = image.getWidth();
  const [density, cv] = await floatBands(image);
  const [x0, y0] = image.getOrigin();
  const [dx, dy] = image.getResolution();
  const plane = proj4(
    `+proj=laea +lat_0=${keys.ProjCenterLatGeoKey} +lon_0=${keys.ProjCenterLongGeoKey} +x_0=0 +y_0=0 +datum=WGS84`,
    'EPSG:4326',
  );
  const classAt = (cell: number) => (density![cell] >= 0 ? densityClass(density![cell]) : -1);
  return {
    /** Spread over the lake, each with its neighbours of the same class. */
    plainSpots(count: number) {
      const cells = [...density!.keys()].filter((cell) => {
        const own = classAt(cell);
        if (own < 0) return false;
        for (let r = -3; r <= 3; r++)
          for (let c = -3; c <= 3; c++) if (classAt(cell + r * width + c) !== own) return false;
        return true;
      });
      return Array.from({ length: count }, (_, k) => {
        const cell = cells[Math.floor(((k + 0.5) * cells.length) / count)];
        const x = x0! + ((cell % width) + 0.5) * dx!;
        const y = y0! + (Math.floor(cell / width) + 0.5) * dy!;
        const at = plane.forward([x, y]) as LngLat;
        const spread = Math.exp(2 * 1.96 * Math.sqrt(Math.log1p(cv![cell] ** 2)));
        return { at, density: density![cell], cv: cv![cell], unsure: spread > 4.5 };
      });
    },
  };
}
