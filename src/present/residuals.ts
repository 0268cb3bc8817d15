/** Residuals of the segments, ready to be drawn: where each stands, the range that most should lie in, the largest in a table. */

import { normalQuantile } from '../../models/index.ts';
import { extent } from '../../shared/extent.ts';
import { counted } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { formatCount, formatPercent } from '../../shared/units.ts';
import { expectedText } from './observed-expected.ts';
import { classWords } from './strata.ts';

export interface ResidualPoint {
  /** segment number, from 1 */
  segment: number;
  transect: string;
  fromM: number;
  toM: number;
  substrate: string;
  depthM: number;
  /** clusters detected, and expected by the model */
  detected: number;
  expected: number;
  expectedText: string;
  /** standard normal when the model holds */
  residual: number;
  residualText: string;
}

export interface Residuals {
  points: ResidualPoint[];
  /** substrates that occur, in the order of the analysis */
  substrates: string[];
  /** transects that have a residual, in the order of the survey */
  transects: string[];
  /** that share of standard normal numbers lies between −limit and +limit */
  within: number;
  limit: number;
  /** `93 %`: what share of these residuals does */
  shareWithin: string;
  /** the axis reaches so far to either side */
  reach: number;
  /** all of it in a sentence, for those who do not see the picture */
  described: string;
}

export type ResidualsOf = Pick<SurveyResult, 'checks' | 'segments' | 'analysis'>;

const WITHIN = 0.95;
const LIMIT = normalQuantile((1 + WITHIN) / 2);
/** An axis is at least so wide to either side. */
const LEAST_REACH = 3;

/** Segments without a residual (nothing was detected on their substrate) are left out; null when there is none at all. */
export function readResiduals({ checks, segments, analysis }: ResidualsOf): Residuals | null {
  if (checks === null) return null;
  const points = segments.flatMap((s, i): ResidualPoint[] => {
    const residual = checks.residuals[i] ?? null;
    const expected = checks.expected[i];
    if (residual === null || expected === undefined || !Number.isFinite(residual)) return [];
    return [
      {
        segment: s.segment,
        transect: s.transect,
        fromM: s.fromM,
        toM: s.toM,
        substrate: classWords(s.substrate),
        depthM: s.depthM,
        detected: s.detections.length,
        expected,
        expectedText: expectedText(expected),
        residual,
        residualText: signedText(residual),
      },
    ];
  });
  if (points.length === 0) return null;
  const values = points.map((p) => p.residual);
  const [least, most] = extent(values);
  const inside = values.filter((r) => Math.abs(r) <= LIMIT).length;
  const shareWithin = formatPercent(Number((inside / points.length).toFixed(2)));
  const n = counted(points.length, formatCount(points.length), 'segment');
  return {
    points,
    substrates: inOrder(segments, analysis.substrates).filter((name) =>
      points.some((p) => p.substrate === name),
    ),
    transects: [...new Set(points.map((p) => p.transect))],
    within: WITHIN,
    limit: LIMIT,
    shareWithin,
    reach: Math.max(LEAST_REACH, -least, most),
    described: `${n}; residuals from ${signedText(least)} to ${signedText(most)}, ${shareWithin} of them within ${LIMIT.toFixed(2)} of 0.`,
  };
}

/** What to look for, under a drawing. */
export function residualGloss({ within, shareWithin }: Residuals): string {
  return `Under the right model ${formatPercent(within)} lie between the dashed lines, with no pattern; ${shareWithin} do.`;
}

/** The segments farthest from what the model expects, the farthest first. */
export function largestResiduals({ points }: Residuals, most: number): ResidualPoint[] {
  return [...points].sort((a, b) => Math.abs(b.residual) - Math.abs(a.residual)).slice(0, most);
}

/** At most about `most` points for a drawing: every so-manieth, and all beyond the least reach of the axis. */
export function thinned({ points }: Residuals, most: number): ResidualPoint[] {
  if (points.length <= most) return points;
  const every = Math.ceil(points.length / most);
  return points.filter((p, i) => i % every === 0 || Math.abs(p.residual) > LEAST_REACH);
}

/** `8 segments, residuals −1.2 to +2.3`; null for a transect without a residual. */
export function residualsOfTransect({ points }: Residuals, transect: string): string | null {
  const own = points.filter((p) => p.transect === transect).map((p) => p.residual);
  if (own.length === 0) return null;
  const [least, most] = extent(own);
  const range =
    own.length === 1 ? signedText(least) : `${signedText(least)} to ${signedText(most)}`;
  return `${counted(own.length, String(own.length), 'segment')}, residuals ${range}`;
}

/** `+1.3`, `−0.4`, `0`; whole numbers without decimals. */
export function signedText(x: number): string {
  const text = Math.abs(x).toFixed(Number.isInteger(x) ? 0 : 1);
  return Number(text) === 0 ? '0' : `${x < 0 ? '−' : '+'}${text}`;
}

/** Substrates that occur, by their classes' places in the analysis; mixtures after what they begin with. */
function inOrder(segments: ResidualsOf['segments'], classes: readonly string[]): string[] {
  const ranks = new Map(
    segments.map((s) => [classWords(s.substrate), s.substrate.map((c) => classes.indexOf(c))]),
  );
  return [...ranks]
    .sort(([, a], [, b]) => {
      const at = a.findIndex((r, i) => r !== b[i]);
      return at < 0 ? a.length - b.length : (a[at] ?? -1) - (b[at] ?? -1);
    })
    .map(([name]) => name);
}
