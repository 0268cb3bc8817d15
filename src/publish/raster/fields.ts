/** What a raster says of its bands and of its place. (OGC 19-008r4 GeoTIFF 1.1; GDAL_METADATA and GDAL_NODATA after GDAL's GTiff driver.) */

import type { GridFrame } from '../../../shared/survey.ts';
import { ascii, double, type Field, long, short } from '../../../shared/tiff-tags.ts';

export interface Band {
  name: string;
  /** row by row from the top, nx·ny cells, NaN = no data */
  values: Float32Array;
}

/** Centre of a Lambert azimuthal equal-area projection on WGS 84, degrees; false easting and northing are 0. */
export interface Centre {
  lon0: number;
  lat0: number;
}

/** Offsets in a classic TIFF are 32 bits wide. */
const MAX_BYTES = 2 ** 32 - 1;

/** Throws when there is no cell or no band, or a band's length is not that of the frame. */
export function requireBands({ nx, ny }: GridFrame, bands: readonly Band[]): void {
  const cells = nx * ny;
  if (cells === 0 || bands.length === 0)
    throw new Error(
      `got a raster of ${nx} × ${ny} cells and ${bands.length} bands, expected at least one`,
    );
  for (const band of bands)
    if (band.values.length !== cells)
      throw new Error(`band "${band.name}" has ${band.values.length} cells, expected ${cells}`);
}

/** Throws when a file would pass 4 GB. */
export function requireRoom(bytes: number): void {
  if (bytes > MAX_BYTES)
    throw new Error(
      `a raster of ${bytes} bytes, at most ${MAX_BYTES} can be written; use larger cells`,
    );
}

/** Of one scale of a raster: its size, and cells as 32-bit floats, band after band, no-data NaN. */
export function cellFields(nx: number, ny: number, bands: number): Field[] {
  const same = (value: number) => new Array<number>(bands).fill(value);
  return [
    long(256, [nx]), // ImageWidth
    long(257, [ny]), // ImageLength
    short(258, same(32)), // BitsPerSample
    short(262, [1]), // PhotometricInterpretation: black is zero
    short(277, [bands]), // SamplesPerPixel
    short(284, [2]), // PlanarConfiguration: band after band
    ...(bands > 1 ? [short(338, same(0).slice(1))] : []), // ExtraSamples: of no colour
    short(339, same(3)), // SampleFormat: IEEE float
    ascii(42113, 'nan'), // GDAL_NODATA
  ];
}

/** Names of the bands. */
export function nameFields(bands: readonly Band[]): Field[] {
  const names = bands
    .map(
      (b, i) => `<Item name="DESCRIPTION" sample="${i}" role="description">${xml(b.name)}</Item>`,
    )
    .join('');
  return [ascii(42112, `<GDALMetadata>${names}</GDALMetadata>`)];
}

/** Place, cell size and projection. OGC 19-008r4, 7.1–7.5. */
export function geoFields(frame: GridFrame, centre: Centre): Field[] {
  const citation = 'Lambert azimuthal equal-area on WGS 84|';
  const keys: [key: number, location: number, count: number, value: number][] = [
    [1024, 0, 1, 1], // GTModelType: projected
    [1025, 0, 1, 1], // GTRasterType: a cell is an area
    [1026, 34737, citation.length, 0], // GTCitation
    [2048, 0, 1, 4326], // GeodeticCRS: WGS 84
    [2054, 0, 1, 9102], // GeogAngularUnits: degree
    [3072, 0, 1, 32767], // ProjectedCRS: user-defined
    [3074, 0, 1, 32767], // Projection: user-defined
    [3075, 0, 1, 10], // ProjMethod: Lambert azimuthal equal-area
    [3076, 0, 1, 9001], // ProjLinearUnits: metre
    [3082, 34736, 1, 2], // ProjFalseEasting
    [3083, 34736, 1, 3], // ProjFalseNorthing
    [3088, 34736, 1, 0], // ProjCenterLong
    [3089, 34736, 1, 1], // ProjCenterLat
  ];
  return [
    double(33550, [frame.cellM, frame.cellM, 0]), // ModelPixelScale
    double(33922, [0, 0, 0, frame.x0, frame.y0, 0]), // ModelTiepoint: the top left corner
    short(34735, [1, 1, 1, keys.length, ...keys.flat()]), // GeoKeyDirectory
    double(34736, [centre.lon0, centre.lat0, 0, 0]), // GeoDoubleParams
    ascii(34737, citation),
  ];
}

function xml(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}
