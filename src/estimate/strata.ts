/**
 * The lake-wide number taken apart: by stratum, and by substrate and by depth alone. Every part is a sum of its own with
 * its own joint gradient, so that its interval is that of the sum: strata share parameters, their errors do not add up.
 */

import {
  type AverageSums,
  averageTotal,
  type ClassLimit,
  type HabitatSum,
  limitOf,
  type MappedHabitat,
  type SurveyRows,
} from '../../models/index.ts';
import type { DepthTotal, Quantity, Stratum, SubstrateTotal } from '../../shared/estimate.ts';

/** Limits where nothing was detected, clusters per m². */
export interface UpperLimits {
  classes: ClassLimit[];
  /** of the whole survey when nothing was detected anywhere; else null */
  overall: number | null;
}

export interface ToTakeApart {
  rows: SurveyRows;
  mapped: MappedHabitat[];
  summed: AverageSums;
  limits: UpperLimits;
  quantity(estimate: number, se: number): Quantity;
}

export interface TakenApart {
  strata: Stratum[];
  margins: { by_substrate: SubstrateTotal[]; by_depth: DepthTotal[] };
}

export function takenApart(bed: ToTakeApart): TakenApart {
  const labels = bed.mapped.map((h) => labelOf(h, bed.rows.classNames));
  const [{ sums }] = bed.summed;
  const labelled = sums.map((sum, place) => ({ sum, place, label: labels[sum.habitat] }));
  const byLabel = grouped(labelled, ({ label }) => label.text).sort(
    ([a], [b]) => a.label.order - b.label.order || a.label.text.localeCompare(b.label.text, 'en'),
  );
  const byBand = (some: Labelled[]): Labelled[][] =>
    grouped(some, ({ sum }) => String(sum.band)).sort(([a], [b]) => a.sum.band - b.sum.band);
  const own = (some: Labelled[]) => numbersOf(bed, some);
  const band = ({ sum }: Labelled) => ({ depth_from_m: sum.band, depth_to_m: sum.band + 1 });
  return {
    strata: byLabel.flatMap((some) =>
      byBand(some).map((few) => ({
        substrate: few[0].label.text,
        ...band(few[0]),
        ...own(few),
      })),
    ),
    margins: {
      by_substrate: byLabel.map((some) => ({ substrate: some[0].label.text, ...own(some) })),
      by_depth: byBand(labelled).map((some) => ({ ...band(some[0]), ...own(some) })),
    },
  };
}

interface Label {
  /** classes joined by + in the order of analysis.substrates */
  text: string;
  order: number;
}
/** A sum of the first model, and its place among the sums of each. */
type Labelled = { sum: HabitatSum; place: number; label: Label };
type Group = [Labelled, ...Labelled[]];

function labelOf({ classes }: MappedHabitat, names: readonly string[]): Label {
  const [first = 0, second] = [...classes].sort((a, b) => a - b);
  return {
    text: [...classes]
      .sort((a, b) => a - b)
      .map((c) => names[c])
      .join('+'),
    order: first * 1000 + (second === undefined ? 0 : 500 + second),
  };
}

function grouped(all: readonly Labelled[], keyOf: (one: Labelled) => string): Group[] {
  const groups = new Map<string, Group>();
  for (const one of all) {
    const group = groups.get(keyOf(one));
    if (group) group.push(one);
    else groups.set(keyOf(one), [one]);
  }
  return [...groups.values()];
}

function numbersOf(
  { summed, limits, quantity, mapped }: ToTakeApart,
  some: readonly Labelled[],
): Pick<Stratum, 'area_m2' | 'mussels_per_m2' | 'mussels'> {
  const t = averageTotal(
    summed,
    some.map(({ place }) => place),
  );
  const isSeparated = t.separatedM2 >= t.areaM2 * (1 - 1e-12);
  const most = isSeparated ? mostOf(some, mapped, summed, limits) : null;
  if (most === null)
    return {
      area_m2: t.areaM2,
      mussels_per_m2: quantity(t.mussels / t.areaM2, t.musselsSe / t.areaM2),
      mussels: quantity(t.mussels, t.musselsSe),
    };
  // how many mussels a cluster holds is unknown when none was detected
  const upper = limits.overall === null ? most : null;
  return {
    area_m2: t.areaM2,
    mussels_per_m2: atMost(upper === null ? null : upper / t.areaM2),
    mussels: atMost(upper),
  };
}

/** Mussels that can be where nothing was detected: each habitat's own limit. Of several classes that is a cautious sum. */
function mostOf(
  some: readonly Labelled[],
  mapped: MappedHabitat[],
  summed: AverageSums,
  { classes }: UpperLimits,
): number | null {
  const [{ model }] = summed;
  let most = 0;
  for (const { sum } of some) {
    const limit = limitOf(classes, mapped[sum.habitat], model.fit.parts);
    if (limit === null) return null;
    most += limit * Math.exp(model.densities[sum.habitat].logMussels) * sum.areaM2;
  }
  return most;
}

/** Nothing detected: 0 with an upper limit. */
export function atMost(upper: number | null): Quantity {
  return { estimate: 0, se: null, cv: null, lower: 0, upper };
}
