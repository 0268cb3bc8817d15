/** Coordinate systems: from what a file says of itself to a definition that places its numbers on the globe. */

import proj4 from 'proj4';
import { readCrsCode } from '../../../shared/geokeys.ts';
import type { GivenCrs } from '../../../shared/importing.ts';
import type { LngLat, XY } from '../../../shared/survey.ts';
import { quoted } from '../../../shared/words.ts';
import { type Datum, datumNamed, isModern, MODERN, modernNamed } from './datums.ts';
import { datumAt, systemOf } from './systems.ts';
import { child, codeOf, isVersion2, parseWkt, type WktNode } from './wkt.ts';
import { projectionOf, WEB_MERCATOR_PROJ } from './wkt-projection.ts';

export interface CoordinateSystem {
  /** for people: `NAD83 / UTM zone 16N (EPSG:26916)` */
  name: string;
  code: number | null;
  /** PROJ string */
  proj: string;
  /** how far off positions may be by the shift between datums, m */
  offM: number;
  /** the datum that is not WGS 84 within 1 m, and how it is brought there; null for the others */
  datum: Datum | null;
  geographic: boolean;
}

export type SystemRead = { system: CoordinateSystem } | { refused: string };

const DEGREES = '+proj=longlat';
/** Longitude and latitude as GPS and web maps have them. */
export const LONGITUDE_LATITUDE: CoordinateSystem = {
  name: 'longitude and latitude (WGS 84)',
  code: 4326,
  proj: '+proj=longlat +datum=WGS84 +no_defs',
  offM: 0,
  datum: null,
  geographic: true,
};
const WEB_MERCATOR: CoordinateSystem = {
  name: 'WGS 84 / Pseudo-Mercator (EPSG:3857)',
  code: 3857,
  proj: WEB_MERCATOR_PROJ,
  offM: 0,
  datum: null,
  geographic: false,
};
/** A shift that a file gives itself is taken; how good it is nobody says. */
const OWN_SHIFT_OFF_M = 10;

/** Null where the file names no system. */
export function readSystem(crs: GivenCrs): SystemRead | null {
  switch (crs.kind) {
    case 'none':
      return null;
    case 'epsg':
      return byCode(crs.code);
    case 'proj':
      return { system: systemFrom('a projection given by its parameters', null, crs.text, MODERN) };
    case 'wkt':
      return byText(crs.text);
  }
}

export function byCode(code: number): SystemRead {
  if (code === 4326) return { system: LONGITUDE_LATITUDE };
  if (code === 3857) return { system: WEB_MERCATOR };
  const known = systemOf(code);
  const ofRasters = known === null ? readCrsCode(code) : null;
  if (ofRasters !== null) return { system: systemFrom(`EPSG:${code}`, code, ofRasters, MODERN) };
  if (known === null)
    return {
      refused: `EPSG:${code}, which is not in the list of systems that can be placed without a grid of shifts`,
    };
  return {
    system: systemFrom(`${known.name} (EPSG:${code})`, code, known.proj, datumAt(known, code)),
  };
}

function byText(text: string): SystemRead {
  const root = parseWkt(text);
  if (root === null)
    return { refused: `a text that is no coordinate system: ${quoted(text.trim())}` };
  const code = codeOf(root);
  if (isVersion2(root))
    return code === null
      ? { refused: 'a system in version 2 of the well-known text without an EPSG code' }
      : byCode(code);
  const horizontal =
    root.name === 'COMPD_CS' ? (child(root, 'PROJCS') ?? child(root, 'GEOGCS')) : root;
  if (horizontal === null || (horizontal.name !== 'PROJCS' && horizontal.name !== 'GEOGCS'))
    return { refused: `a system that is neither projected nor geographic (${root.name})` };
  return byDefinition(horizontal, codeOf(horizontal));
}

/** The definition before the code: what is written out needs no list. */
function byDefinition(node: WktNode, code: number | null): SystemRead {
  const given = node.words[0] ?? '';
  const name = code === null ? quoted(given) : `${given} (EPSG:${code})`;
  const geographic = node.name === 'GEOGCS';
  const projection = geographic ? degreesOf(node) : projectionOf(node);
  if ('web' in projection) return { system: WEB_MERCATOR };
  const datum = datumFrom(geographic ? node : child(node, 'GEOGCS'));
  if ('proj' in projection && typeof datum !== 'string')
    return { system: systemFrom(name, code, `${projection.proj} ${datum.proj}`, datum) };
  const known = code === null ? null : byCode(code);
  if (known !== null && 'system' in known) return known;
  const reason = 'unknown' in projection ? projection.unknown : datum;
  return {
    refused: `${name}, of which is not known ${typeof reason === 'string' ? reason : reason.label}`,
  };
}

