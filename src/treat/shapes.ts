/** Shapes of areas made from others: wider or narrower by a width, two joined, one cut out of another. */

import type { XY, XYPolygon } from '../../shared/survey.ts';

/** Metres of one degree on the sphere of the library that makes buffers (IUGG mean radius 6,371,008.8 m). */
const M_PER_DEGREE = (6_371_008.8 * Math.PI) / 180;
/** Corners of a quarter of a circle. */
const ARC_STEPS = 6;

/**
 * The area with all that lies within `widthM` of it; a width below 0 takes so much off from its border inward. The library
 * works in degrees on a sphere: the area is laid around 0°, 0°, where a few kilometres of degrees are flat to 1e-6.
 * @param polygons in a plane, closed rings @param widthM not 0
 * @returns no polygon where nothing is left
 */
export async function buffered(
  polygons: readonly XYPolygon[],
  widthM: number,
): Promise<XYPolygon[]> {
  if (!Number.isFinite(widthM) || widthM === 0)
    throw new RangeError(`got a width of ${widthM} m, expected a number other than 0`);
  const { buffer, multiPolygon } = await import('@turf/turf');
  const [x0, y0] = polygons[0]?.[0]?.[0] ?? [0, 0];
  const small = moved(polygons, ([x, y]) => [(x - x0) / M_PER_DEGREE, (y - y0) / M_PER_DEGREE]);
  const made = buffer(multiPolygon(small), widthM, { units: 'meters', steps: ARC_STEPS });
  const back = ([lon, lat]: XY): XY => [lon * M_PER_DEGREE + x0, lat * M_PER_DEGREE + y0];
  return made === undefined ? [] : moved(polygonsOf(made.geometry), back);
}

/** All that lies in either of the two. */
export async function joined(
  a: readonly XYPolygon[],
  b: readonly XYPolygon[],
): Promise<XYPolygon[]> {
  const { featureCollection, multiPolygon, union } = await import('@turf/turf');
  const made = union(featureCollection([multiPolygon([...a]), multiPolygon([...b])]));
  return made === null ? [] : polygonsOf(made.geometry);
}

/** What of `area` does not lie in `other`; no polygon where nothing is left. */
export async function cutFrom(
  area: readonly XYPolygon[],
  other: readonly XYPolygon[],
): Promise<XYPolygon[]> {
  const { difference, featureCollection, multiPolygon } = await import('@turf/turf');
  const made = difference(featureCollection([multiPolygon([...area]), multiPolygon([...other])]));
  return made === null ? [] : polygonsOf(made.geometry);
}

function polygonsOf(geometry: {
  type: 'Polygon' | 'MultiPolygon';
  coordinates: number[][][] | number[][][][];
}): XYPolygon[] {
  return geometry.type === 'Polygon'
    ? [geometry.coordinates as XYPolygon]
    : (geometry.coordinates as XYPolygon[]);
}

function moved(polygons: readonly XYPolygon[], by: (p: XY) => XY): XYPolygon[] {
  return polygons.map((rings) => rings.map((ring) => ring.map(by)));
}
