/** Density against depth on each substrate, over the depths at which it lies. */

import {
  averageDensityAt,
  carry,
  logNormalQuantity,
  type Member,
  type SurveyRows,
} from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { DensityCurve } from '../../shared/result.ts';
import type { Bed, Domain } from '../../shared/survey.ts';
import { mappedHabitats } from './rows.ts';

interface DepthRange {
  fromM: number;
  toM: number;
}

/** A curve has so many steps from its shallowest to its deepest depth. */
const CURVE_STEPS = 60;

/**
 * A curve for every class and mixture of the surveyed habitat, over the plants that observers met on it. With a map it
 * runs over the depths at which the map has that substrate, or where the map has it nowhere over those at which it was
 * recorded; without a map over all surveyed depths.
 */
export function depthCurves(
  rows: SurveyRows,
  members: readonly Member[],
  quantile: number | null,
  analysis: Analysis,
  domain: Domain,
  bed: Bed | null,
): DensityCurve[] {
  const substrates = substratesOf(rows, analysis, domain, bed);
  const habitats = substrates.map(({ classes }) => ({ classes, plantCover: null }));
  const models = carry(rows, members, habitats);
  return substrates.map(({ classes, fromM, toM }, place) => {
    const curve: DensityCurve = {
      substrate: classes.map((c) => rows.classNames[c]),
      depthM: [],
      musselsPerM2: [],
      lower: [],
      upper: [],
    };
    for (let i = 0; i <= CURVE_STEPS; i++) {
      const depthM = fromM + ((toM - fromM) * i) / CURVE_STEPS;
      const at = averageDensityAt(models, place, depthM);
      const q = logNormalQuantity(at.estimate, at.se, quantile);
      curve.depthM.push(depthM);
      curve.musselsPerM2.push(q.estimate);
      curve.lower.push(q.lower ?? q.estimate);
      curve.upper.push(q.upper ?? q.estimate);
    }
    return curve;
  });
}

/** Classes by themselves and mixtures, in the order of the analysis, with the depths at which they lie. */
function substratesOf(
  rows: SurveyRows,
  analysis: Analysis,
  domain: Domain,
  bed: Bed | null,
): (DepthRange & { classes: number[] })[] {
  const recorded = new Ranges();
  for (const s of rows.segments) recorded.meet(s.classes, s.depthM);
  const mapped = bed === null ? null : mappedRanges(bed, analysis);
  const whole = { fromM: domain.depthFromM, toM: domain.depthToM };
  const singles = domain.classes.map((name) => [rows.classNames.indexOf(name)]);
  const mixtures = [...recorded.mixtures(), ...(mapped?.mixtures() ?? [])];
  const all = new Map([...singles, ...mixtures].map((classes) => [classes.join('+'), classes]));
  return [...all.values()]
    .sort((a, b) => a[0] - b[0] || a.length - b.length || (a[1] ?? 0) - (b[1] ?? 0))
    .flatMap((classes) => {
      if (mapped === null) return [{ classes, ...whole }];
      const range = mapped.of(classes) ?? recorded.of(classes);
      return range === null ? [] : [{ classes, ...outward(range, whole) }];
    });
}

function mappedRanges({ pieces, habitats }: Bed, analysis: Analysis): Ranges {
  const ranges = new Ranges();
  const mapped = mappedHabitats(habitats, analysis);
  const fromM = new Float64Array(mapped.length).fill(Infinity);
  const toM = new Float64Array(mapped.length).fill(-Infinity);
  for (let i = 0; i < pieces.count; i++) {
    if (pieces.reason[i] !== 0) continue;
    const h = pieces.habitat[i];
    const depthM = pieces.depthM[i];
    if (depthM < fromM[h]) fromM[h] = depthM;
    if (depthM > toM[h]) toM[h] = depthM;
  }
  mapped.forEach(({ classes }, h) => {
    if (fromM[h] > toM[h]) return;
    ranges.meet(classes, fromM[h]);
    ranges.meet(classes, toM[h]);
  });
  return ranges;
}

/** To the tenth of a metre beyond, for pieces of bed have the depth of their middle; within the surveyed depths. */
function outward({ fromM, toM }: DepthRange, whole: DepthRange): DepthRange {
  return {
    fromM: Math.max(whole.fromM, Math.floor(fromM * 10) / 10),
    toM: Math.min(whole.toM, Math.ceil(toM * 10) / 10),
  };
}

/** Least and greatest depth at which each substrate was met. */
class Ranges {
  private readonly met = new Map<string, DepthRange & { classes: number[] }>();

  meet(unordered: readonly number[], depthM: number): void {
    const classes = [...unordered].sort((a, b) => a - b);
    const range = this.met.get(classes.join('+'));
    if (range === undefined) {
      this.met.set(classes.join('+'), { classes, fromM: depthM, toM: depthM });
      return;
    }
    range.fromM = Math.min(range.fromM, depthM);
    range.toM = Math.max(range.toM, depthM);
  }

  of(classes: readonly number[]): DepthRange | null {
    return this.met.get(classes.join('+')) ?? null;
  }

  mixtures(): number[][] {
    return [...this.met.values()].map((m) => m.classes).filter((c) => c.length > 1);
  }
}
