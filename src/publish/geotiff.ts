/**
 * Writes a float32 GeoTIFF in the lake's plane, readable by any GIS: bands one after the other, uncompressed, no-data NaN,
 * the projection's parameters in the GeoKeys. (TIFF 6.0, Adobe 1992; OGC 19-008r4 GeoTIFF 1.1; GDAL_METADATA and
 * GDAL_NODATA after GDAL's GTiff driver.) General writers drop user-defined projection keys or take 12 s for a large lake.
 */

import type { GridFrame } from '../../shared/survey.ts';

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

/** TIFF field types and their sizes in bytes. */
const TYPES = { ascii: 2, short: 3, long: 4, double: 12 } as const;
const SIZES = { 2: 1, 3: 2, 4: 4, 12: 8 } as const;

/** A strip holds about this many bytes, so that a reader can fetch part of a large lake. */
const STRIP_BYTES = 1 << 20;

/** Offsets in a classic TIFF are 32 bits wide. */
const MAX_BYTES = 2 ** 32 - 1;

interface Field {
  tag: number;
  type: (typeof TYPES)[keyof typeof TYPES];
  values: number[];
}

/**
 * The file's bytes. Throws when a band's length is not that of the frame, or when the file would pass 4 GB.
 */
export function writeGeoTiff(frame: GridFrame, centre: Centre, bands: Band[]): Uint8Array {
  const cells = frame.nx * frame.ny;
  if (cells === 0 || bands.length === 0)
    throw new Error(
      `got a raster of ${frame.nx} × ${frame.ny} cells and ${bands.length} bands, expected at least one`,
    );
  for (const band of bands)
    if (band.values.length !== cells)
      throw new Error(`band "${band.name}" has ${band.values.length} cells, expected ${cells}`);

  const rowBytes = frame.nx * 4;
  const rowsPerStrip = Math.max(1, Math.min(frame.ny, Math.floor(STRIP_BYTES / rowBytes)));
  const strips = stripLayout(frame, rowsPerStrip, bands.length);
  const fields = [
    ...imageFields(frame, bands, rowsPerStrip),
    ...geoFields(frame, centre),
    long(273, strips.offsets),
    long(279, strips.byteCounts),
  ].sort((a, b) => a.tag - b.tag);

  const headBytes = 8 + 2 + fields.length * 12 + 4 + sum(fields.map(outOfLine));
  const dataStart = Math.ceil(headBytes / 4) * 4;
  const total = dataStart + bands.length * cells * 4;
  if (total > MAX_BYTES)
    throw new Error(
      `a raster of ${total} bytes, at most ${MAX_BYTES} can be written; use larger cells`,
    );
  for (let i = 0; i < strips.offsets.length; i++) strips.offsets[i] += dataStart;

  const buffer = new ArrayBuffer(total);
  writeHead(new DataView(buffer), fields);
  bands.forEach((band, b) => {
    new Float32Array(buffer, dataStart + b * cells * 4, cells).set(band.values);
  });
  return new Uint8Array(buffer);
}

/** Strips of one band lie on end, bands too; offsets are counted from the first cell's byte. */
function stripLayout(frame: GridFrame, rowsPerStrip: number, bands: number) {
  const offsets: number[] = [];
  const byteCounts: number[] = [];
  for (let band = 0; band < bands; band++) {
    for (let row = 0; row < frame.ny; row += rowsPerStrip) {
      offsets.push((band * frame.ny + row) * frame.nx * 4);
      byteCounts.push(Math.min(rowsPerStrip, frame.ny - row) * frame.nx * 4);
    }
  }
  return { offsets, byteCounts };
}

function imageFields(frame: GridFrame, bands: Band[], rowsPerStrip: number): Field[] {
  const same = (value: number) => bands.map(() => value);
  const names = bands
    .map(
      (b, i) => `<Item name="DESCRIPTION" sample="${i}" role="description">${xml(b.name)}</Item>`,
    )
    .join('');
  return [
    long(256, [frame.nx]), // ImageWidth
    long(257, [frame.ny]), // ImageLength
    short(258, same(32)), // BitsPerSample
    short(259, [1]), // Compression: none
    short(262, [1]), // PhotometricInterpretation: black is zero
    short(277, [bands.length]), // SamplesPerPixel
    long(278, [rowsPerStrip]), // RowsPerStrip
    short(284, [2]), // PlanarConfiguration: band after band
    ...(bands.length > 1 ? [short(338, same(0).slice(1))] : []), // ExtraSamples: of no colour
    short(339, same(3)), // SampleFormat: IEEE float
    ascii(42112, `<GDALMetadata>${names}</GDALMetadata>`),
    ascii(42113, 'nan'), // GDAL_NODATA
  ];
}

/** Place, cell size and projection. OGC 19-008r4, 7.1–7.5. */
function geoFields(frame: GridFrame, centre: Centre): Field[] {
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

/** Header, directory and the values that do not fit into it, in the byte order of this machine's floats. */
function writeHead(view: DataView, fields: Field[]): void {
  const little = new Uint8Array(new Float32Array([1]).buffer)[3] === 0x3f;
  view.setUint16(0, little ? 0x4949 : 0x4d4d);
  view.setUint16(2, 42, little);
  view.setUint32(4, 8, little);
  view.setUint16(8, fields.length, little);
  let next = 8 + 2 + fields.length * 12 + 4;
  fields.forEach((field, i) => {
    const entry = 10 + i * 12;
    view.setUint16(entry, field.tag, little);
    view.setUint16(entry + 2, field.type, little);
    view.setUint32(entry + 4, field.values.length, little);
    const extra = outOfLine(field);
    if (extra > 0) view.setUint32(entry + 8, next, little);
    writeValues(view, extra > 0 ? next : entry + 8, field, little);
    next += extra;
  });
}

function writeValues(view: DataView, at: number, field: Field, little: boolean): void {
  const size = SIZES[field.type];
  field.values.forEach((value, i) => {
    const offset = at + i * size;
    if (field.type === TYPES.ascii) view.setUint8(offset, value);
    else if (field.type === TYPES.short) view.setUint16(offset, value, little);
    else if (field.type === TYPES.long) view.setUint32(offset, value, little);
    else view.setFloat64(offset, value, little);
  });
}

/** Bytes outside of the directory: none when the values fit into 4, else an even number. */
function outOfLine(field: Field): number {
  const bytes = field.values.length * SIZES[field.type];
  return bytes <= 4 ? 0 : Math.ceil(bytes / 8) * 8;
}

const short = (tag: number, values: number[]): Field => ({ tag, type: TYPES.short, values });
const long = (tag: number, values: number[]): Field => ({ tag, type: TYPES.long, values });
const double = (tag: number, values: number[]): Field => ({ tag, type: TYPES.double, values });
const ascii = (tag: number, text: string): Field => ({
  tag,
  type: TYPES.ascii,
  values: [...new TextEncoder().encode(text), 0],
});

function xml(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

function sum(values: number[]): number {
  return values.reduce((a, b) => a + b, 0);
}