/** PROJ's string of a geographic system in degrees east of Greenwich. */
function degreesOf(node: WktNode): { proj: string } | { unknown: string } {
  const unit = child(node, 'UNIT')?.numbers[0] ?? 0;
  if (Math.abs(unit - Math.PI / 180) > 1e-9)
    return { unknown: 'an angular unit other than degrees' };
  const primary = child(node, 'PRIMEM')?.numbers[0] ?? 0;
  if (Math.abs(primary) > 1e-9) return { unknown: 'a prime meridian other than Greenwich' };
  return { proj: `${DEGREES} +no_defs` };
}

/** From the list, else a shift that the text gives itself; otherwise why there is none. */
function datumFrom(node: WktNode | null): Datum | string {
  const given = node === null ? null : child(node, 'DATUM');
  const [semiMajorM, inverseFlattening] = (given && child(given, 'SPHEROID')?.numbers) ?? [];
  if (
    node === null ||
    given === null ||
    semiMajorM === undefined ||
    inverseFlattening === undefined
  )
    return 'its datum and ellipsoid are not given';
  const names = [given.words[0] ?? '', node.words[0] ?? ''];
  const listed = datumNamed(names[0]) ?? datumNamed(names[1]);
  if (listed !== null) return listed;
  const shift = child(given, 'TOWGS84')?.numbers ?? [];
  const shifted = shift.length === 7 && shift.slice(0, 3).some((v) => Math.abs(v) > 5);
  if (shifted)
    return {
      key: 'own',
      label: names[0],
      proj: `+a=${semiMajorM} ${inverseFlattening === 0 ? `+b=${semiMajorM}` : `+rf=${inverseFlattening}`} +towgs84=${shift.join(',')}`,
      operation: null,
      offM: OWN_SHIFT_OFF_M,
    };
  if (isModern(names[0], semiMajorM, inverseFlattening)) return modernNamed(names[0]);
  return `how the datum ${quoted(names[0])} lies to WGS 84 (by hundreds of metres, it may be)`;
}

function systemFrom(
  name: string,
  code: number | null,
  proj: string,
  datum: Datum,
): CoordinateSystem {
  return {
    name,
    code,
    proj,
    offM: datum.offM,
    datum: datum === MODERN ? null : datum,
    geographic: proj.includes(DEGREES),
  };
}

/** Between the numbers of a system and the globe. Both throw where there is no such place. */
export interface Converter {
  toLngLat(x: number, y: number): LngLat;
  fromLngLat(at: LngLat): XY;
}

/** How far a place may move there and back, degrees: 1 cm. */
const THERE_AND_BACK = 1e-7;

export function converterOf(system: CoordinateSystem): Converter {
  if (system.proj === LONGITUDE_LATITUDE.proj)
    return {
      toLngLat: (x, y) => onGlobe([x, y], x, y, system),
      fromLngLat: ([lon, lat]) => [lon, lat],
    };
  const convert = proj4(system.proj, LONGITUDE_LATITUDE.proj);
  return {
    toLngLat: (x, y) =>
      onGlobe(
        attempt(() => convert.forward([x, y])),
        x,
        y,
        system,
      ),
    fromLngLat: (at) => {
      const found = attempt(() => convert.inverse([at[0], at[1]]));
      if (found?.every(Number.isFinite)) return [found[0], found[1]];
      throw new Error(
        `got longitude ${at[0]}, latitude ${at[1]}, expected a place that ${system.name} can show`,
      );
    },
  };
}

/** Whether what the system makes of a place comes back from the globe; some projections answer with anything far from home. */
export function holds(converter: Converter, x: number, y: number, scale: number): boolean {
  try {
    const [lon, lat] = converter.toLngLat(x, y);
    const [x2, y2] = converter.fromLngLat([lon, lat]);
    return Math.hypot(x2 - x, y2 - y) < THERE_AND_BACK * 111_000 * scale;
  } catch {
    return false;
  }
}

function attempt(convert: () => number[]): number[] | null {
  try {
    return convert();
  } catch {
    return null; // proj4 fails with errors of its own making; the callers say what it was about
  }
}

function onGlobe(found: number[] | null, x: number, y: number, system: CoordinateSystem): LngLat {
  const [lon, lat] = found ?? [Number.NaN, Number.NaN];
  if (Math.abs(lon) <= 360 && Math.abs(lat) <= 90) return [lon, lat];
  throw new Error(`got (${x}, ${y}), expected a place on the globe in ${system.name}`);
}
