/** Where the lakes of a programme lie, ready to be drawn: places within a square, a scale, and what the marks mean. */

import type { BatchFile, LakeNumbers } from '../../shared/batch.ts';
import { extent } from '../../shared/extent.ts';
import { terms } from '../../shared/glossary.ts';
import { type ScaleBar, scaleBarWithin } from './scale-bar.ts';

export type LakeLook = 'found' | 'none' | 'no-number';

export interface LakesMap {
  /** from west to east and from north to south as a share of the width */
  places: { name: string; x: number; y: number; look: LakeLook }[];
  /** as a share of the width */
  height: number;
  /** of the looks that are there */
  key: { look: LakeLook; words: string }[];
  /** null where all lie in one place */
  scale: (ScaleBar & { share: number }) | null;
  /** to those who do not see it */
  described: string;
}

/** Of a degree along a meridian, to 1 %: what a drawing of this size shows. */
const M_PER_DEGREE = 111_200;
/** The scale bar takes at most this share of the side. */
const BAR = 0.3;
/** Lakes nearer to each other than this share no distance that could be drawn. */
const LEAST_SPAN_M = 1;
/** Of lakes in a row from west to east. */
const LEAST_HEIGHT = 0.25;

const WORDS: Record<LakeLook, string> = {
  found: `${terms('mussel')} found`,
  none: 'none detected',
  'no-number': 'found, but no number for the whole lake',
};

/** Lakes without an outline have no place on it; null with fewer than two that have one. */
export function readLakesMap(
  lakes: BatchFile['lakes'],
  nameOf: (lake: BatchFile['lakes'][number]) => string,
): LakesMap | null {
  const placed = lakes.flatMap((lake) => {
    const middle = lake.numbers?.middle ?? null;
    return lake.numbers === null || middle === null
      ? []
      : [{ name: nameOf(lake), middle, look: lookOf(lake.numbers) }];
  });
  if (placed.length < 2) return null;
  const latitude = placed.reduce((sum, { middle }) => sum + middle[1], 0) / placed.length;
  const squeeze = Math.cos((latitude * Math.PI) / 180);
  const xs = placed.map(({ middle }) => middle[0] * squeeze * M_PER_DEGREE);
  const ys = placed.map(({ middle }) => middle[1] * M_PER_DEGREE);
  const [west, east] = extent(xs);
  const [south, north] = extent(ys);
  const spanM = Math.max(east - west, north - south);
  const height =
    spanM < LEAST_SPAN_M ? LEAST_HEIGHT : Math.max(LEAST_HEIGHT, (north - south) / spanM);
  const share = (m: number, ownM: number, room: number): number =>
    room / 2 + (spanM < LEAST_SPAN_M ? 0 : (m - ownM / 2) / spanM);
  const bar = spanM < LEAST_SPAN_M ? null : scaleBarWithin(BAR * spanM, 'metric');
  return {
    places: placed.map(({ name, look }, i) => ({
      name,
      look,
      x: share(xs[i] - west, east - west, 1),
      y: share(north - ys[i], north - south, height),
    })),
    height,
    key: (Object.keys(WORDS) as LakeLook[])
      .filter((look) => placed.some((p) => p.look === look))
      .map((look) => ({ look, words: WORDS[look] })),
    scale: bar === null ? null : { ...bar, share: bar.lengthM / spanM },
    described: `${placed.map(({ name, look }) => `${name}: ${WORDS[look]}`).join('; ')}. North is up.`,
  };
}

function lookOf({ detections, mussels, surveyed_m2: surveyedM2 }: LakeNumbers): LakeLook {
  if (detections === 0) return 'none';
  return mussels === null || surveyedM2 === null ? 'no-number' : 'found';
}
