/** Areas on their lake, as lines to draw: a picture of a few hundred pixels, north up; one area, or all of them by name. */

import { extent } from '../../shared/extent.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { LngLat, LngLatPolygon, XY } from '../../shared/survey.ts';
import { type ScaleBar, scaleBarWithin } from './scale-bar.ts';

export interface AreaPicture {
  width: number;
  height: number;
  /** rings as pixels */
  shore: XY[][];
  areas: AreaShape[];
  scale: ScaleBar;
  /** length of the scale bar */
  scalePx: number;
  /** clockwise from up */
  northDeg: number;
  alt: string;
}

export interface AreaShape {
  rings: XY[][];
  /** where its name stands, centred; null where it has none */
  name: { text: string; at: XY } | null;
  /** drawn stronger than the others */
  strong: boolean;
}

interface Named {
  name: string;
  polygons: readonly LngLatPolygon[];
}

const SIDE_PX = 640;
const HIGHEST_PX = 420;
const MARGIN_PX = 14;
/** Share of the width that a scale bar takes at most. */
const SCALE_SHARE = 0.25;
/** Names nearer to each other than this would touch. */
const NAME_PX = 90;
const LINE_PX = 16;

type Lake = Pick<SurveyResult, 'lake' | 'plane'>;

/** Draws one area after the other on the same lake. */
export function areaPictures(lake: Lake): (polygons: readonly LngLatPolygon[]) => AreaPicture {
  const draw = drawingOf(lake);
  return (polygons) =>
    draw([{ name: null, polygons, strong: true }], 'The area on the lake, north up');
}

/**
 * All areas on one lake, by name.
 * @param strong drawn stronger, the last of them on top
 */
export function areasPicture(
  lake: Lake,
  plain: readonly Named[],
  strong: readonly Named[],
): AreaPicture {
  const areas = [
    ...plain.map((area) => ({ ...area, strong: false })),
    ...strong.map((area) => ({ ...area, strong: true })),
  ];
  const names = areas.map(({ name }) => name).join(', ');
  return drawingOf(lake)(areas, `The lake, north up, with ${names}`);
}

function drawingOf({ lake, plane }: Lake) {
  const inPlane = (ring: readonly LngLat[]): XY[] => ring.map((p) => plane.forward(p));
  const shore = (lake.outline ?? []).flatMap((rings) => rings.map(inPlane));
  const northDeg = -plane.convergenceDeg([plane.lon0, plane.lat0]);
  return (
    areas: readonly (Omit<Named, 'name'> & { name: string | null; strong: boolean })[],
    alt: string,
  ): AreaPicture => {
    const rings = areas.map(({ polygons }) => polygons.flatMap((p) => p.map(inPlane)));
    const { toPx, width, height, pxPerM } = frameOf([...shore, ...rings.flat()].flat());
    const drawn = (these: XY[][]): XY[][] => these.map((ring) => thinned(ring.map(toPx)));
    const scale = scaleBarWithin((SCALE_SHARE * width) / pxPerM, 'metric');
    const taken: XY[] = [];
    return {
      width,
      height,
      shore: drawn(shore),
      areas: areas.map(({ name, strong }, i) => {
        const own = drawn(rings[i]);
        return {
          rings: own,
          strong,
          name: name === null ? null : { text: name, at: placeFor(own, taken) },
        };
      }),
      scale,
      scalePx: scale.lengthM * pxPerM,
      northDeg,
      alt,
    };
  };
}

function frameOf(all: readonly XY[]) {
  const [west, east] = extent(all.map(([x]) => x));
  const [south, north] = extent(all.map(([, y]) => y));
  const pxPerM = Math.min(
    (SIDE_PX - 2 * MARGIN_PX) / Math.max(1, east - west),
    (HIGHEST_PX - 2 * MARGIN_PX) / Math.max(1, north - south),
  );
  return {
    pxPerM,
    toPx: ([x, y]: XY): XY => [MARGIN_PX + (x - west) * pxPerM, MARGIN_PX + (north - y) * pxPerM],
    width: Math.ceil((east - west) * pxPerM + 2 * MARGIN_PX),
    height: Math.ceil((north - south) * pxPerM + 2 * MARGIN_PX),
  };
}

/** The middle of the first ring, or as far below it as no other name stands there. */
function placeFor([first = []]: readonly XY[][], taken: XY[]): XY {
  const [left, right] = extent(first.map(([x]) => x));
  const [top, bottom] = extent(first.map(([, y]) => y));
  const at: XY = [(left + right) / 2, (top + bottom) / 2];
  while (taken.some(([x, y]) => Math.abs(x - at[0]) < NAME_PX && Math.abs(y - at[1]) < LINE_PX))
    at[1] += LINE_PX / 2;
  taken.push(at);
  return at;
}

/** Without the points that lie within half a pixel of the last one kept. */
function thinned(ring: readonly XY[]): XY[] {
  const kept: XY[] = [];
  for (const [i, p] of ring.entries()) {
    const last = kept.at(-1);
    if (
      last === undefined ||
      i === ring.length - 1 ||
      Math.hypot(p[0] - last[0], p[1] - last[1]) >= 0.5
    )
      kept.push(p);
  }
  return kept;
}
