/** Pictures of a shoreline: beside its questions, and of what was joined, closed and left out without one. */

import {
  type ImportPicture,
  type PictureShape,
  positionsOf,
  type RawGeometry,
} from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import type { Bridge } from './bridge.ts';
import type { Line } from './network.ts';
import { boxOf } from './rings.ts';
import { formatDistance } from './words.ts';

/** Of one kind so many are drawn. */
export const MOST_DRAWN = 60;
const MOST_MARKED = 200;

type ToLngLat = (position: readonly number[]) => [number, number];

/** What was done to the drawing on the way to the outline. */
export interface Mark {
  what: string;
  lines: Line[];
}

/** The outline with every place where something was joined, closed or left out; none where nothing was. */
export function marksPicture(
  outline: RawGeometry,
  marks: readonly Mark[],
  toLngLat: ToLngLat,
): ImportPicture[] {
  if (marks.length === 0) return [];
  return [
    {
      kind: 'map',
      caption: 'The outline of the lake, and what was joined, closed or left out of its drawing',
      shapes: [
        { look: 'area', label: 'outline of the lake', option: null, geometry: outline },
        ...marks.flatMap((mark) => shapesOf(mark, boxAround(outline), toLngLat)),
      ],
    },
  ];
}

/** The outline's box and a tenth of it around: what lies farther would shrink the lake to a dot. */
function boxAround(outline: RawGeometry): [number, number, number, number] {
  const [west, south, east, north] = boxOf(positionsOf(outline));
  const [wide, high] = [(east - west) / 10, (north - south) / 10];
  return [west - wide, south - high, east + wide, north + high];
}

/** Each with a dot at its first vertex: most are smaller than a line can show. */
function shapesOf(
  { what, lines }: Mark,
  [west, south, east, north]: readonly [number, number, number, number],
  toLngLat: ToLngLat,
): PictureShape[] {
  const near = lines.filter(([first]) => {
    const [lon, lat] = toLngLat(first);
    return lon >= west && lon <= east && lat >= south && lat <= north;
  });
  if (near.length === 0) return [];
  const drawn = near.slice(0, MOST_MARKED);
  const long = drawn.filter((line) => line.length > 1);
  const far = lines.length - near.length;
  const label = `${formatCount(near.length)} × ${what}${far === 0 ? '' : ` (${formatCount(far)} more far from the lake)`}`;
  const dots: PictureShape = {
    look: 'fault',
    label,
    option: null,
    geometry: { type: 'MultiPoint', coordinates: drawn.map(([first]) => toLngLat(first)) },
  };
  if (long.length === 0) return [dots];
  const coordinates = long.map((line) => line.map(toLngLat));
  const strokes = { look: 'fault', label: '', option: null } as const;
  return [dots, { ...strokes, geometry: { type: 'MultiLineString', coordinates } }];
}

export function gapsPicture(
  open: readonly Line[],
  bridges: readonly Bridge[],
  toLngLat: ToLngLat,
): ImportPicture[] {
  const line = (positions: readonly number[][]): RawGeometry => ({
    type: 'LineString',
    coordinates: positions.map(toLngLat),
  });
  return [
    {
      kind: 'map',
      caption: 'Lines that do not close, and the gaps between their ends',
      shapes: [
        ...open.slice(0, MOST_DRAWN).map(
          (each): PictureShape => ({
            look: 'line',
            label: 'shoreline',
            option: null,
            geometry: line(each),
          }),
        ),
        ...bridges.slice(0, MOST_DRAWN).map(
          ({ from, to, lengthM }): PictureShape => ({
            look: 'fault',
            label: `gap of ${formatDistance(lengthM)}`,
            option: null,
            geometry: line([from, to]),
          }),
        ),
      ],
    },
  ];
}

export function pictureOf(
  caption: string,
  lines: readonly Line[],
  faults: readonly Line[],
  toLngLat: ToLngLat,
): ImportPicture[] {
  const shapes = (list: readonly Line[], look: 'line' | 'fault', label: string): PictureShape[] =>
    list.length === 0
      ? []
      : [
          {
            look,
            label,
            option: null,
            geometry: {
              type: 'MultiLineString',
              coordinates: list.map((each) => each.map(toLngLat)),
            },
          },
        ];
  return [
    {
      kind: 'map',
      caption,
      shapes: [
        ...shapes(lines, 'line', 'piece of the shoreline'),
        ...shapes(faults, 'fault', 'does not close'),
      ],
    },
  ];
}

export function ringShape(ring: Line, toLngLat: ToLngLat): RawGeometry {
  return { type: 'Polygon', coordinates: [ring.map(toLngLat)] };
}
