/**
 * GeoKeys of a GeoTIFF → the PROJ string of its coordinates, for the systems that depth maps come in; any other is named.
 * (OGC 19-008r4 GeoTIFF 1.1, annexes on keys and codes; EPSG codes from the EPSG register.)
 */

export type GeoKeys = Partial<Record<string, unknown>>;

/** Either the PROJ string, or what was found instead, in words; null when the file names no system. */
export type CrsRead = { crs: string } | { refused: string | null };

const USER_DEFINED = 32767;
const PROJECTED = 1;
const GEOGRAPHIC = 2;
const DEGREE = 9102;
const METRE = 9001;
/** Linear units other than the metre: international foot, US survey foot. */
const FEET: Record<number, number> = { 9002: 0.3048, 9003: 1200 / 3937 };

/** Vertical systems in feet: NGVD 29, NAVD 88 and mean sea level, heights and depths (EPSG). */
const FEET_SYSTEMS = [5702, 6358, 6359, 6360, 8228, 8050, 8051, 8052, 8053];

const WGS84 = '+datum=WGS84';
const GRS80 = '+ellps=GRS80 +towgs84=0,0,0,0,0,0,0';
/** Geographic systems: WGS 84, NAD 83 (and its 2011 and CSRS realisations), ETRS 89. Taken for one another: within 2 m. */
const GEOGRAPHIC_CODES: Record<number, string> = {
  4326: WGS84,
  4979: WGS84,
  4269: GRS80,
  6318: GRS80,
  4617: GRS80,
  4258: GRS80,
};
/** Their datums and ellipsoids, for systems described key by key. */
const DATUMS: Record<number, string> = {
  6326: WGS84,
  6269: GRS80,
  1116: GRS80,
  6140: GRS80,
  6258: GRS80,
};
const ELLIPSOIDS: Record<number, string> = { 7030: WGS84, 7019: GRS80 };
/** Flattening and semi-major axis of both ellipsoids; they differ by 0.1 mm. */
const SEMI_MAJOR_M = 6_378_137;
const INVERSE_FLATTENING = 298.257;

const WEB_MERCATOR =
  '+proj=merc +a=6378137 +b=6378137 +lat_ts=0 +lon_0=0 +x_0=0 +y_0=0 +k=1 +units=m +nadgrids=@null +no_defs';

/** UTM zones by EPSG code: first and last code, zone of the first, hemisphere, ellipsoid. */
const UTM_RANGES: [number, number, number, 'north' | 'south', string][] = [
  [32601, 32660, 1, 'north', WGS84],
  [32701, 32760, 1, 'south', WGS84],
  [26901, 26923, 1, 'north', GRS80], // NAD 83
  [6330, 6348, 1, 'north', GRS80], // NAD 83 (2011)
  [25828, 25838, 28, 'north', GRS80], // ETRS 89
];

/** Names of the coordinate transformations by code, for messages (GeoTIFF 1.0, 6.3.3.3). */
const TRANSFORMATIONS = [
  '',
  'transverse Mercator',
  'modified transverse Mercator',
  'oblique Mercator',
  'oblique Mercator (Laborde)',
  'oblique Mercator (Rosenmund)',
  'oblique Mercator on a sphere',
  'Mercator',
  'Lambert conic',
  'Lambert conic',
  'Lambert azimuthal equal-area',
  'Albers',
  'azimuthal equidistant',
  'equidistant conic',
  'stereographic',
  'polar stereographic',
  'oblique stereographic',
  'equirectangular',
  'Cassini-Soldner',
];

export function readCrs(keys: GeoKeys | null): CrsRead {
  if (keys === null) return { refused: null };
  const model = code(keys, 'GTModelTypeGeoKey');
  const projected = code(keys, 'ProjectedCSTypeGeoKey');
  if (model === GEOGRAPHIC) return readGeographic(keys);
  if (model !== PROJECTED) {
    return {
      refused: model === null ? null : `neither geographic nor projected (model type ${model})`,
    };
  }
  if (projected !== null && projected !== USER_DEFINED) return readProjectedCode(projected, keys);
  return readProjection(keys);
}

