/** Several areas in the layers of the outline: which are islands, and which is the lake that was surveyed. */

import { noticeAt } from '../../../shared/findings.ts';
import type { ImportPicture, Option, PictureShape } from '../../../shared/importing.ts';
import { formatCount, formatLandArea } from '../../../shared/units.ts';
import { unionOf, withoutThese } from './mend.ts';
import type { Line } from './network.ts';
import { boxOf, isInside, ringArea } from './rings.ts';
import type { ShoreContext } from './shoreline.ts';
import { counted, sentence } from './words.ts';

export interface Lakes extends ShoreContext {
  /** waypoints in the plane */
  places: readonly (readonly number[])[];
}

const MOST_DRAWN = 40;

/** Areas within the water of a larger one, and closed contours of 0 m within it, become islands if that is the answer. */
export function chooseIslands(
  polygons: readonly Line[][],
  zeros: readonly Line[],
  lakes: Lakes,
): Line[][] {
  const measured = polygons.map((polygon) => ({
    polygon,
    area: ringArea(polygon[0]),
    box: boxOf(polygon[0]),
  }));
  const inner = measured
    .filter((each) =>
      measured.some(
        (other) =>
          other.area > each.area &&
          boxHolds(other.box, each.box) &&
          liesIn(each.polygon[0], other.polygon),
      ),
    )
    .map(({ polygon }) => polygon);
  const outer = polygons.filter((each) => !inner.includes(each));
  const areas = inner.map(([ring]) => ring);
  const asIslands =
    areas.length > 0 && askIslands('outline.islands', 'areas', areas, outer, lakes) ? areas : [];
  const rest = asIslands.length > 0 ? outer : [...polygons];
  const contours = zeros.filter((ring) =>
    rest.some((polygon) => liesIn(ring, polygon) && ringArea(ring) < 0.5 * ringArea(polygon[0])),
  );
  const fromContours =
    contours.length > 0 &&
    askIslands(
      'outline.islands-from-contours',
      'closed depth contours of 0 m',
      contours,
      rest,
      lakes,
    )
      ? contours
      : [];
  const islands = [...asIslands, ...fromContours];
  return islands.length === 0 ? rest : placedIslands(rest, islands);
}

function boxHolds(outer: readonly number[], inner: readonly number[]): boolean {
  return (
    inner[0] >= outer[0] && inner[1] >= outer[1] && inner[2] <= outer[2] && inner[3] <= outer[3]
  );
}

/** Areas that are known to be islands; those outside of every area are told. */
export function withIslands(
  polygons: readonly Line[][],
  islands: readonly Line[],
  { about, findings }: Lakes,
): Line[][] {
  if (islands.length === 0) return [...polygons];
  const inside = islands.filter((island) => polygons.some((polygon) => liesIn(island, polygon)));
  if (inside.length < islands.length)
    findings.push(
      noticeAt(
        { table: about },
        'island-outside',
        `${formatCount(islands.length - inside.length)} of ${counted(islands.length, 'island')} do not lie in the water of the outline: left out`,
      ),
    );
  return placedIslands(polygons, inside);
}

/** As inner rings where they lie apart from one another, else cut out. */
function placedIslands(polygons: readonly Line[][], islands: readonly Line[]): Line[][] {
  const apart = islands.every((a, i) =>
    islands.every((b, k) => i === k || (!isInside(a[0], b) && !isInside(b[0], a))),
  );
  if (!apart) return withoutThese(polygons, islands);
  return polygons.map((polygon) => [
    ...polygon,
    ...islands.filter((island) => liesIn(island, polygon)),
  ]);
}

function askIslands(
  id: string,
  what: string,
  rings: readonly Line[],
  around: readonly Line[][],
  { about, ask, places, toLngLat, remarks, slivers }: Lakes,
): boolean {
  const swum = places.filter((place) => rings.some((ring) => isInside(place, ring))).length;
  const areaM2 = rings.reduce((sum, ring) => sum + ringArea(ring), 0);
  const answer = ask({
    kind: 'choice',
    id,
    about,
    ask: `${counted(rings.length, 'area').replace('areas', what)} lie inside of the lake: are they islands?`,
    evidence: [
      `they take ${formatLandArea(areaM2)} of the lake's ${formatLandArea(around.reduce((sum, [ring]) => sum + ringArea(ring), 0))}`,
      places.length === 0
        ? 'no waypoint is there to compare with'
        : `${formatCount(swum)} of ${counted(places.length, 'waypoint')} lie in them`,
    ].map(sentence),
    certain: false,
    pictures: [
      mapOf('The lake and what lies inside of it', [
        ...around
          .slice(0, MOST_DRAWN)
          .map(([ring]): PictureShape => shapeOf(ring, 'lake', null, toLngLat)),
        ...rings
          .slice(0, MOST_DRAWN)
          .map((ring): PictureShape => shapeOf(ring, 'inside', null, toLngLat)),
        ...marked(slivers, around.slice(0, MOST_DRAWN), toLngLat),
      ]),
    ],
    options: [
      { value: 'islands', label: 'islands: no water' },
      { value: 'water', label: 'water, as the rest of the lake' },
    ],
    proposal: swum === 0 ? 'islands' : 'water',
  });
  if (answer === 'islands')
    remarks.push(`${about}: ${counted(rings.length, 'island')} from ${what} inside of the lake`);
  return answer === 'islands';
}

