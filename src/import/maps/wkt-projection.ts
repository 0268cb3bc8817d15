/**
 * A projected system in well-known text → PROJ's parameters. Strict: a projection, parameter or unit that is not known is
 * named, never guessed. (Parameters: OGC 01-009, 10.4, with GDAL's list of projections; PROJ's documentation of each.)
 */

import { child, type WktNode } from './wkt.ts';

/** PROJ's projection, and its parameters by the names of the text, without case and underscores. */
interface Method {
  proj: string;
  /** PROJ's parameter by name; angles and scales as they stand */
  parameters: Record<string, string>;
  /** what PROJ needs besides */
  fixed?: string;
  /** parameters that have one value here, degrees or a factor */
  only?: Record<string, number>;
}

const CENTRE = {
  centralmeridian: 'lon_0',
  longitudeofcenter: 'lon_0',
  longitudeoforigin: 'lon_0',
  latitudeoforigin: 'lat_0',
  latitudeofcenter: 'lat_0',
  centralparallel: 'lat_0',
};
const SCALED = { ...CENTRE, scalefactor: 'k_0' };
const CONIC = { ...SCALED, standardparallel1: 'lat_1', standardparallel2: 'lat_2' };
const OBLIQUE = {
  latitudeofcenter: 'lat_0',
  longitudeofcenter: 'lonc',
  azimuth: 'alpha',
  rectifiedgridangle: 'gamma',
  scalefactor: 'k_0',
};

/** By the name in the text, without case and underscores. */
const METHODS: Record<string, Method> = {
  transversemercator: { proj: 'tmerc', parameters: SCALED },
  gausskruger: { proj: 'tmerc', parameters: SCALED },
  lambertconformalconic: { proj: 'lcc', parameters: CONIC },
  lambertconformalconic1sp: { proj: 'lcc', parameters: CONIC },
  lambertconformalconic2sp: { proj: 'lcc', parameters: CONIC },
  albers: { proj: 'aea', parameters: CONIC },
  albersconicequalarea: { proj: 'aea', parameters: CONIC },
  equidistantconic: { proj: 'eqdc', parameters: CONIC },
  lambertazimuthalequalarea: { proj: 'laea', parameters: CENTRE },
  mercator: { proj: 'merc', parameters: { ...CENTRE, standardparallel1: 'lat_ts' } },
  mercator1sp: { proj: 'merc', parameters: SCALED },
  mercator2sp: { proj: 'merc', parameters: { ...CENTRE, standardparallel1: 'lat_ts' } },
  obliquestereographic: { proj: 'sterea', parameters: SCALED },
  doublestereographic: { proj: 'sterea', parameters: SCALED },
  polyconic: { proj: 'poly', parameters: CENTRE },
  cassini: { proj: 'cass', parameters: SCALED },
  cassinisoldner: { proj: 'cass', parameters: SCALED },
  hotineobliquemercator: { proj: 'omerc', parameters: OBLIQUE, fixed: '+no_uoff' },
  hotineobliquemercatorazimuthnaturalorigin: {
    proj: 'omerc',
    parameters: OBLIQUE,
    fixed: '+no_uoff',
  },
  rectifiedskeworthomorphicnaturalorigin: {
    proj: 'omerc',
    parameters: { ...OBLIQUE, xyplanerotation: 'gamma' },
    fixed: '+no_uoff',
  },
  hotineobliquemercatorazimuthcenter: { proj: 'omerc', parameters: OBLIQUE },
  obliquemercator: { proj: 'omerc', parameters: OBLIQUE },
  rectifiedskeworthomorphiccenter: {
    proj: 'omerc',
    parameters: { ...OBLIQUE, xyplanerotation: 'gamma' },
  },
  // east and north: the form with axes to the south and west has another plane rotation (OGC names of EPSG:1041)
  krovak: {
    proj: 'krovak',
    parameters: SCALED,
    only: {
      azimuth: 30.28813975277778,
      pseudostandardparallel1: 78.5,
      xscale: -1,
      yscale: 1,
      xyplanerotation: 90,
    },
  },
  swissobliquecylindrical: { proj: 'somerc', parameters: SCALED },
};

const WEB_MERCATOR = new Set(['mercatorauxiliarysphere', 'popularvisualisationpseudomercator']);
/** ESRI's parameters of Web Mercator, which are always the same. */
const WEB_PARAMETERS = new Set([
  'centralmeridian',
  'standardparallel1',
  'auxiliaryspheretype',
  'latitudeoforigin',
  'scalefactor',
  'falseeasting',
  'falsenorthing',
]);

export const WEB_MERCATOR_PROJ =
  '+proj=merc +a=6378137 +b=6378137 +lat_ts=0 +lon_0=0 +x_0=0 +y_0=0 +k=1 +units=m +nadgrids=@null +no_defs';

