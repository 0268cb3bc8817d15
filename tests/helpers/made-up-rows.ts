/** Small surveys made of chance, as the models take them: for tests that hold whatever the numbers are. Seeded. */

import type { ClusterRow, SegmentRow, SurveyRows } from '../../models/data.ts';
import type { DensityChoices } from '../../models/density/design.ts';
import type { Random } from '../../models/numbers/random.ts';
import { type Analysis, DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import type { Design } from '../../shared/survey.ts';

export interface RowsWanted {
  transects: number;
  /** segments on each transect */
  segments: number;
  designs: Design[];
  observers: number;
  classes: number;
  /** share of transects without a second diver */
  single: number;
  /** mean clusters found on a segment */
  found: number;
  /** share of the found that the second diver found */
  second: number;
  /** mean mussels beyond the first */
  extra: number;
  /** roles change between transects */
  swap: boolean;
  /** share of segments of two classes */
  mixed: number;
}

export const USUAL_ROWS: RowsWanted = {
  transects: 8,
  segments: 4,
  designs: ['belt'],
  observers: 2,
  classes: 3,
  single: 0,
  found: 2,
  second: 0.25,
  extra: 1.5,
  swap: true,
  mixed: 0.15,
};

/** Rows drawn without any model: what was found where is pure chance. */
export function madeUpRows(random: Random, wanted: Partial<RowsWanted> = {}): SurveyRows {
  const w = { ...USUAL_ROWS, ...wanted };
  const segments: SegmentRow[] = [];
  const clusters: ClusterRow[] = [];
  for (let t = 0; t < w.transects; t++) {
    const design = w.designs[t % w.designs.length];
    const pair = w.swap ? random.shuffle([...Array(w.observers).keys()]) : [0, 1];
    const secondary = w.observers < 2 || random.uniform() < w.single ? null : pair[1];
    const clarityM = 1 + 5 * random.uniform();
    const effect = 0.3 * random.normal();
    for (let i = 0; i < w.segments; i++) {
      const first = random.integer(w.classes);
      const other = (first + 1) % w.classes;
      const segment: SegmentRow = {
        transect: t,
        design,
        areaM2: 1 + 8 * random.uniform(),
        halfWidthM: design === 'belt' ? 0.5 : 1 + (t % 3) / 4,
        classes: w.classes > 1 && random.uniform() < w.mixed ? [first, other] : [first],
        plantCover: random.integer(5),
        depthM: 1 + 6 * random.uniform(),
        clarityM,
        primary: pair[0],
        secondary,
      };
      const n = random.negativeBinomial(w.found * Math.exp(effect), 2);
      for (let k = 0; k < n; k++) {
        clusters.push({
          segment: segments.length,
          role: secondary !== null && random.uniform() < w.second ? 'secondary' : 'primary',
          offsetM:
            design === 'belt'
              ? null
              : segment.halfWidthM * Math.min(random.uniform(), random.uniform()),
          count: 1 + random.negativeBinomial(w.extra, 1),
        });
      }
      segments.push(segment);
    }
  }
  return {
    segments,
    clusters,
    transectCount: w.transects,
    classNames: ['mud', 'sand', 'gravel', 'rock'].slice(0, w.classes),
    observerNames: ['Ada', 'Ben', 'Cy'].slice(0, w.observers),
  };
}

/** The default choices with some changed, part by part. */
export function choices(
  changed: {
    [K in 'detection' | 'cluster_size']?: Partial<Analysis[K]>;
  } & { density?: Partial<DensityChoices> } = {},
): Analysis & { density: DensityChoices } {
  return {
    ...DEFAULT_ANALYSIS,
    density: { ...DEFAULT_ANALYSIS.density, depth: 'curve', ...changed.density },
    detection: { ...DEFAULT_ANALYSIS.detection, ...changed.detection },
    cluster_size: { ...DEFAULT_ANALYSIS.cluster_size, ...changed.cluster_size },
  };
}