/** All of one lake where there is one area; else asked. Areas that touch or overlap become one. */
export function chooseLakes(polygons: readonly Line[][], lakes: Lakes): Line[][] {
  if (polygons.length < 2) return [...polygons];
  const { about, ask, places, toLngLat, remarks, slivers } = lakes;
  const united = unionOf(polygons);
  // areas that neither touch nor overlap stay as they were drawn
  const bodies = united.length === polygons.length ? [...polygons] : united;
  bodies.sort((a, b) => ringArea(b[0]) - ringArea(a[0]));
  if (bodies.length === 1) {
    remarks.push(
      `${about}: ${counted(polygons.length, 'area')} that touch or overlap are taken together`,
    );
    return bodies;
  }
  const counts = bodies.map(
    (polygon) => places.filter((place) => liesInPolygon(place, polygon)).length,
  );
  const held = bodies.filter((_, i) => counts[i] > 0);
  const options: Option[] = [
    {
      value: 'largest',
      label: 'the largest of them',
      because: `${formatLandArea(ringArea(bodies[0][0]))}, ${told(counts[0], places.length)}`,
    },
    { value: 'all', label: 'all of them together' },
  ];
  if (held.length > 0)
    options.unshift({
      value: 'with-waypoints',
      label:
        held.length === 1
          ? 'the one that holds waypoints'
          : `the ${held.length} that hold waypoints`,
      because: held.map((polygon) => formatLandArea(ringArea(polygon[0]))).join(', '),
    });
  const allInOne = held.length === 1 && counts.includes(places.length);
  const answer = ask({
    kind: 'choice',
    id: 'outline.lake',
    about,
    ask: `There are ${formatCount(bodies.length)} areas of water: which is the lake that was surveyed?`,
    evidence: bodies
      .slice(0, 5)
      .map(
        (polygon, i) =>
          `${formatLandArea(ringArea(polygon[0]))}: ${told(counts[i], places.length)}`,
      )
      .map(sentence),
    certain: allInOne,
    pictures: [
      mapOf('Areas of water, and the waypoints', [
        ...bodies
          .slice(0, MOST_DRAWN)
          .map(
            (polygon, i): PictureShape =>
              shapeOf(
                polygon[0],
                `${formatLandArea(ringArea(polygon[0]))}, ${told(counts[i], places.length)}`,
                null,
                toLngLat,
              ),
          ),
        ...(places.length === 0
          ? []
          : [
              {
                look: 'point' as const,
                label: 'waypoints',
                option: null,
                geometry: {
                  type: 'MultiPoint' as const,
                  coordinates: places.map((p) => [...toLngLat(p)]),
                },
              },
            ]),
        ...marked(slivers, bodies.slice(0, MOST_DRAWN), toLngLat),
      ]),
    ],
    options,
    proposal: held.length > 0 ? 'with-waypoints' : places.length > 0 ? null : 'largest',
  });
  if (answer === null) return [];
  const chosen = answer === 'all' ? bodies : answer === 'largest' ? bodies.slice(0, 1) : held;
  remarks.push(
    `${about}: of ${counted(bodies.length, 'area')} of water ${counted(chosen.length, 'area')} were taken`,
  );
  return chosen;
}

function told(count: number, all: number): string {
  return all === 0
    ? 'no waypoint to compare with'
    : `${formatCount(count)} of ${counted(all, 'waypoint')}`;
}

function liesInPolygon(place: readonly number[], [outer, ...islands]: readonly Line[]): boolean {
  return isInside(place, outer) && !islands.some((island) => isInside(place, island));
}

/** Most of a few vertices of a ring lie in the water of a polygon. */
function liesIn(ring: Line, polygon: readonly Line[]): boolean {
  const step = Math.max(1, Math.floor((ring.length - 1) / 7));
  let [within, asked] = [0, 0];
  for (let i = 0; i < ring.length - 1; i += step, asked++)
    if (liesInPolygon(ring[i], polygon)) within++;
  return within > 0.7 * asked;
}

/** Slivers are smaller than a dot of the picture: each is a mark at its first vertex. Far ones would shrink the lake to a dot. */
function marked(
  slivers: readonly Line[],
  drawn: readonly Line[][],
  toLngLat: Lakes['toLngLat'],
): PictureShape[] {
  const [west, south, east, north] = boxOf(drawn.flatMap(([ring]) => ring));
  const near = slivers.filter(([[x, y]]) => x >= west && x <= east && y >= south && y <= north);
  if (near.length === 0) return [];
  const coordinates = near.map(([first]) => [...toLngLat(first)]);
  const label = `${counted(near.length, 'sliver')} left out`;
  return [{ look: 'fault', label, option: null, geometry: { type: 'MultiPoint', coordinates } }];
}

function mapOf(caption: string, shapes: PictureShape[]): ImportPicture {
  return { kind: 'map', caption, shapes };
}

function shapeOf(
  ring: Line,
  label: string,
  option: string | null,
  toLngLat: Lakes['toLngLat'],
): PictureShape {
  return {
    look: 'area',
    label,
    option,
    geometry: { type: 'Polygon', coordinates: [ring.map((p) => [...toLngLat(p)])] },
  };
}
