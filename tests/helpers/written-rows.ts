/** Surveys written out by hand, for tests whose answer is known in closed form. */

import type { ClusterRow, SegmentRow, SurveyRows } from '../../models/data.ts';
import type { Design } from '../../shared/survey.ts';

export interface WrittenSegment {
  areaM2?: number;
  classes?: number[];
  plantCover?: number;
  depthM?: number;
  /** clusters found by the first diver, and after him by the second */
  first?: number;
  second?: number;
  /** mussels in each cluster, offsets of each: taken in turn; default 1 mussel, offset 0.1 m */
  counts?: number[];
  offsetsM?: number[];
}

export interface WrittenTransect {
  design?: Design;
  primary: number;
  secondary: number | null;
  clarityM?: number;
  halfWidthM?: number;
  segments: WrittenSegment[];
}

export const NAMES = ['Ada', 'Ben', 'Cy', 'Dan'];

export function writtenRows(transects: WrittenTransect[], observers = 2, classes = 2): SurveyRows {
  const segments: SegmentRow[] = [];
  const clusters: ClusterRow[] = [];
  for (const [transect, t] of transects.entries()) {
    const design = t.design ?? 'belt';
    for (const s of t.segments) {
      const first = s.first ?? 0;
      for (let k = 0; k < first + (s.second ?? 0); k++) {
        clusters.push({
          segment: segments.length,
          role: k < first ? 'primary' : 'secondary',
          offsetM: design === 'belt' ? null : s.offsetsM ? s.offsetsM[k % s.offsetsM.length] : 0.1,
          count: s.counts ? s.counts[k % s.counts.length] : 1,
        });
      }
      segments.push({
        transect,
        design,
        areaM2: s.areaM2 ?? 5,
        halfWidthM: t.halfWidthM ?? (design === 'belt' ? 0.5 : 1),
        classes: s.classes ?? [0],
        plantCover: s.plantCover ?? 0,
        depthM: s.depthM ?? 3,
        clarityM: t.clarityM ?? null,
        primary: t.primary,
        secondary: t.secondary,
      });
    }
  }
  return {
    segments,
    clusters,
    transectCount: transects.length,
    classNames: ['mud', 'sand', 'gravel', 'rock'].slice(0, classes),
    observerNames: NAMES.slice(0, observers),
  };
}
