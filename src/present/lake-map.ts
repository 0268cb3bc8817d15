/**
 * The lake's map for paper: the raster of its looks, the shore, the transects and the treatment areas, in metres from the
 * map's north-west corner; and its title, scale, legend and credit in words.
 */

import { extent } from '../../shared/extent.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { LngLatPolygon, Plane, XY } from '../../shared/survey.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { placeAndTime, type ReportWords } from './front-page.ts';
import { type FurtherMap, furtherMaps } from './further-maps.ts';
import {
  classesBetween,
  type LakeRaster,
  LOOK,
  lakeRaster,
  type MapClass,
  UNSURE,
} from './lake-raster.ts';
import { CLASS_BREAKS, UNSURE_RATIO } from './ramp.ts';
import { type ScaleBar, scaleBarWithin } from './scale-bar.ts';

/** Vertices of shore and areas closer than this share of the map's longer side are left out: half a dot. */
const THINNED = 1 / 1500;
/** Land around the lake, as a share of the longer side. */
const MARGIN = 0.03;
/** The scale bar takes at most this share of the width. */
const BAR = 0.3;

export interface LakeMap {
  /** what the map shows of which lake, surveyed when */
  title: string;
  /** for readers who do not see it */
  described: string;
  widthM: number;
  heightM: number;
  /** square cells of `cellM`, row by row from the top, `x0` and `y0` from the corner of the map */
  raster: LakeRaster & { x0: number; y0: number };
  /** closed rings: shore and islands */
  shore: XY[][];
  areas: { name: string; rings: XY[][]; label: XY }[];
  transects: { from: XY; to: XY; detected: boolean }[];
  scale: ScaleBar;
  /** direction of true north on the map, degrees clockwise from up */
  northDeg: number;
  /** classes that are on the map or between such, in order */
  classes: MapClass[];
  /** false where nothing of it is on the map */
  has: Record<keyof LakeMap['words'], boolean>;
  words: {
    unsure: string;
    outside: string;
    noDensity: string;
    searched: string;
    empty: string;
    area: string;
  };
  north: string;
  /** the same bed by other numbers */
  further: FurtherMap[];
  /** what the maps of the lake are */
  note: string;
}

type MapInput = Pick<
  SurveyResult,
  'estimate' | 'analysis' | 'lake' | 'plane' | 'placed' | 'bed' | 'surface' | 'survey'
>;

/** In the words of the report's first page. Null without an outline or without the bed's grid. */
export function lakeMap(
  result: MapInput,
  words: ReportWords,
  units: UnitSystem = 'metric',
): LakeMap | null {
  const { lake, plane, bed, surface, placed, survey } = result;
  if (lake.outline === null || bed === null || surface === null) return null;
  const { frame } = bed;
  const sideM = Math.max(frame.nx, frame.ny) * frame.cellM;
  if (!(sideM > 0)) return null;
  const margin = sideM * MARGIN;
  const corner: XY = [frame.x0 - margin, frame.y0 + margin];
  const from = ([x, y]: XY): XY => [x - corner[0], corner[1] - y];
  const raster = lakeRaster({ bed, surface, analysis: result.analysis, estimate: result.estimate });
  const present = new Set(raster.looks);
  const classes = classesBetween(present).map((c) => ({ ...c, words: classWords(c.look, words) }));
  const found = new Set(survey.detections.map((d) => d.transect));
  const transects = placed.map((p) => ({
    from: from(p.start),
    to: from(p.end),
    detected: found.has(p.transect.transect),
  }));
  const areas = lake.treatments.map((area) => {
    const rings = thinnedRings(area.polygons, plane, from, sideM * THINNED);
    return { name: area.name, rings, label: middle(rings[0] ?? []) };
  });
  const widthM = frame.nx * frame.cellM + 2 * margin;
  return {
    title: words.say('mapTitle', placeAndTime(result, words)),
    described: describe(
      result.estimate.lake,
      raster.looks,
      classes,
      areas.map((a) => a.name),
      words,
    ),
    widthM,
    heightM: frame.ny * frame.cellM + 2 * margin,
    raster: { ...raster, x0: margin, y0: margin },
    shore: thinnedRings(lake.outline, plane, from, sideM * THINNED),
    areas,
    transects,
    scale: scaleBarWithin(widthM * BAR, units),
    northDeg: -plane.convergenceDeg([plane.lon0, plane.lat0]),
    classes,
    has: {
      unsure: [...present].some((look) => look >= LOOK.firstClass + UNSURE),
      outside: present.has(LOOK.outside),
      noDensity: present.has(LOOK.noDensity),
      searched: transects.some((t) => t.detected),
      empty: transects.some((t) => !t.detected),
      area: areas.length > 0,
    },
    words: {
      unsure: words.say('mapUnsure', { ratio: UNSURE_RATIO }),
      outside: words.say('mapOutside'),
      noDensity: words.say('mapNothing'),
      searched: words.say('mapTransect'),
      empty: words.say('mapEmptyTransect'),
      area: words.say('mapArea'),
    },
    north: words.say('north'),
    further: furtherMaps(result),
    note: words.say('mapNote'),
  };
}

/** `0.2 to 1` */
function classWords(look: number, words: ReportWords): string {
  const k = look - LOOK.firstClass;
  const at = (i: number) => words.number(CLASS_BREAKS[i]);
  if (k === 0) return words.say('classBelow', { to: at(0) });
  if (k === CLASS_BREAKS.length) return words.say('classAbove', { from: at(k - 1) });
  return words.say('classBetween', { from: at(k - 1), to: at(k) });
}

/** Each class with its share of what has a class; then the treatment areas. */
function describe(
  lake: string,
  looks: Uint8Array,
  classes: MapClass[],
  areas: string[],
  words: ReportWords,
): string {
  const counts = new Map<number, number>();
  for (const look of looks) counts.set(look, (counts.get(look) ?? 0) + 1);
  const of = (look: number) => (counts.get(look) ?? 0) + (counts.get(look + UNSURE) ?? 0);
  const all = classes.reduce((sum, c) => sum + of(c.look), 0);
  const shares = classes.map((c) =>
    words.say('mapShare', { class: c.words, share: Math.round((100 * of(c.look)) / all) }),
  );
  return [
    shares.length === 0
      ? words.say('mapDescribedBare', { lake })
      : words.say('mapDescribed', { lake, shares: shares.join(', ') }),
    ...(areas.length === 0 ? [] : [words.say('mapAreasDescribed', { areas: areas.join(', ') })]),
  ].join(' ');
}

function thinnedRings(
  polygons: readonly LngLatPolygon[],
  plane: Plane,
  from: (p: XY) => XY,
  leastM: number,
): XY[][] {
  return polygons.flatMap((rings) =>
    rings
      .map((ring) =>
        thinned(
          ring.map((p) => from(plane.forward(p))),
          leastM,
        ),
      )
      .filter((ring) => ring.length > 2),
  );
}

/** Vertices at least so far from the last one that was kept. */
function thinned(ring: XY[], leastM: number): XY[] {
  const kept: XY[] = [];
  for (const p of ring) {
    const last = kept.at(-1);
    if (last === undefined || Math.hypot(p[0] - last[0], p[1] - last[1]) >= leastM) kept.push(p);
  }
  return kept;
}

/** The middle of a ring's box. */
function middle(ring: XY[]): XY {
  const of = (axis: 0 | 1) => {
    const [least, most] = extent(ring.map((p) => p[axis]));
    return (least + most) / 2;
  };
  return ring.length === 0 ? [0, 0] : [of(0), of(1)];
}
