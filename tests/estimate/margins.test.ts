/**
 * Totals by substrate and by depth band: they add up to the lake's, and their standard errors are those of the sum. The
 * independent route: the total summed piece by piece at parameters moved a little to either side, the slope by central
 * differences, and gᵀΣg of it with the fit's covariance.
 */

import { beforeAll, describe, expect, it } from 'vitest';
import { at } from '../../models/fit/fitted-model.ts';
import { predictor } from '../../models/index.ts';
import { depthCurves } from '../../src/estimate/density-curves.ts';
import { mappedHabitats } from '../../src/estimate/rows.ts';
import { type EstimatedLake, referenceLake } from '../helpers/reference-lake.ts';

/** A central difference with this step is off by about 1e-8 of itself. */
const STEP = 1e-4;
const SAME = 1e-6;

describe('margins of the lake-wide total', () => {
  let lake: EstimatedLake;
  beforeAll(async () => {
    lake = await referenceLake('both-effect-size');
  }, 120_000);

  const margins = () => {
    const { margins: both } = lake.result.estimate;
    if (both === null) throw new Error('no margins');
    return both;
  };

  it.each(['by_substrate', 'by_depth'] as const)('%s add up to the whole', (which) => {
    const { abundance } = lake.result.estimate;
    const rows = margins()[which];
    expect(rows.length).toBeGreaterThan(1);
    const sum = (of: (row: (typeof rows)[number]) => number) =>
      rows.reduce((total, row) => total + of(row), 0);
    expect(sum((r) => r.mussels?.estimate ?? Number.NaN)).toBeCloseTo(
      abundance?.mussels?.estimate ?? Number.NaN,
      6,
    );
    expect(sum((r) => r.area_m2)).toBeCloseTo(abundance?.area_m2 ?? Number.NaN, 6);
  });

  it('have a density that is the number over the area', () => {
    for (const row of [...margins().by_substrate, ...margins().by_depth])
      expect((row.mussels_per_m2?.upper ?? Number.NaN) * row.area_m2).toBeCloseTo(
        row.mussels?.upper ?? Number.NaN,
        6,
      );
  });

  it('have the standard error of their sum, by central differences', () => {
    const { bed, analysis } = lake;
    const labels = mappedHabitats(bed.habitats, analysis).map((h) => labelOf(h.classes, analysis));
    for (const row of margins().by_substrate) {
      const se = seByDifferences(lake, (i) => labels[bed.pieces.habitat[i]] === row.substrate);
      expect(Math.abs((row.mussels?.se ?? 0) / se - 1)).toBeLessThan(SAME);
    }
    for (const row of margins().by_depth) {
      const se = seByDifferences(lake, (i) => bed.pieces.band[i] === row.depth_from_m);
      expect(Math.abs((row.mussels?.se ?? 0) / se - 1)).toBeLessThan(SAME);
    }
  });

  it('are not as sure as errors that are independent would make them', () => {
    const { strata } = lake.result.estimate;
    const apart = margins().by_substrate.map(({ substrate }) =>
      Math.hypot(
        ...(strata ?? [])
          .filter((s) => s.substrate === substrate)
          .map((s) => s.mussels?.se ?? Number.NaN),
      ),
    );
    // detection and the count distribution are shared, so that errors go together
    margins().by_substrate.forEach((row, i) => {
      expect(row.mussels?.se ?? 0).toBeGreaterThan(apart[i]);
    });
  });
});

describe('curves of density against depth', () => {
  it('are there for every class and mixture that the map has, over the depths at which it has it', async () => {
    const { rows, members, analysis, result, bed: own } = await referenceLake('both-effect-size');
    // what the map calls by its first name is now a mixture of the first two
    const [first, second] = result.domain.classes;
    const bed = {
      ...own,
      habitats: own.habitats.map((h, i) => (i === 0 ? { ...h, substrate: [second, first] } : h)),
    };
    const labels = mappedHabitats(bed.habitats, analysis).map((h) => labelOf(h.classes, analysis));
    const depthsOf = (label: string): number[] =>
      [...bed.pieces.depthM].filter(
        (_, i) => bed.pieces.reason[i] === 0 && labels[bed.pieces.habitat[i]] === label,
      );
    const mapped = [...new Set(labels)].filter((label) => depthsOf(label).length > 0);
    const curves = depthCurves(rows, members, null, analysis, result.domain, bed).filter((c) =>
      mapped.includes(c.substrate.join('+')),
    );
    expect(curves.map((c) => c.substrate.join('+')).sort()).toEqual(mapped.sort());
    expect(mapped).toContain(`${first}+${second}`);
    for (const { substrate, depthM } of curves) {
      const depths = depthsOf(substrate.join('+')).sort((a, b) => a - b);
      // to the tenth of a metre beyond
      expect(Math.abs(depthM[0] - depths[0])).toBeLessThan(0.1);
      expect(Math.abs((depthM.at(-1) ?? 0) - (depths.at(-1) ?? 0))).toBeLessThan(0.1);
    }
  }, 120_000);
});

function labelOf(classes: readonly number[], { substrates }: EstimatedLake['analysis']): string {
  return [...classes]
    .sort((a, b) => a - b)
    .map((c) => substrates[c])
    .join('+');
}

/** Standard error of the mussels on the inside pieces that `belongs` names. */
function seByDifferences(
  { rows, analysis, bed, fit }: EstimatedLake,
  belongs: (piece: number) => boolean,
): number {
  const mapped = mappedHabitats(bed.habitats, analysis);
  const own: number[] = [];
  for (let i = 0; i < bed.pieces.count; i++)
    if (bed.pieces.reason[i] === 0 && belongs(i)) own.push(i);
  const musselsAt = (point: Float64Array): number => {
    const p = predictor(rows, { ...fit, ...at(fit.likelihood, point) });
    const densities = mapped.map((h) => p.habitat(h));
    const columns = new Float64Array(p.depthColumns);
    return own.reduce((sum, i) => {
      const { base, logMussels } = densities[bed.pieces.habitat[i]];
      p.columnsAt(bed.pieces.depthM[i], columns);
      return sum + bed.pieces.areaM2[i] * Math.exp(base + logMussels + p.curveAt(columns));
    }, 0);
  };
  const slope = [...fit.estimates].map((value, k) => {
    const moved = (by: number) => musselsAt(fit.estimates.with(k, value + by));
    return (moved(STEP) - moved(-STEP)) / (2 * STEP);
  });
  let variance = 0;
  for (const [j, a] of slope.entries())
    for (const [k, b] of slope.entries()) variance += a * fit.covariance[j * slope.length + k] * b;
  return Math.sqrt(variance);
}
