/** Surveys drawn from known parameters, as the models take them: transects of a few segments, roles swapped from one to the next. */

import type { SegmentRow, SurveyRows } from '../../models/data.ts';
import { stream } from '../../models/numbers/random.ts';
import {
  detectionsOf,
  searchedSegments,
  simulateClusters,
  type Truth,
} from '../../models/simulate.ts';
import type { Design } from '../../shared/survey.ts';

export interface SurveyWanted {
  transects: number;
  /** segments on each transect */
  segments: number;
  design: Design;
  areaM2: number;
  /** names that the truth knows, in order; segments take them in turn */
  classes: string[];
}

export const USUAL_SURVEY: SurveyWanted = {
  transects: 30,
  segments: 6,
  design: 'belt',
  areaM2: 5,
  classes: ['sand', 'rock'],
};

export const logitOf = (p: number): number => Math.log(p / (1 - p));

/** Two divers with 0.8 and 0.6, 0.6 and 1.2 clusters per m², lone mussels, Poisson without transect effect. */
export const USUAL_TRUTH: Truth = {
  density: {
    family: 'poisson',
    dispersion: null,
    transect_sd: 0,
    intercept: Math.log(0.6),
    substrate: { sand: 0, rock: Math.log(2) },
    plant_cover: 0,
    depth: 0,
    depth_squared: 0,
  },
  detection: {
    observers: {
      Ada: { belt: logitOf(0.8), distance: logitOf(0.8) },
      Ben: { belt: logitOf(0.6), distance: logitOf(0.6) },
    },
    substrate: {},
    plant_cover: 0,
    depth: 0,
    clarity: 0,
    log_count: 0,
    shape: { kind: 'half-normal', sigma_m: 0.5 },
    independence: 'full',
    offset: 0,
  },
  cluster_size: { extra_mean: 0, k: null, substrate: {} },
};

type Changes = { [part in keyof Truth]?: Partial<Truth[part]> };

export function truthWith(changes: Changes): Truth {
  return {
    density: { ...USUAL_TRUTH.density, ...changes.density },
    detection: { ...USUAL_TRUTH.detection, ...changes.detection },
    cluster_size: { ...USUAL_TRUTH.cluster_size, ...changes.cluster_size },
  };
}

/** Searched but empty: depths from 1 to 6 m along each transect, plants 0 to 2. */
export function searched(wanted: Partial<SurveyWanted> = {}): SurveyRows {
  const w = { ...USUAL_SURVEY, ...wanted };
  const segments: SegmentRow[] = [];
  for (let transect = 0; transect < w.transects; transect++) {
    for (let i = 0; i < w.segments; i++) {
      segments.push({
        transect,
        design: w.design,
        areaM2: w.areaM2,
        halfWidthM: w.design === 'belt' ? 0.5 : 1,
        classes: [(transect + i) % w.classes.length],
        plantCover: (transect + 2 * i) % 3,
        depthM: 1 + (5 * (i + 0.5 + (transect % 3) / 6)) / w.segments,
        clarityM: 4,
        primary: transect % 2,
        secondary: 1 - (transect % 2),
      });
    }
  }
  return {
    segments,
    clusters: [],
    transectCount: w.transects,
    classNames: w.classes,
    observerNames: ['Ada', 'Ben'],
  };
}

/**
 * What is found on searched segments; depends on (seed, index) alone.
 * @param logDensity of each segment, in place of the truth's own terms
 */
export function found(
  rows: SurveyRows,
  truth: Truth,
  seed: number,
  index = 0,
  logDensity: number[] | null = null,
): SurveyRows {
  const drawn = simulateClusters(truth, searchedSegments(rows, logDensity), stream(seed, index));
  return {
    ...rows,
    clusters: detectionsOf(drawn).map((d) => ({
      segment: d.segmentIndex,
      role: d.foundBy,
      offsetM: d.offsetM,
      count: d.count,
    })),
  };
}