/** PROJ's parameters but for the datum, or what is not known in it. `null` with Web Mercator, which has a datum of its own. */
export function projectionOf(
  node: WktNode,
): { proj: string } | { web: true } | { unknown: string } {
  const name = child(node, 'PROJECTION')?.words[0] ?? '';
  const bare = bareName(name);
  const given = parameters(node);
  if (
    WEB_MERCATOR.has(bare) ||
    /pseudo-mercator|web_mercator_auxiliary/i.test(node.words[0] ?? '')
  ) {
    const odd = Object.entries(given).find(
      ([key, v]) => !WEB_PARAMETERS.has(key) || (v !== 0 && !(key === 'scalefactor' && v === 1)),
    );
    return odd === undefined
      ? { web: true }
      : { unknown: `Web Mercator with the parameter ${odd[0]} = ${odd[1]}` };
  }
  const method = METHODS[bare];
  if (method === undefined)
    return { unknown: `the projection ${name === '' ? 'is not named' : name}` };
  const unitM = child(node, 'UNIT')?.numbers[0];
  if (unitM === undefined || !(unitM > 1e-3 && unitM < 1e4))
    return { unknown: 'no unit of length' };
  const axes = node.children
    .filter((c) => c.name === 'AXIS')
    .map((a) => a.words.at(-1)?.toUpperCase());
  if (axes.some((axis) => axis === 'SOUTH' || axis === 'WEST'))
    return { unknown: 'axes that point south or west' };
  const primary = child(child(node, 'GEOGCS') ?? node, 'PRIMEM')?.numbers[0] ?? 0;
  if (Math.abs(primary) > 1e-9) return { unknown: 'a prime meridian other than Greenwich' };
  return assembled(method, bare, given, unitM);
}

function assembled(
  method: Method,
  bare: string,
  given: Record<string, number>,
  unitM: number,
): { proj: string } | { unknown: string } {
  const values: Record<string, number> = {};
  for (const [key, value] of Object.entries(given)) {
    if (key === 'falseeasting' || key === 'falsenorthing') continue;
    const fixed = method.only?.[key];
    if (fixed !== undefined) {
      if (Math.abs(value - fixed) < 1e-6) continue;
      return { unknown: `the parameter ${key} = ${value} of ${bare} (${fixed} expected)` };
    }
    const parameter = method.parameters[key];
    if (parameter === undefined) {
      const idle =
        (key === 'scalefactor' && value === 1) ||
        ((key === 'azimuth' || key === 'xyplanerotation') && value === 0);
      if (idle) continue;
      return { unknown: `the parameter ${key} of ${bare}` };
    }
    values[parameter] = value;
  }
  if (method.proj === 'lcc') completeCone(values);
  if (method.proj === 'omerc') values.gamma ??= values.alpha;
  // PROJ wants metres here whatever the unit; without x_0 and y_0 proj4 gives NaN for some projections
  const x0 = (given.falseeasting ?? 0) * unitM;
  const y0 = (given.falsenorthing ?? 0) * unitM;
  const told = Object.entries({
    lat_0: 0,
    ...(method.proj === 'omerc' ? {} : { lon_0: 0 }),
    ...values,
  }).map(([key, value]) => `+${key}=${value}`);
  const unit = Math.abs(unitM - 1) < 1e-12 ? '+units=m' : `+to_meter=${exactUnit(unitM)}`;
  return {
    proj: [
      `+proj=${method.proj}`,
      ...told,
      `+x_0=${x0}`,
      `+y_0=${y0}`,
      method.fixed ?? '',
      unit,
      '+no_defs',
    ]
      .filter((part) => part !== '')
      .join(' '),
  };
}

/** A cone that touches has one parallel; ESRI writes it as one parallel beside the origin. */
function completeCone(values: Record<string, number>): void {
  values.lat_1 ??= values.lat_0 ?? 0;
  values.lat_2 ??= values.lat_1;
  values.lat_0 ??= values.lat_1;
}

/** US survey foot: files round 1200/3937 to 12 digits or fewer, which is 1 cm at the far end of a state. */
function exactUnit(unitM: number): number {
  const surveyFoot = 1200 / 3937;
  return Math.abs(unitM - surveyFoot) < 1e-8 ? surveyFoot : unitM;
}

function parameters(node: WktNode): Record<string, number> {
  const given: Record<string, number> = {};
  for (const { name, words, numbers } of node.children)
    if (name === 'PARAMETER' && words[0] !== undefined && numbers[0] !== undefined)
      given[bareName(words[0])] = numbers[0];
  return given;
}

function bareName(name: string): string {
  return name.toLowerCase().replace(/[^a-z0-9]/g, '');
}
