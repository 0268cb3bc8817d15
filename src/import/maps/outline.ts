/** The lake's outline out of layers of areas or lines: closed, with its islands, and the one lake that was surveyed. */

import { errorAt, type Finding, noticeAt } from '../../../shared/findings.ts';
import type { Ask, ImportPicture, RawGeometry, RawLayer } from '../../../shared/importing.ts';
import type { LngLat } from '../../../shared/survey.ts';
import { formatCount } from '../../../shared/units.ts';
import { listed } from '../../../shared/words.ts';
import { planeAround } from '../plane.ts';
import { besidePlaces, isTooWide } from './beside.ts';
import { chooseIslands, chooseLakes, type Lakes, withIslands } from './lakes.ts';
import { crossings, unionOf } from './mend.ts';
import type { Line } from './network.ts';
import { nestRings, ringArea } from './rings.ts';
import { kindOf } from './shapes.ts';
import { marksPicture } from './shore-pictures.ts';
import { placeTold, ringsOfPieces, type ShoreContext } from './shoreline.ts';
import { counted } from './words.ts';

/** Fewer points enclose nothing. */
const LEAST_POINTS = 3;
/** Smaller areas are no lake and no island but slips of drawing. */
const LEAST_M2 = 1;
/** Of them so many are marked in pictures. */
const MOST_MARKED = 200;
/** A change of area by mending below this is rounding. */
const SAME_SHARE = 1e-6;

export interface OutlineMade {
  /** Polygon or MultiPolygon, longitude and latitude; null where there is none */
  outline: RawGeometry | null;
  /** what was joined, closed or left out, on the outline as it was made; empty where nothing was */
  pictures: ImportPicture[];
  findings: Finding[];
  remarks: string[];
}

/** What helps to tell the lake and its islands. All placed (longitude and latitude). */
export interface Surroundings {
  /** waypoints, by which the lake among several is known */
  near?: readonly LngLat[];
  /** layers that hold islands and nothing else */
  islands?: readonly RawLayer[];
  /** depth contours of 0 m, whose rings inside of the lake may be islands, or which are the outline where no layer is */
  zeroContours?: readonly RawLayer[];
}

/** Layers are placed (longitude and latitude). */
export function lakeOutline(
  layers: readonly RawLayer[],
  ask: Ask,
  { near = [], islands = [], zeroContours = [] }: Surroundings = {},
): OutlineMade {
  const made: OutlineMade = { outline: null, pictures: [], findings: [], remarks: [] };
  // pieces of an island's shore are joined with those of the lake
  const pieces = islands.filter(({ features }) =>
    features.every(({ geometry }) => kindOf(geometry) === 'lines'),
  );
  const given =
    layers.length > 0
      ? [...layers.map((layer) => asLine(layer, made.remarks)), ...pieces]
      : zeroContours;
  const shores = besidePlaces(given, near, made.remarks);
  const positions = shores.flatMap(({ features }) =>
    features.flatMap(({ geometry }) => linesOf(geometry).flat()),
  );
  if (positions.length === 0) {
    for (const layer of [...layers, ...islands])
      made.findings.push(
        noticeAt(
          { table: aboutOf(layer) },
          'no-outline',
          layers.length > 0
            ? 'holds neither areas nor lines: no outline comes of it'
            : 'no outline was given that these islands lie in: left out',
        ),
      );
    return made;
  }
  if (isTooWide(positions)) {
    const message =
      'its shapes reach over more than 12 degrees, farther than any lake: GIS software cuts out the lake, or waypoints of the transects tell which it is';
    made.findings.push(errorAt({ table: aboutOf(shores[0]) }, 'outline-too-wide', message));
    return made;
  }
  const plane = planeAround(positions as LngLat[]);
  const context: ShoreContext = {
    about: listed(shores.map(aboutOf), 'and'),
    ask,
    findings: made.findings,
    remarks: made.remarks,
    slivers: [],
    marks: [],
    // what was not moved is not converted back
    toLngLat: ([x, y, lon, lat]: readonly number[]): LngLat =>
      lon === undefined || lat === undefined ? plane.inverse([x, y]) : [lon, lat],
  };
  const inPlane = (line: readonly number[][]): Line =>
    line
      .map(([lon, lat]) => [...plane.forward([lon, lat]), lon, lat])
      .filter((p, i, all) => i === 0 || p[0] !== all[i - 1][0] || p[1] !== all[i - 1][1]);
  const fromLines = polygonsOfLines(shores, inPlane, context);
  const fromAreas = polygonsOfAreas(shores, inPlane, context);
  const places = near.filter((at) => !isTooWide([positions[0], at])).map((at) => plane.forward(at));
  const zeros = layers.length > 0 ? closedRings(zeroContours, inPlane) : [];
  const lakes: Lakes = { ...context, places };
  const drawn = closedRings(
    islands.filter((layer) => !pieces.includes(layer)),
    inPlane,
  );
  const nested = chooseIslands(
    withIslands([...fromAreas, ...fromLines], drawn, lakes),
    zeros,
    lakes,
  );
  const chosen = chooseLakes(nested, lakes);
  if (chosen.length === 0) {
    made.findings.push(
      errorAt(
        { table: context.about },
        'no-outline',
        'no closed line and no area came of it: the lake has no outline',
      ),
    );
    return made;
  }
  const sound = mended(chosen, context);
  const coordinates = sound.map((rings) =>
    rings.map((ring) => ring.map((p) => [...context.toLngLat(p)])),
  );
  made.outline =
    coordinates.length === 1
      ? { type: 'Polygon', coordinates: coordinates[0] }
      : { type: 'MultiPolygon', coordinates };
  made.pictures = marksPicture(made.outline, context.marks, context.toLngLat);
  return made;
}

