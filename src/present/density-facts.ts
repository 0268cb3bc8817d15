/** What stands out in the densities: where mussels concentrate, where nothing was detected. */

import { extent } from '../../shared/extent.ts';
import { term, terms } from '../../shared/glossary.ts';
import type { DensityCurve, SurveyResult } from '../../shared/result.ts';
import {
  formatDepth,
  formatDepthBand,
  formatPercent,
  type UnitSystem,
} from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import { type DensityReading, readingAt } from './density-curve.ts';
import { sampledBand } from './depths.ts';
import { plantBasis } from './plant-basis.ts';
import { intervalName } from './quantity.ts';

/** Depths that agree to this are one. */
const ROUNDING = 1e-9;

/** Where mussels concentrate. */
export interface Concentration {
  /** the highest density */
  densest: DensityReading;
  /** the substrate whose highest density is the lowest, where there are two or more */
  sparsest: DensityReading | null;
  /** where that is, `0.5 m`; null where the curve is the same at every depth */
  depth: string | null;
  /** `95 % confidence interval` */
  intervalName: string;
  /** `with the plant cover recorded there`, where the densities depend on it; else null */
  plants: string | null;
  /** `0.5 to 6.1 m`: the depths that were recorded */
  recorded: string;
}

/** A curve whose highest and lowest density differ by less than this share does not follow depth. */
const LEVEL = 0.01;

/** Within the depths that were recorded (not the tolerance beyond them); null without a density above 0. */
export function concentration(
  result: Pick<SurveyResult, 'curves' | 'survey' | 'analysis' | 'estimate'>,
  units: UnitSystem = 'metric',
): Concentration | null {
  const { curves, survey, analysis } = result;
  const sampled = sampledBand(survey);
  if (sampled === null) return null;
  const { fromM, toM } = sampled;
  const summits = curves
    .flatMap((c) => summitOf(c, fromM, toM) ?? [])
    .sort((a, b) => b.value.estimate - a.value.estimate);
  const [densest, ...others] = summits;
  if (densest === undefined || !(densest.value.estimate > 0)) return null;
  const level = isLevel(densest.curve);
  const last = others.at(-1);
  return {
    densest,
    sparsest: last ?? null,
    depth: level ? null : formatDepth(densest.depthM, units),
    intervalName: intervalName(analysis.interval),
    plants: plantBasis(result)?.phrase ?? null,
    recorded: formatDepthBand(fromM, toM, units),
  };
}

type Summit = DensityReading & { depthM: number; curve: DensityCurve };

/** Where a curve is highest within a depth band; null when it has no point there. */
function summitOf(curve: DensityCurve, fromM: number, toM: number): Summit | null {
  let best: number | null = null;
  let most = -Infinity;
  curve.depthM.forEach((depthM, i) => {
    const density = curve.musselsPerM2[i] ?? -Infinity;
    if (depthM < fromM - ROUNDING || depthM > toM + ROUNDING || density <= most) return;
    best = depthM;
    most = density;
  });
  const reading = best === null ? null : readingAt(curve, best);
  return best === null || reading === null ? null : { ...reading, depthM: best, curve };
}

function isLevel({ musselsPerM2 }: DensityCurve): boolean {
  const [least, most] = extent(musselsPerM2);
  return most - least < LEVEL * most;
}

/** Substrates and plant cover on which nothing was detected, with what can still be there; null when there are none. */
export function emptyClasses({
  estimate,
  analysis,
}: Pick<SurveyResult, 'estimate' | 'analysis'>): string | null {
  const limits = estimate.upper_limits;
  if (limits.length === 0) return null;
  const known = limits.flatMap(({ class: name, clusters_per_m2: limit }) =>
    limit === null ? [] : [`${limit.toPrecision(2)} ${terms('cluster')} per m² on ${name}`],
  );
  const names = listed(
    limits.map((l) => l.class),
    'and',
  );
  const upper =
    known.length === 0
      ? `with no ${formatPercent(analysis.interval)} ${term('upperLimit')} that could be computed`
      : `with a ${formatPercent(analysis.interval)} ${term('upperLimit')} of ${listed(known, 'and')}`;
  return `Nothing was detected on ${names}: the density there is given as 0, ${upper}. That is what could have been missed, not a sign that none live there.`;
}
