/**
 * The limit for a part of the bed on which one survey detected nothing though it did elsewhere (METHOD.md: Nothing detected in one of
 * two surveys): detection and counts are that survey's own, the density is the other's.
 */

import type { SegmentRow } from '../data.ts';
import type { Fit } from '../fit/fitted-model.ts';
import { quadraticForm } from '../numbers/solve.ts';
import { type MappedHabitat, predictor } from '../predict.ts';
import type { AreaTotals } from '../treat/joint.ts';
import { amongJoint, partOf } from './joint-fit.ts';
import { carriedTo, limitOver } from './limit.ts';
import type { ModelPair, Season } from './seasons.ts';

/** A segment on which nothing was detected, and what it is to the other survey. */
export interface EmptySegment {
  row: SegmentRow;
  habitat: MappedHabitat;
}

export interface PartLimit {
  /** of the empty survey over the other, or what is left of it by the totals given */
  ratio: number;
  /** detections on the segments without a change, or with one as the totals tell */
  expected: number;
}

export interface PartOptions {
  level: number;
  /** as in LimitOptions */
  widened: number;
  /** bed elsewhere, both surveys' under the pairs in their order, [other, empty]: the ratio is what goes beyond their change */
  elsewhere: readonly [AreaTotals, AreaTotals] | null;
}

/**
 * Null where these segments could not have brought a detection, or where no ratio is too many.
 * @param seasons before and after @param empty which of them detected nothing on the segments
 */
export function partLimit(
  seasons: readonly [Season, Season],
  pairs: readonly ModelPair[],
  empty: 0 | 1,
  segments: readonly EmptySegment[],
  { level, widened, elsewhere }: PartOptions,
): PartLimit | null {
  const [own, other] = empty === 0 ? seasons : [seasons[1], seasons[0]];
  const models = pairs.map(({ weight, joint, members }, m) => {
    const at = (season: 0 | 1, { rows, members: all }: Season): Fit =>
      partOf({ rows, fit: all[members[season]].fit }, joint, season);
    const here = withNothingApart(at(empty, own));
    const there = densitiesOf(other, at(empty === 0 ? 1 : 0, other), segments);
    const itself = densitiesOf(
      own,
      here,
      segments.map(({ row }) => ({ row, habitat: row })),
    );
    const change = elsewhere === null ? null : elsewhere.map((totals) => totals[m]);
    const log = change === null ? 0 : Math.log(change[1].mussels / change[0].mussels);
    // area stands for density: what is expected of a segment is its area times the other survey's density
    const rows = segments.map(({ row }, i) => ({
      ...row,
      areaM2: row.areaM2 * Math.exp(there[i].log + log - itself[i].log),
    }));
    const known = rows.flatMap((row, i) => (row.areaM2 > 0 ? [{ row, i }] : []));
    const carried = carriedTo(own.rows, here, {
      segments: known.map((k) => k.row),
      transectCount: own.rows.transectCount,
      share: 1,
    });
    const mean = meanOf(
      carried.expected.map(({ segment, detections }) => ({
        weight: detections,
        gradient: there[known[segment].i].gradient,
      })),
      there[0]?.gradient.length ?? 0,
    );
    const fixed = amongJoint(mean, joint, empty === 0 ? 1 : 0);
    if (change !== null)
      for (let k = 0; k < fixed.length; k++)
        fixed[k] +=
          change[1].gradient[k] / change[1].mussels - change[0].gradient[k] / change[0].mussels;
    return {
      weight,
      carried,
      from: 0,
      varianceOf: ({ gradient, slope }: { gradient: Float64Array; slope: number }): number => {
        const g = amongJoint(withoutDensity(gradient, slope, here), joint, empty);
        return (
          quadraticForm(
            g.map((v, k) => v + fixed[k]),
            joint.covariance,
          ) *
          widened ** 2
        );
      },
    };
  });
  const found = limitOver(models, -Math.log(1 - level));
  return found && { ratio: found.limit, expected: found.expected };
}

/** The fit for classes on which it detected nothing, too: their density is another's, their detection the reference's. */
function withNothingApart(fit: Fit): Fit {
  const { density } = fit.parts;
  const separated = { substrate: new Set<number>(), plantCover: new Set<number>() };
  return { ...fit, parts: { ...fit.parts, density: { ...density, separated } } };
}

/** Log density of each segment, the mean over transects, with its gradient. */
function densitiesOf({ rows }: Pick<Season, 'rows'>, fit: Fit, segments: readonly EmptySegment[]) {
  const p = predictor(rows, fit);
  const columns = new Float64Array(p.depthColumns);
  return segments.map(({ row, habitat }) => {
    const { base, gradient } = p.habitat(habitat);
    p.columnsAt(row.depthM, columns);
    const g = Float64Array.from(gradient);
    columns.forEach((x, i) => {
      g[p.depthFrom + i] += x;
    });
    return { log: base + p.curveAt(columns), gradient: g };
  });
}

function meanOf(parts: { weight: number; gradient: Float64Array }[], length: number): Float64Array {
  const total = parts.reduce((sum, p) => sum + p.weight, 0);
  const mean = new Float64Array(length);
  for (const { weight, gradient } of parts)
    for (let i = 0; i < length; i++) mean[i] += (weight / total) * gradient[i];
  return mean;
}

/** The gradient by what is left of a model whose density is another's, on the scale of the expected detections. */
function withoutDensity(
  gradient: Float64Array,
  slope: number,
  { likelihood, tau }: Fit,
): Float64Array {
  const { layout } = likelihood;
  const out = gradient.map((g, i) => (layout.parameters[i].part === 'density' ? 0 : g / slope));
  // the areas hold the mean over transects
  if (layout.logTau >= 0) out[layout.logTau] -= tau ** 2;
  return out;
}