/** Points of a shore were taken along it: their order in the file is that of the shore. Told, since nothing else says so. */
function asLine(layer: RawLayer, remarks: string[]): RawLayer {
  const places = layer.features.flatMap(({ geometry }) =>
    geometry.type === 'Point' ? [geometry.coordinates] : [],
  );
  if (places.length < LEAST_POINTS || places.length < layer.features.length) return layer;
  const [first, last] = [places[0], places.at(-1)!];
  const isClosed = first[0] === last[0] && first[1] === last[1];
  remarks.push(
    `${aboutOf(layer)}: its ${formatCount(places.length)} points are joined to a line in the order in which they stand${isClosed ? '' : ', and the last to the first'}`,
  );
  const coordinates = isClosed ? places : [...places, first];
  return {
    ...layer,
    features: [{ ...layer.features[0], geometry: { type: 'LineString', coordinates } }],
  };
}

function polygonsOfLines(
  layers: readonly RawLayer[],
  inPlane: (line: readonly number[][]) => Line,
  context: ShoreContext,
): Line[][] {
  const lines = layers.flatMap(({ features }) =>
    features
      .filter(({ geometry }) => kindOf(geometry) === 'lines')
      .flatMap(({ geometry }) => linesOf(geometry).map(inPlane)),
  );
  const long = lines.filter((line) => line.length > 1);
  return long.length === 0 ? [] : withoutSlivers(nestRings(ringsOfPieces(long, context)), context);
}

function polygonsOfAreas(
  layers: readonly RawLayer[],
  inPlane: (line: readonly number[][]) => Line,
  context: ShoreContext,
): Line[][] {
  const polygons = layers.flatMap(({ features }) =>
    features.flatMap(({ geometry }): Line[][] => {
      if (geometry.type === 'Polygon') return [geometry.coordinates.map(inPlane)];
      return geometry.type === 'MultiPolygon'
        ? geometry.coordinates.map((rings) => rings.map(inPlane))
        : [];
    }),
  );
  return withoutSlivers(polygons, context);
}

/** Of areas their outer rings, of lines the closed ones: a depth map's contours end at its edge. */
function closedRings(
  layers: readonly RawLayer[],
  inPlane: (line: readonly number[][]) => Line,
): Line[] {
  return layers
    .flatMap(({ features }) => features.flatMap(({ geometry }) => linesOf(geometry).map(inPlane)))
    .filter((line) => {
      const [first, last] = [line[0], line.at(-1)!];
      return (
        line.length > 3 &&
        first[0] === last[0] &&
        first[1] === last[1] &&
        ringArea(line) >= LEAST_M2
      );
    });
}

function withoutSlivers(
  polygons: readonly Line[][],
  { about, findings, marks, toLngLat, slivers: all }: ShoreContext,
): Line[][] {
  const slivers: Line[] = [];
  const isWhole = (ring: Line): boolean => {
    // loops of a line that crosses itself may cancel out
    if (ring.length > 3 && (ringArea(ring) >= LEAST_M2 || crossings([ring]).length > 0))
      return true;
    slivers.push(ring);
    return false;
  };
  const kept = polygons
    .filter(([outer]) => isWhole(outer))
    .map(([outer, ...islands]) => [outer, ...islands.filter(isWhole)]);
  if (slivers.length > 0) {
    const message = `${counted(slivers.length, 'sliver')} of less than ${LEAST_M2} m², the first at ${placeTold(toLngLat(slivers[0][0]) as LngLat)}: left out`;
    findings.push(noticeAt({ table: about }, 'outline-sliver', message));
    for (const sliver of slivers.slice(0, MOST_MARKED)) all.push(sliver);
    marks.push({ what: `sliver of less than ${LEAST_M2} m², left out`, lines: slivers });
  }
  return kept;
}

/** Outlines that cross themselves are cut into sound ones; what that changes is told. */
function mended(
  polygons: readonly Line[][],
  { about, findings, marks, toLngLat }: ShoreContext,
): Line[][] {
  return polygons.flatMap((rings) => {
    const crossed = crossings(rings);
    if (crossed.length === 0) return [rings];
    const sound = unionOf([rings]);
    const [before, after] = [areaOf([rings]), areaOf(sound)];
    const change =
      Math.abs(after - before) < SAME_SHARE * before
        ? 'without a change of its area'
        : `its area is ${Math.round(after)} m² after that, ${Math.round(before)} m² by its line`;
    const message = `its line crosses itself at ${counted(crossed.length, 'place')}, the first at ${placeTold(toLngLat(crossed[0]) as LngLat)}: mended by its outer edges, ${change}`;
    findings.push(noticeAt({ table: about }, 'outline-crosses-itself', message));
    marks.push({ what: 'place where the line crossed itself', lines: crossed.map((at) => [at]) });
    return sound;
  });
}

function areaOf(polygons: readonly Line[][]): number {
  return polygons.reduce(
    (sum, [outer, ...islands]) =>
      sum + ringArea(outer) - islands.reduce((s, island) => s + ringArea(island), 0),
    0,
  );
}

function linesOf(geometry: RawGeometry): number[][][] {
  switch (geometry.type) {
    case 'LineString':
      return [geometry.coordinates];
    case 'MultiLineString':
    case 'Polygon':
      return geometry.coordinates;
    case 'MultiPolygon':
      return geometry.coordinates.flat();
    default:
      return [];
  }
}

function aboutOf({ file, layer }: RawLayer): string {
  return layer === null ? file : `${file}, layer ${layer}`;
}
