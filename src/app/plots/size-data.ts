/** Sizes of the clusters found, in classes that widen, beside what the fitted size distribution expects. */

import type { Estimate } from '../../../shared/estimate.ts';
import type { Detection, PlacedDetection, Segment } from '../../../shared/survey.ts';

/** Upper ends of the classes: singles are told apart as long as it matters, then the classes widen. */
const CLASS_ENDS = [1, 2, 3, 4, 5, 10, 20, 50, 100, 200, 500, 1_000, 10_000, 100_000];

export interface SizeClass {
  label: string;
  from: number;
  to: number;
  found: number;
  /** null without a fitted size distribution, or when larger clusters are easier to see (then found ≠ all) */
  expected: number | null;
}

export interface SizeInput {
  detections: readonly Pick<Detection, 'count'>[];
  placed: readonly Pick<PlacedDetection, 'detection' | 'segmentIndex'>[];
  segments: readonly Pick<Segment, 'substrate'>[];
  estimate: Pick<Estimate, 'coefficients' | 'cluster_size' | 'model'> | null;
}

/** Empty when no cluster was found. */
export function sizeClasses(input: SizeInput): SizeClass[] {
  const { detections } = input;
  if (detections.length === 0) return [];
  const largest = detections.reduce((most, d) => Math.max(most, d.count), 1);
  const expected = expectedUpTo(input);
  const classes: SizeClass[] = [];
  let from = 1;
  for (const to of CLASS_ENDS) {
    const found = detections.filter((d) => d.count >= from && d.count <= to).length;
    const label =
      from === to ? `${from}` : `${from.toLocaleString('en')}–${to.toLocaleString('en')}`;
    classes.push({
      label,
      from,
      to,
      found,
      expected: expected === null ? null : expected(from, to),
    });
    if (to >= largest) break;
    from = to + 1;
  }
  return classes;
}

/**
 * Expected number of the found clusters with from ≤ size ≤ to: count = 1 + K, K negative binomial with mean m and size k
 * (Poisson without a k; no K at all without a size part), each cluster with the m of its substrate.
 */
function expectedUpTo({
  detections,
  placed,
  segments,
  estimate,
}: SizeInput): ((from: number, to: number) => number) | null {
  if (!estimate?.cluster_size) return null;
  if (estimate.model.detection_terms.includes('log_count')) return null;
  const k = estimate.cluster_size.k;
  const terms = new Map(
    estimate.coefficients.filter((c) => c.part === 'size').map((c) => [c.term, c.estimate]),
  );
  const segmentOf = new Map(placed.map((p) => [p.detection, p.segmentIndex]));
  const groups = new Map<number, number>();
  detections.forEach((_, i) => {
    const substrate = segments[segmentOf.get(i) ?? -1]?.substrate ?? [];
    const m = meanBeyondOne(terms, substrate);
    groups.set(m, (groups.get(m) ?? 0) + 1);
  });
  return (from, to) => {
    let sum = 0;
    for (const [m, clusters] of groups)
      sum += clusters * (shareUpTo(to - 1, m, k) - shareUpTo(from - 2, m, k));
    return sum;
  };
}

/** m: mussels beyond the first; a mixture has equal weights in the linear predictor. */
function meanBeyondOne(terms: ReadonlyMap<string, number>, substrate: readonly string[]): number {
  const intercept = terms.get('intercept');
  if (intercept === undefined) return 0;
  const shift = substrate.reduce((sum, name) => sum + (terms.get(`substrate:${name}`) ?? 0), 0);
  return Math.exp(intercept + shift / Math.max(1, substrate.length));
}

/** Pr(K ≤ n); the terms by recurrence, f(j+1) = f(j)·(k+j)/(k+m)·m/(j+1). */
export function shareUpTo(n: number, m: number, k: number | null): number {
  if (n < 0) return 0;
  if (m === 0) return 1;
  let f = k === null ? Math.exp(-m) : Math.exp(-k * Math.log1p(m / k));
  let sum = f;
  for (let j = 0; j < n && sum < 1; j++) {
    f *= k === null ? m / (j + 1) : (((k + j) / (k + m)) * m) / (j + 1);
    sum += f;
    if (f === 0 && j > m) break;
  }
  return Math.min(1, sum);
}
