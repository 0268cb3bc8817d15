/** Covariates of the detection (δ) and of the cluster size (γ): columns, references, repeats. */

import type { Analysis } from '../../shared/analysis.ts';
import type { ModelNotice } from '../../shared/model-notices.ts';
import type { SegmentRow, SurveyRows } from '../data.ts';
import {
  clusterCounts,
  keepIndependent,
  repeats,
  substrateTerms,
  surveyedClasses,
} from '../density/design.ts';
import { type DetectionTerm, type DiverGroup, isFree, type SizeTerm } from '../parts.ts';
import { bareTerm } from '../terms.ts';

/** Surveyed classes with a detection on some segment of theirs; the others take the reference's values here. */
function classesWithClusters(rows: SurveyRows): number[] {
  const counts = clusterCounts(rows);
  const found = new Set<number>();
  rows.segments.forEach((s, i) => {
    if (counts[i] > 0) for (const c of s.classes) found.add(c);
  });
  return surveyedClasses(rows).filter((c) => found.has(c));
}

/**
 * The detection's covariates in term order: plant cover (score), substrate, depth, clarity.
 * @param divers groups whose p is estimated; their intercepts come first when repeats are looked for
 */
export function detectionDesign(
  rows: SurveyRows,
  choices: Analysis['detection'],
  divers: DiverGroup[],
  leaveOut: ReadonlySet<string>,
): { terms: DetectionTerm[]; notices: ModelNotice[] } {
  const terms: DetectionTerm[] = [];
  if (choices.plant_cover)
    terms.push({ ...bareTerm('plant_cover', 'plant_cover'), value: (s) => s.plantCover });
  if (choices.substrate) {
    for (const term of substrateTerms(rows, classesWithClusters(rows)))
      terms.push(asDetectionTerm(term));
  }
  if (choices.depth) terms.push({ ...bareTerm('depth', 'depth'), value: (s) => s.depthM });
  if (choices.clarity) {
    terms.push({
      ...bareTerm('clarity', 'visibility'),
      value(s) {
        if (s.clarityM === null)
          throw new RangeError('clarity is in the detection, but a transect has none');
        return s.clarityM;
      },
    });
  }
  const free = divers.filter(isFree);
  if (free.length === 0) return { terms: [], notices: [] };
  type Look = { segment: SegmentRow; observer: number };
  const looks: Look[] = rows.segments.flatMap((segment) =>
    [segment.primary, ...(segment.secondary === null ? [] : [segment.secondary])]
      .filter((observer) =>
        free.some((g) => g.design === segment.design && g.observers.includes(observer)),
      )
      .map((observer) => ({ segment, observer })),
  );
  const intercepts = free.map((g) => ({
    name: g.term,
    value: (l: Look) => (g.design === l.segment.design && g.observers.includes(l.observer) ? 1 : 0),
  }));
  const covariates = terms
    .filter((t) => !leaveOut.has(t.name))
    .map((term) => ({ name: term.name, term, value: (l: Look) => term.value(l.segment) }));
  const kept = keepIndependent<Look, { name: string; value(l: Look): number }>(
    [...intercepts, ...covariates],
    looks,
  );
  const names = new Set(kept.terms.map((t) => t.name));
  return {
    terms: covariates.filter((c) => names.has(c.name)).map((c) => c.term),
    notices: kept.dropped
      .filter((d) => !intercepts.some((i) => i.name === d.name))
      .map((d) => repeats(d, 'detection')),
  };
}

function asDetectionTerm(t: ReturnType<typeof substrateTerms>[number]): DetectionTerm {
  return {
    ...t,
    value: (s) => t.value({ classes: s.classes, plantCover: s.plantCover, depthM: s.depthM }),
  };
}

/** log m = v′γ: intercept, and substrate when asked for. */
export function sizeDesign(
  rows: SurveyRows,
  choices: Analysis['cluster_size'],
  leaveOut: ReadonlySet<string>,
): { terms: SizeTerm[]; notices: ModelNotice[] } {
  const terms: SizeTerm[] = [{ ...bareTerm('intercept', 'intercept'), value: () => 1 }];
  if (choices.substrate) {
    for (const t of substrateTerms(rows, classesWithClusters(rows))) {
      terms.push({ ...t, value: (h) => t.value({ ...h, plantCover: 0, depthM: 0 }) });
    }
  }
  const kept = keepIndependent(
    terms.filter((t) => !leaveOut.has(t.name)),
    rows.clusters.map((c) => rows.segments[c.segment]),
  );
  return { terms: kept.terms, notices: kept.dropped.map((d) => repeats(d, 'size')) };
}
