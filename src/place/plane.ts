/**
 * The lake's local plane: Lambert azimuthal equal-area on WGS 84. Areas are exact everywhere in it, so no zones are
 * needed. At a distance d from the centre lengths are off by less than c²/8 + e²c/6, c = d/R, and directions by twice
 * that in radians: 1.7e-5 and 0.002° at 50 km (seen against geodesics in tests/published/geodesics.test.ts).
 *
 * Source of the projection: J. P. Snyder, Map Projections: A Working Manual, USGS Professional Paper 1395 (1987), ch. 24.
 */

import proj4 from 'proj4';
import type { Lake, LngLat, Plane, Survey, XY } from '../../shared/survey.ts';

/** The centre is rounded to this many decimals of a degree (0.1 m), so that the PROJ string holds it exactly. */
const CENTRE_DECIMALS = 6;
/** Half the step along the meridian for the convergence, 111 m: curvature and rounding both below 1e-10 degrees. */
const MERIDIAN_STEP_DEG = 0.001;
/** A degree in radians. */
const DEGREE = Math.PI / 180;

/**
 * The plane centred on the outline's bounding box, without an outline on the mean start point.
 * The box depends on the extreme vertices alone: neither their order nor more vertices between them move it.
 * Longitudes are taken the short way round, so lakes across ±180° are one piece.
 * Throws when there is neither an outline nor a transect.
 */
export function makePlane(lake: Lake, survey: Survey): Plane {
  const [lon0, lat0] = centre(lake, survey);
  // without +x_0 and +y_0 proj4 gives NaN for this projection
  const proj = `+proj=laea +lat_0=${lat0} +lon_0=${lon0} +x_0=0 +y_0=0 +datum=WGS84 +units=m +no_defs`;
  const converter = proj4(proj);
  const projection = new proj4.Proj(proj);

  /** By the projection alone: a map has millions of vertices, and plane and maps share their datum. */
  function forward(p: LngLat): XY {
    const of = { x: p[0] * DEGREE, y: p[1] * DEGREE };
    if (Number.isFinite(of.x) && Number.isFinite(of.y)) {
      // null on the antipode, which the types do not say
      const at: { x: number; y: number } | null = projection.forward(of);
      if (at !== null && Number.isFinite(at.x) && Number.isFinite(at.y)) return [at.x, at.y];
    }
    throw notShown('forward', p, proj);
  }
  function inverse(p: XY): LngLat {
    // proj4's series for the latitude is good to 0.5 mm; one correction brings it to rounding error
    const first = finite(() => converter.inverse([p[0], p[1]]), p, proj);
    const [x, y] = forward(first);
    const corrected: XY = [2 * p[0] - x, 2 * p[1] - y];
    return finite(() => converter.inverse(corrected), p, proj);
  }
  /** The angle from true north to grid north, clockwise: positive when grid north lies east of true north. */
  function convergenceDeg(p: LngLat): number {
    const [x1, y1] = forward([p[0], Math.max(-90, p[1] - MERIDIAN_STEP_DEG)]);
    const [x2, y2] = forward([p[0], Math.min(90, p[1] + MERIDIAN_STEP_DEG)]);
    // true north has grid bearing −convergence
    return (-Math.atan2(x2 - x1, y2 - y1) * 180) / Math.PI;
  }
  return { lon0, lat0, proj, forward, inverse, convergenceDeg };
}

function centre(lake: Lake, survey: Survey): LngLat {
  const vertices = (lake.outline ?? []).flat(2);
  if (vertices.length > 0) {
    const [west, east] = range(unwrap(vertices.map((v) => v[0])));
    const [south, north] = range(vertices.map((v) => v[1]));
    return rounded((west + east) / 2, (south + north) / 2);
  }
  const n = survey.transects.length;
  if (n === 0) throw new Error('makePlane: got no outline and no transect, expected one of them');
  const lons = unwrap(survey.transects.map((t) => t.startLon));
  return rounded(sum(lons) / n, sum(survey.transects.map((t) => t.startLat)) / n);
}

/** Summed in order of size, so that the order of the transects does not show in the last digit. */
function sum(values: number[]): number {
  return [...values].sort((a, b) => a - b).reduce((a, b) => a + b, 0);
}

/** Longitudes within 180° of the first one. */
function unwrap(lons: number[]): number[] {
  const first = lons[0];
  return lons.map((lon) => lon - 360 * Math.round((lon - first) / 360));
}

function range(values: number[]): [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (const v of values) {
    if (v < low) low = v;
    if (v > high) high = v;
  }
  return [low, high];
}

function rounded(lon: number, lat: number): LngLat {
  const wrapped = lon - 360 * Math.round(lon / 360);
  return [Number(wrapped.toFixed(CENTRE_DECIMALS)), Number(lat.toFixed(CENTRE_DECIMALS))];
}

function finite(convert: () => number[], p: XY, proj: string): LngLat {
  let q: number[] = [];
  try {
    q = convert();
  } catch {
    // proj4 fails with an error of its own making; the one below says what it was about
  }
  const [x, y] = q;
  if (x === undefined || y === undefined || !Number.isFinite(x) || !Number.isFinite(y))
    throw notShown('inverse', p, proj);
  return [x, y];
}

function notShown(name: string, p: XY | LngLat, proj: string): Error {
  return new Error(`plane.${name}: got (${p[0]}, ${p[1]}), expected a point that ${proj} can show`);
}
