/**
 * Writes a raster of one band as a GeoTIFF of 32-bit floats in its own coordinate system, no-data NaN, uncompressed. (TIFF 6.0,
 * Adobe 1992; OGC 19-008r4 GeoTIFF 1.1, 7.1–7.5 and its annexes on keys; GDAL_NODATA after GDAL's GTiff driver.)
 */

import type { GivenCrs, RawRaster } from '../../shared/importing.ts';
import {
  ascii,
  directoryBytes,
  double,
  type Field,
  long,
  short,
  writeDirectory,
} from '../../shared/tiff-tags.ts';

const HEADER_BYTES = 8;
const USER_DEFINED = 32767;
const DEGREE = 9102;
const METRE = 9001;
/** Of EPSG codes these name a geographic system. */
const GEOGRAPHIC = new Set([4326, 4979, 4269, 6318, 4617, 4258]);
/** Code of a projection's method and the keys of its parameters, by PROJ's name. */
const METHODS: Record<string, { code: number; keys: Record<string, number> }> = {
  tmerc: { code: 1, keys: { lon_0: 3080, lat_0: 3081, k: 3092 } },
  laea: { code: 10, keys: { lon_0: 3088, lat_0: 3089 } },
  lcc: { code: 8, keys: { lon_0: 3084, lat_0: 3085, lat_1: 3078, lat_2: 3079 } },
  aea: { code: 11, keys: { lon_0: 3080, lat_0: 3081, lat_1: 3078, lat_2: 3079 } },
};

type Key = [key: number, location: number, count: number, value: number];

export type WrittenRaster = { bytes: Uint8Array } | { refused: string };

/** The file's bytes, or why the raster's coordinate system cannot be written, in words. Throws when the values are not as many as cells. */
export function writeRaster(
  raster: Pick<RawRaster, 'width' | 'height' | 'corner' | 'step' | 'values' | 'crs'>,
): WrittenRaster {
  const { width, height, values } = raster;
  if (values.length !== width * height || values.length === 0)
    throw new Error(`got ${values.length} values, expected ${width} × ${height} of them`);
  const geo = geoFields(raster);
  if ('refused' in geo) return geo;
  const bytes = 4 * values.length;
  const offsets = [0];
  const fields = [
    long(256, [width]), // ImageWidth
    long(257, [height]), // ImageLength
    short(258, [32]), // BitsPerSample
    short(259, [1]), // Compression: none
    short(262, [1]), // PhotometricInterpretation: black is zero
    long(273, offsets), // StripOffsets
    short(277, [1]), // SamplesPerPixel
    long(278, [height]), // RowsPerStrip
    long(279, [bytes]), // StripByteCounts
    short(339, [3]), // SampleFormat: IEEE float
    ascii(42113, 'nan'), // GDAL_NODATA
    ...geo.fields,
  ];
  const dataStart = Math.ceil((HEADER_BYTES + directoryBytes(fields)) / 4) * 4;
  offsets[0] = dataStart;
  const view = new DataView(new ArrayBuffer(dataStart + bytes));
  view.setUint16(0, 0x4949);
  view.setUint16(2, 42, true);
  view.setUint32(4, HEADER_BYTES, true);
  writeDirectory(view, HEADER_BYTES, fields, { next: 0, little: true });
  for (let i = 0; i < values.length; i++) view.setFloat32(dataStart + 4 * i, values[i], true);
  return { bytes: new Uint8Array(view.buffer) };
}

/** Place, cell size and coordinate system. */
function geoFields({
  corner,
  step,
  crs,
}: Pick<RawRaster, 'corner' | 'step' | 'crs'>): { fields: Field[] } | { refused: string } {
  if (!(step[0] > 0 && step[1] < 0))
    return { refused: 'its rows do not run from north to south and from west to east' };
  const doubles: number[] = [];
  const real = (key: number, value: number): Key => [key, 34736, 1, doubles.push(value) - 1];
  const named = crs.kind === 'epsg' ? byCode(crs.code) : byDefinition(crs, real);
  if (named === null) return { refused: 'its coordinate system cannot be written into a raster' };
  const keys: Key[] = [
    ...named,
    [1025, 0, 1, 1] satisfies Key, // GTRasterType: a cell is an area
  ].sort((a, b) => a[0] - b[0]);
  return {
    fields: [
      double(33550, [step[0], -step[1], 0]), // ModelPixelScale
      double(33922, [0, 0, 0, corner[0], corner[1], 0]), // ModelTiepoint: the outer corner of the first cell
      short(34735, [1, 1, 1, keys.length, ...keys.flat()]), // GeoKeyDirectory
      ...(doubles.length === 0 ? [] : [double(34736, doubles)]), // GeoDoubleParams
    ],
  };
}

