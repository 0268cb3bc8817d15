/** An area on its lake, as lines to draw: a picture of a few hundred pixels, north up. */

import { extent } from '../../shared/extent.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { LngLat, LngLatPolygon, XY } from '../../shared/survey.ts';
import { type ScaleBar, scaleBarWithin } from './scale-bar.ts';

export interface AreaPicture {
  width: number;
  height: number;
  /** rings as pixels */
  shore: XY[][];
  area: XY[][];
  scale: ScaleBar;
  /** length of the scale bar */
  scalePx: number;
  /** clockwise from up */
  northDeg: number;
  alt: string;
}

const SIDE_PX = 640;
const HIGHEST_PX = 420;
const MARGIN_PX = 14;
/** Share of the width that a scale bar takes at most. */
const SCALE_SHARE = 0.25;

/** Draws one area after the other on the same lake. */
export function areaPictures({
  lake,
  plane,
}: Pick<SurveyResult, 'lake' | 'plane'>): (polygons: readonly LngLatPolygon[]) => AreaPicture {
  const inPlane = (ring: readonly LngLat[]): XY[] => ring.map((p) => plane.forward(p));
  const shore = (lake.outline ?? []).flatMap((rings) => rings.map(inPlane));
  const northDeg = -plane.convergenceDeg([plane.lon0, plane.lat0]);
  return (polygons) => {
    const area = polygons.flatMap((rings) => rings.map(inPlane));
    return pictureOf(shore, area, northDeg);
  };
}

function pictureOf(shore: XY[][], area: XY[][], northDeg: number): AreaPicture {
  const all = [...shore, ...area].flat();
  const [west, east] = extent(all.map(([x]) => x));
  const [south, north] = extent(all.map(([, y]) => y));
  const pxPerM = Math.min(
    (SIDE_PX - 2 * MARGIN_PX) / Math.max(1, east - west),
    (HIGHEST_PX - 2 * MARGIN_PX) / Math.max(1, north - south),
  );
  const toPx = ([x, y]: XY): XY => [
    MARGIN_PX + (x - west) * pxPerM,
    MARGIN_PX + (north - y) * pxPerM,
  ];
  const drawn = (rings: XY[][]): XY[][] => rings.map((ring) => thinned(ring.map(toPx)));
  const width = Math.ceil((east - west) * pxPerM + 2 * MARGIN_PX);
  const scale = scaleBarWithin((SCALE_SHARE * width) / pxPerM, 'metric');
  return {
    width,
    height: Math.ceil((north - south) * pxPerM + 2 * MARGIN_PX),
    shore: drawn(shore),
    area: drawn(area),
    scale,
    scalePx: scale.lengthM * pxPerM,
    northDeg,
    alt: 'The area on the lake, north up',
  };
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
