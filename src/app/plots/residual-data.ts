/** What the checks saw, segment by segment and rope by rope, made ready to draw. */

import type { ModelChecks } from '../../../shared/result.ts';
import type { Segment, Transect } from '../../../shared/survey.ts';
import { substrateLabel } from '../look/substrate-style.ts';

export interface ResidualPoint {
  /** segment number, from 1 */
  segment: number;
  transect: string;
  fromM: number;
  toM: number;
  substrate: string;
  depthM: number;
  /** expected clusters found */
  expected: number;
  /** standard normal when the model holds */
  residual: number;
}

/** Segments without a residual (nothing was ever found on their substrate) are left out. */
export function residualPoints(
  segments: readonly Pick<
    Segment,
    'segment' | 'transect' | 'fromM' | 'toM' | 'substrate' | 'depthM'
  >[],
  checks: Pick<ModelChecks, 'residuals' | 'expected'> | null,
): ResidualPoint[] {
  if (checks === null) return [];
  return segments.flatMap((s, i) => {
    const residual = checks.residuals[i] ?? null;
    if (residual === null || !Number.isFinite(residual)) return [];
    return [
      {
        segment: s.segment,
        transect: s.transect,
        fromM: s.fromM,
        toM: s.toM,
        substrate: substrateLabel(s.substrate),
        depthM: s.depthM,
        expected: checks.expected[i] ?? 0,
        residual,
      },
    ];
  });
}

/** Substrate labels that occur, by their classes' places in the analysis. */
export function labelsInOrder(labels: Iterable<string>, classes: readonly string[]): string[] {
  const rank = (label: string): number[] => label.split('+').map((name) => classes.indexOf(name));
  return [...new Set(labels)].sort((a, b) => {
    const [ra, rb] = [rank(a), rank(b)];
    for (let i = 0; i < Math.min(ra.length, rb.length); i++)
      if (ra[i] !== rb[i]) return ra[i]! - rb[i]!;
    return ra.length - rb.length;
  });
}

/** A shift across a category, −0.5 to 0.5, that spreads its points and is the same on every drawing. */
export function spread(k: number): number {
  // multiples of the golden ratio fill an interval evenly
  return ((k * 0.6180339887498949) % 1) - 0.5;
}

export interface Influence {
  transect: string;
  /** relative change of the total without the transect */
  change: number;
}

/** The transects that move the total most when left out, largest first, and the range of the others. */
export function influences(
  transects: readonly Pick<Transect, 'transect'>[],
  checks: Pick<ModelChecks, 'influence'> | null,
  most: number,
): { shown: Influence[]; others: number; othersWithin: number } | null {
  const known = transects.flatMap((t, i) => {
    const change = checks?.influence[i] ?? null;
    return change === null ? [] : [{ transect: t.transect, change }];
  });
  if (known.length === 0) return null;
  known.sort((a, b) => Math.abs(b.change) - Math.abs(a.change));
  const rest = known.slice(most);
  return {
    shown: known.slice(0, most),
    others: rest.length,
    othersWithin: rest.length === 0 ? 0 : Math.abs(rest[0]!.change),
  };
}