/** Why depths cannot be taken as metres; null when they can. */
export function verticalUnit(keys: GeoKeys | null): string | null {
  if (keys === null) return null;
  const system = code(keys, 'VerticalCSTypeGeoKey');
  if (system !== null && FEET_SYSTEMS.includes(system)) return 'feet';
  const unit = code(keys, 'VerticalUnitsGeoKey');
  if (unit === null || unit === METRE) return null;
  return FEET[unit] === undefined ? `unit EPSG:${unit}` : 'feet';
}

function readGeographic(keys: GeoKeys): CrsRead {
  const base = ellipsoid(keys);
  if (base === null) return { refused: named(keys, baseName(keys)) };
  const unit = code(keys, 'GeogAngularUnitsGeoKey') ?? DEGREE;
  if (unit !== DEGREE) return { refused: `angular unit EPSG:${unit}` };
  return { crs: `+proj=longlat ${base} +no_defs` };
}

function readProjectedCode(projected: number, keys: GeoKeys): CrsRead {
  const crs = projectedCrs(projected);
  return crs === null ? { refused: named(keys, `EPSG:${projected}`) } : { crs };
}

function projectedCrs(code: number): string | null {
  if (code === 3857) return WEB_MERCATOR;
  for (const [first, last, zone, hemisphere, base] of UTM_RANGES)
    if (code >= first && code <= last)
      return utm(zone + code - first, hemisphere === 'south', base);
  return null;
}

/** The PROJ string of an EPSG code, projected or geographic; null where depth maps do not come in it. */
export function readCrsCode(code: number): string | null {
  const base = GEOGRAPHIC_CODES[code];
  return base === undefined ? projectedCrs(code) : `+proj=longlat ${base} +no_defs`;
}

function utm(zone: number, south: boolean, base: string): string {
  return `+proj=utm +zone=${zone}${south ? ' +south' : ''} ${base} +units=m +no_defs`;
}

/** A projection described key by key. */
function readProjection(keys: GeoKeys): CrsRead {
  const base = ellipsoid(keys);
  if (base === null) return { refused: named(keys, baseName(keys)) };
  const coded = code(keys, 'ProjectionGeoKey');
  if (coded !== null && coded >= 16001 && coded <= 16060)
    return { crs: utm(coded - 16000, false, base) };
  if (coded !== null && coded >= 16101 && coded <= 16160)
    return { crs: utm(coded - 16100, true, base) };
  const angular = code(keys, 'GeogAngularUnitsGeoKey') ?? DEGREE;
  if (angular !== DEGREE) return { refused: `angular unit EPSG:${angular}` };
  const linear = code(keys, 'ProjLinearUnitsGeoKey') ?? METRE;
  const unitM = linear === METRE ? 1 : FEET[linear];
  if (unitM === undefined) return { refused: `linear unit EPSG:${linear}` };
  const definition = projection(keys, unitM);
  if (definition === null) {
    const transformation = code(keys, 'ProjCoordTransGeoKey') ?? 0;
    return {
      refused: named(keys, TRANSFORMATIONS[transformation] ?? `projection ${transformation}`),
    };
  }
  const unit = unitM === 1 ? '+units=m' : `+to_meter=${unitM}`;
  return { crs: `${definition} ${base} ${unit} +no_defs` };
}

