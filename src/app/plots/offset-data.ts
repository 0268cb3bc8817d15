/** Offsets of the clusters found on distance transects: their histogram, and the curve that the model fitted to them. */

import type { Analysis } from '../../../shared/analysis.ts';
import type { Estimate } from '../../../shared/estimate.ts';
import type { SurveyResult } from '../../../shared/result.ts';
import type { Segment, Survey } from '../../../shared/survey.ts';

/** The steepest shoulder a fit can have: the model holds b there when it runs off (its notice says so). */
const STEEPEST_B = 80;
const BINS = 10;
/** Simpson's rule over half a strip; even. */
const INTERVALS = 400;

export interface OffsetBin {
  fromM: number;
  toM: number;
  found: number;
  /** what the curve expects; null without a fit */
  expected: number | null;
}

export interface OffsetPicture {
  /** half of the widest strip */
  halfWidthM: number;
  bins: OffsetBin[];
  /** expected clusters found in a bin's width around the offset; empty without a fit */
  curve: { offsetM: number; expected: number }[];
  found: number;
}

export interface OffsetInput {
  survey: Survey;
  segments: readonly Pick<Segment, 'design' | 'widthM' | 'primary' | 'secondary'>[];
  estimate: Pick<Estimate, 'coefficients' | 'detection'> | null;
  /** expected clusters found, one a segment; null without a fit */
  expected: readonly (number | null)[] | null;
  independence: Analysis['detection']['independence'];
}

/** The picture of a survey with its estimate. */
export function offsetsOf({
  survey,
  segments,
  estimate,
  checks,
  analysis,
}: Pick<SurveyResult, 'survey' | 'segments' | 'estimate' | 'checks' | 'analysis'>) {
  return offsetPicture({
    survey,
    segments,
    estimate,
    expected: checks?.expected ?? null,
    independence: analysis.detection.independence,
  });
}

/** Null when there is no distance transect or none of their rows has an offset. */
export function offsetPicture(input: OffsetInput): OffsetPicture | null {
  const strips = input.segments.filter((s) => s.design === 'distance');
  const designOf = new Map(input.survey.transects.map((t) => [t.transect, t.design]));
  const offsets = input.survey.detections.flatMap((d) =>
    d.offsetM !== null && designOf.get(d.transect) === 'distance' ? [d.offsetM] : [],
  );
  if (strips.length === 0 || offsets.length === 0) return null;
  const halfWidthM = Math.max(...strips.map((s) => s.widthM)) / 2;
  const stepM = halfWidthM / BINS;
  const found = new Array<number>(BINS).fill(0);
  for (const y of offsets) found[Math.min(BINS - 1, Math.floor(y / stepM + 1e-9))]! += 1;
  const perMetre = fittedPerMetre(input);
  const bins = found.map((n, k): OffsetBin => {
    const fromM = k * stepM;
    const toM = fromM + stepM;
    return { fromM, toM, found: n, expected: perMetre && integral(perMetre, fromM, toM, 40) };
  });
  const curve = perMetre
    ? Array.from({ length: 101 }, (_, k) => {
        const offsetM = (halfWidthM * k) / 100;
        return { offsetM, expected: perMetre(offsetM) * stepM };
      })
    : [];
  return { halfWidthM, bins, curve, found: offsets.length };
}

/**
 * How detection falls with the offset: half-normal exp(−y²/2σ²), hazard-rate 1 − exp(−(y/σ)^(−b))
 * (Buckland et al. 2001); flat when the fit has left no σ. Null where no shape was fitted.
 */
export function sightCurve(
  estimate: Pick<Estimate, 'coefficients' | 'detection'>,
): ((offsetM: number) => number) | null {
  const shape = estimate.detection?.shape ?? null;
  if (shape === null) return null;
  const value = (term: string): number | undefined =>
    estimate.coefficients.find((c) => c.part === 'shape' && c.term === term)?.estimate;
  const logSigma = value('log_sigma');
  if (logSigma === undefined) return () => 1;
  const sigma = Math.exp(logSigma);
  if (shape === 'half-normal') return (y) => Math.exp((-y * y) / (2 * sigma * sigma));
  const logB = value('log_b');
  const b = logB === undefined ? STEEPEST_B : Math.exp(logB);
  return (y) => (y <= 0 ? 1 : -Math.expm1(-((y / sigma) ** -b)));
}

/**
 * Expected clusters found per metre of offset, all strips together: each segment's expected finds, spread over its
 * half-width as its divers see. Under point independence that is g alone; under full independence the pair's
 * 1 − (1 − p₁g)(1 − p₂g), each diver's p at the mean covariates.
 */
function fittedPerMetre(input: OffsetInput): ((offsetM: number) => number) | null {
  const { estimate, expected } = input;
  const g = estimate && sightCurve(estimate);
  if (!estimate?.detection || !expected || !g) return null;
  const p0 = new Map(
    estimate.detection.observers
      .filter((o) => o.design === 'distance')
      .map((o) => [o.observer, o.p]),
  );
  const seen = (primary: string, secondary: string | null) => (y: number) => {
    if (input.independence === 'point') return g(y);
    const first = (p0.get(primary) ?? 1) * g(y);
    const second = secondary === null ? 0 : (p0.get(secondary) ?? 1) * g(y);
    return 1 - (1 - first) * (1 - second);
  };
  const groups = new Map<string, { halfM: number; finds: number; at: (y: number) => number }>();
  input.segments.forEach((s, i) => {
    if (s.design !== 'distance') return;
    const key = JSON.stringify([s.widthM, s.primary, s.secondary]);
    const group = groups.get(key) ?? {
      halfM: s.widthM / 2,
      finds: 0,
      at: seen(s.primary, s.secondary),
    };
    group.finds += expected[i] ?? 0;
    groups.set(key, group);
  });
  const parts = [...groups.values()].flatMap(({ halfM, finds, at }) => {
    const area = integral(at, 0, halfM, INTERVALS);
    return area > 0 ? [{ halfM, at, scale: finds / area }] : [];
  });
  return (y) => parts.reduce((sum, p) => sum + (y <= p.halfM ? p.scale * p.at(y) : 0), 0);
}

/** Simpson's rule; `intervals` even. */
function integral(f: (x: number) => number, a: number, b: number, intervals: number): number {
  const h = (b - a) / intervals;
  let sum = f(a) + f(b);
  for (let i = 1; i < intervals; i++) sum += f(a + i * h) * (i % 2 === 1 ? 4 : 2);
  return (sum * h) / 3;
}
