/** A plan on its lake, as lines to draw: shore, places where nobody may dive, planned transects with their names. */

import { extent } from '../../shared/extent.ts';
import { term, terms } from '../../shared/glossary.ts';
import type { PlanFile } from '../../shared/planning.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { LngLat, XY } from '../../shared/survey.ts';
import { type ScaleBar, scaleBarWithin } from './scale-bar.ts';

/** The lake that a plan is drawn on. */
export type PlanLake = Pick<SurveyResult, 'lake' | 'plane' | 'placed'>;

export interface PlanPicture {
  title: string;
  described: string;
  width: number;
  height: number;
  /** rings as pixels */
  shore: XY[][];
  noDive: XY[][];
  /** transects of the survey, pale */
  dived: [from: XY, to: XY][];
  planned: { name: string; from: XY; to: XY }[];
  scale: ScaleBar;
  scalePx: number;
  /** clockwise from up */
  northDeg: number;
  words: { planned: string; dived: string; noDive: string; north: string };
}

const SIDE_PX = 960;
const HIGHEST_PX = 760;
const MARGIN_PX = 24;
const SCALE_SHARE = 0.25;
/** A rope of a few pixels is drawn as long as this. */
const LEAST_PX = 12;

export function planPicture(plan: PlanFile, { lake, plane, placed }: PlanLake): PlanPicture {
  const inPlane = (p: LngLat): XY => plane.forward(p);
  const shore = (lake.outline ?? []).flatMap((rings) => rings.map((r) => r.map(inPlane)));
  const noDive = plan.no_dive.flatMap((rings) => rings.map((r) => r.map(inPlane)));
  const all = [
    ...shore.flat(),
    ...plan.transects.flatMap((t) => [inPlane(t.start), inPlane(t.end)]),
  ];
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
  const width = Math.ceil((east - west) * pxPerM + 2 * MARGIN_PX);
  const scale = scaleBarWithin((SCALE_SHARE * width) / pxPerM, 'metric');
  return {
    title: `Planned ${terms('transect')} on ${plan.lake}`,
    described: `The lake, north up, with ${plan.transects.length} planned ${terms('transect')} by name.`,
    width,
    height: Math.ceil((north - south) * pxPerM + 2 * MARGIN_PX),
    shore: shore.map((r) => thinned(r.map(toPx))),
    noDive: noDive.map((r) => thinned(r.map(toPx))),
    dived: placed.map((p) => seen(toPx(p.start), toPx(p.end))),
    planned: plan.transects.map((t) => {
      const [from, to] = seen(toPx(inPlane(t.start)), toPx(inPlane(t.end)));
      return { name: t.transect, from, to };
    }),
    scale,
    scalePx: scale.lengthM * pxPerM,
    northDeg: -plane.convergenceDeg([plane.lon0, plane.lat0]),
    words: {
      planned: `Planned ${term('transect')}, from the ring outwards`,
      dived: `${term('transect')} of this survey, dived`,
      noDive: 'Nobody may dive here',
      north: 'North',
    },
  };
}

/** From its start in its direction, long enough to be seen. */
function seen(from: XY, to: XY): [XY, XY] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(dx, dy);
  if (length === 0 || length >= LEAST_PX) return [from, to];
  const times = LEAST_PX / length;
  return [from, [from[0] + times * dx, from[1] + times * dy]];
}

/** Without the points that lie within half a pixel of the last one kept. */
function thinned(ring: readonly XY[]): XY[] {
  return ring.filter((p, i) => {
    if (i === 0 || i === ring.length - 1) return true;
    const q = ring[i - 1];
    return Math.hypot(p[0] - q[0], p[1] - q[1]) >= 0.5;
  });
}