/** PROJ parameters by coordinate transformation code; null for another transformation. */
function projection(keys: GeoKeys, unitM: number): string | null {
  const first = (...names: string[]) =>
    names.map((n) => keys[n]).find((v): v is number => typeof v === 'number');
  const lat =
    first('ProjNatOriginLatGeoKey', 'ProjFalseOriginLatGeoKey', 'ProjCenterLatGeoKey') ?? 0;
  const lon =
    first('ProjNatOriginLongGeoKey', 'ProjFalseOriginLongGeoKey', 'ProjCenterLongGeoKey') ?? 0;
  const x =
    first('ProjFalseEastingGeoKey', 'ProjFalseOriginEastingGeoKey', 'ProjCenterEastingGeoKey') ?? 0;
  const y =
    first('ProjFalseNorthingGeoKey', 'ProjFalseOriginNorthingGeoKey', 'ProjCenterNorthingGeoKey') ??
    0;
  const scale = first('ProjScaleAtNatOriginGeoKey', 'ProjScaleAtCenterGeoKey') ?? 1;
  const lat1 = first('ProjStdParallel1GeoKey') ?? lat;
  const lat2 = first('ProjStdParallel2GeoKey') ?? lat1;
  // without x_0 and y_0 proj4 gives NaN for some projections; both are in metres whatever the unit
  const origin = `+lat_0=${lat} +lon_0=${lon} +x_0=${x * unitM} +y_0=${y * unitM}`;
  switch (code(keys, 'ProjCoordTransGeoKey')) {
    case 1:
      return `+proj=tmerc ${origin} +k=${scale}`;
    case 8:
      return `+proj=lcc ${origin} +lat_1=${lat1} +lat_2=${lat2}`;
    case 9:
      return `+proj=lcc ${origin} +lat_1=${lat} +k_0=${scale}`;
    case 10:
      return `+proj=laea ${origin}`;
    case 11:
      return `+proj=aea ${origin} +lat_1=${lat1} +lat_2=${lat2}`;
    default:
      return null;
  }
}

/** PROJ's datum or ellipsoid; null for another than those of WGS 84, NAD 83 and ETRS 89. */
function ellipsoid(keys: GeoKeys): string | null {
  const geographic = code(keys, 'GeographicTypeGeoKey');
  if (geographic !== null && geographic !== USER_DEFINED)
    return GEOGRAPHIC_CODES[geographic] ?? null;
  const datum = code(keys, 'GeogGeodeticDatumGeoKey');
  if (datum !== null && datum !== USER_DEFINED) return DATUMS[datum] ?? null;
  const shape = code(keys, 'GeogEllipsoidGeoKey');
  if (shape !== null && shape !== USER_DEFINED) return ELLIPSOIDS[shape] ?? null;
  const major = keys.GeogSemiMajorAxisGeoKey;
  const flattening = keys.GeogInvFlatteningGeoKey;
  const same =
    major === SEMI_MAJOR_M &&
    typeof flattening === 'number' &&
    Math.abs(flattening - INVERSE_FLATTENING) < 1e-3;
  return same ? WGS84 : null;
}

/** The geographic system, datum or ellipsoid, as far as the keys name it. */
function baseName(keys: GeoKeys): string {
  for (const key of ['GeographicTypeGeoKey', 'GeogGeodeticDatumGeoKey', 'GeogEllipsoidGeoKey']) {
    const value = code(keys, key);
    if (value !== null && value !== USER_DEFINED) return `EPSG:${value}`;
  }
  const major = keys.GeogSemiMajorAxisGeoKey;
  return typeof major === 'number'
    ? `an ellipsoid of semi-major axis ${major} m`
    : 'an unknown ellipsoid';
}

/** With what the file itself calls its system. */
function named(keys: GeoKeys, found: string): string {
  const citations = ['PCSCitationGeoKey', 'GTCitationGeoKey', 'GeogCitationGeoKey'];
  const texts = citations
    .map((key) => keys[key])
    .filter((value) => typeof value === 'string')
    .map((value) => value.replace(/\0/g, '').split('|')[0].replace('GCS Name = ', '').trim());
  const text = texts.find((t) => t !== '' && !/^unknown$/i.test(t));
  return [found, text].filter((part) => part !== undefined && part !== '').join(', ');
}

function code(keys: GeoKeys, name: string): number | null {
  const value = keys[name];
  return typeof value === 'number' ? value : null;
}
