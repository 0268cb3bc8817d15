/** What was detected on each transect, against what was there and what the model expects: for the map and its cards. */

import { counted, term } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { PlacedTransect, Segment, Survey } from '../../shared/survey.ts';
import { formatCount } from '../../shared/units.ts';

export interface Detected {
  clusters: number;
  mussels: number;
}

/** By label of the transect; one without a segment has no entry. */
export function detectedByTransect(
  segments: readonly Segment[],
  survey: Pick<Survey, 'detections'>,
): Map<string, Detected> {
  const sums = new Map<string, Detected>();
  for (const s of segments) {
    const sum = sums.get(s.transect) ?? { clusters: 0, mussels: 0 };
    for (const index of s.detections) {
      sum.clusters += 1;
      sum.mussels += survey.detections[index]?.count ?? 0;
    }
    sums.set(s.transect, sum);
  }
  return sums;
}

/**
 * The mean detection probability over all that was searched, by which clusters that were detected become clusters
 * estimated to be present; null when it is not known, or 1 for want of secondary observers.
 */
export function meanDetection(
  result: Pick<SurveyResult, 'estimate'> | null,
): { p: number; text: string } | null {
  const p = result?.estimate.detection?.mean_p ?? null;
  if (p === null || p >= 1) return null;
  return { p, text: p.toFixed(2) };
}

/** Clusters detected on a transect and expected there by the model. */
export interface Departure {
  transect: string;
  detected: number;
  expected: number;
  /** (detected − expected) / √expected; the difference itself where nothing was expected */
  scaled: number;
}

/** Sums over the segments of each transect, in the order in which they were placed; null when nothing was modelled. */
export function departures({
  placed,
  segments,
  checks,
}: Pick<SurveyResult, 'placed' | 'segments' | 'checks'>): Departure[] | null {
  if (checks === null) return null;
  const sums = new Map(placed.map((p) => [p.transect.transect, { detected: 0, expected: 0 }]));
  segments.forEach((s, i) => {
    const sum = sums.get(s.transect);
    if (sum === undefined) return;
    sum.detected += s.detections.length;
    sum.expected += checks.expected[i] ?? 0;
  });
  return [...sums].map(([transect, { detected, expected }]) => ({
    transect,
    detected,
    expected,
    scaled: (detected - expected) / (expected > 0 ? Math.sqrt(expected) : 1),
  }));
}

export interface TransectCard {
  title: string;
  lines: string[];
}

/** What is said of a transect that is pointed at. */
export function transectCard(
  { transect: t, endInferred, residuals }: PlacedTransect,
  { clusters, mussels }: Detected = { clusters: 0, mussels: 0 },
): TransectCard {
  const observers =
    t.secondary === null ? `${t.primary} alone` : `${t.primary}, then ${t.secondary}`;
  const all = `${counted(clusters, formatCount(clusters), 'cluster')} with ${counted(mussels, formatCount(mussels), 'mussel')}`;
  return {
    title: t.transect,
    lines: [
      `${term(t.design)} · ${t.date} · ${observers}`,
      clusters === 0 ? 'searched, nothing detected' : all,
      ...(endInferred ? ['end inferred from bearing and length'] : []),
      ...(residuals.some((r) => r.flagged) ? ['waypoints and bearing do not fit together'] : []),
    ],
  };
}