function byCode(code: number): Key[] {
  return GEOGRAPHIC.has(code)
    ? [
        [1024, 0, 1, 2], // GTModelType: geographic
        [2048, 0, 1, code], // GeodeticCRS
        [2054, 0, 1, DEGREE],
      ]
    : [
        [1024, 0, 1, 1], // GTModelType: projected
        [3072, 0, 1, code], // ProjectedCRS
      ];
}

/** From PROJ's parameters; null for a projection or an ellipsoid that has no such keys here. */
function byDefinition(crs: GivenCrs, real: (key: number, value: number) => Key): Key[] | null {
  if (crs.kind !== 'proj') return null;
  const given = new Map(
    crs.text
      .split(/\s+/)
      .filter((word) => word.startsWith('+'))
      .map((word): [string, string] => {
        const [name, value = ''] = word.slice(1).split('=');
        return [name, value];
      }),
  );
  const ellipsoid = geodetic(given);
  const name = given.get('proj') ?? '';
  if (ellipsoid === null) return null;
  if (name === 'longlat') return byCode(ellipsoid);
  if (name === 'utm') return byZone(given, ellipsoid);
  const method = METHODS[name];
  const unit = unitOf(given);
  if (method === undefined || unit === null) return null;
  const number = (key: string, otherwise: number): number => {
    const value = given.get(key);
    return value === undefined ? otherwise : Number(value);
  };
  const scale = number('k_0', number('k', 1));
  // a cone that touches has one parallel
  const lat1 = number('lat_1', number('lat_0', 0));
  const parameters: Record<string, number> = {
    lon_0: number('lon_0', 0),
    lat_0: number('lat_0', 0),
    lat_1: lat1,
    lat_2: number('lat_2', lat1),
    k: scale,
  };
  if (method.keys.k === undefined && scale !== 1) return null;
  const keys = Object.entries(method.keys).map(([key, code]) => real(code, parameters[key]));
  const [easting, northing] = name === 'lcc' ? [3086, 3087] : [3082, 3083];
  return [
    [1024, 0, 1, 1],
    [2048, 0, 1, ellipsoid],
    [2054, 0, 1, DEGREE],
    [3072, 0, 1, USER_DEFINED],
    [3074, 0, 1, USER_DEFINED],
    [3075, 0, 1, method.code],
    [3076, 0, 1, unit.code],
    ...keys,
    // in the unit of the coordinates; PROJ has them in metres
    real(easting, number('x_0', 0) / unit.m),
    real(northing, number('y_0', 0) / unit.m),
  ];
}

/** Code of the geographic system: WGS 84, or NAD 83 for what has its ellipsoid; null for another. */
function geodetic(given: ReadonlyMap<string, string>): number | null {
  const datum = given.get('datum') ?? '';
  const ellipsoid = given.get('ellps') ?? '';
  const shift = given.get('towgs84') ?? '';
  if (/[1-9]/.test(shift) || (given.has('nadgrids') && given.get('nadgrids') !== '@null'))
    return null;
  if (datum === 'WGS84' || (datum === '' && ellipsoid === 'WGS84')) return 4326;
  return datum === 'NAD83' || (datum === '' && ellipsoid === 'GRS80') ? 4269 : null;
}

function byZone(given: ReadonlyMap<string, string>, ellipsoid: number): Key[] | null {
  const zone = Number(given.get('zone'));
  const south = given.has('south');
  if (!Number.isInteger(zone) || zone < 1 || zone > 60 || unitOf(given)?.m !== 1) return null;
  if (ellipsoid === 4326) return byCode((south ? 32700 : 32600) + zone);
  return !south && zone <= 23 ? byCode(26900 + zone) : null;
}

function unitOf(given: ReadonlyMap<string, string>): { code: number; m: number } | null {
  const toMetre = given.get('to_meter');
  const units = toMetre === undefined ? (given.get('units') ?? 'm') : '';
  const m =
    units === 'm' ? 1 : units === 'ft' ? 0.3048 : units === 'us-ft' ? 1200 / 3937 : Number(toMetre);
  const known = [
    { code: METRE, m: 1 },
    { code: 9002, m: 0.3048 },
    { code: 9003, m: 1200 / 3937 },
  ];
  return known.find((unit) => Math.abs(unit.m / m - 1) < 1e-9) ?? null;
}
