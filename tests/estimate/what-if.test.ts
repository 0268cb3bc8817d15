/** The total under other assumptions: borders by hand on a bed of four cells; other models against runs that ask for them. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { HabitatDensity, Predictor } from '../../models/index.ts';
import { shiftedBorders } from '../../src/estimate/borders.ts';
import { estimateSurvey } from '../../src/pipeline.ts';
import { lakePath } from '../helpers/reference-lake.ts';

/** Density e^depth times the habitat's own, so that each piece keeps its depth's share. */
const predictor: Predictor = {
  parameterCount: 0,
  depthColumns: 1,
  depthFrom: 0,
  columnsAt: (depthM, out) => {
    out[0] = depthM;
  },
  curveAt: ([depthM]) => depthM,
  habitat: () => {
    throw new Error('not asked for');
  },
};

/** Mussels per m² at depth 0, two a cluster. */
const density = (musselsPerM2: number): HabitatDensity => ({
  base: Math.log(musselsPerM2 / 2),
  gradient: new Float64Array(),
  logMussels: Math.log(2),
  gradientMussels: new Float64Array(),
});

/** A row of cells of 5 m, a piece each. */
function row(pieces: { cell: number; habitat: number; depthM?: number; reason?: number }[]) {
  const n = pieces.length;
  return {
    frame: { x0: 0, y0: 0, cellM: 5, nx: 5, ny: 1 },
    pieces: {
      count: n,
      cell: Int32Array.from(pieces, (p) => p.cell),
      habitat: Uint16Array.from(pieces, (p) => p.habitat),
      areaM2: new Float64Array(n).fill(25),
      depthM: Float64Array.from(pieces, (p) => p.depthM ?? 0),
      reason: Uint8Array.from(pieces, (p) => p.reason ?? 0),
      band: new Uint16Array(n),
    },
  };
}

const DENSITIES = [density(1), density(3), density(10)];

describe('borders of the map moved', () => {
  it('gives the cells on both sides to the sparser or to the denser habitat', () => {
    // 1 1 | 3 3: by hand, cell 1 could have 3 (25 × 2 more), cell 2 could have 1 (25 × 2 fewer)
    const bed = row([0, 0, 1, 1].map((habitat, cell) => ({ cell, habitat })));
    const moved = shiftedBorders(bed, DENSITIES, predictor);
    expect(moved).toMatchObject({ cellM: 5, areaM2: 50 });
    expect(moved?.more).toBeCloseTo(50, 10);
    expect(moved?.fewer).toBeCloseTo(50, 10);
  });

  it('keeps the depth of each piece', () => {
    // cell 1 at 1 m: 25 × (3 − 1) × e more
    const bed = row([
      { cell: 0, habitat: 1 },
      { cell: 1, habitat: 0, depthM: 1 },
    ]);
    const moved = shiftedBorders(bed, DENSITIES, predictor);
    expect(moved?.more).toBeCloseTo(50 * Math.E, 10);
    expect(moved?.fewer).toBeCloseTo(50, 10);
  });

  it('reaches the cells beside one that a border cuts', () => {
    // cell 1 holds both; cells 0 and 2 each see the other side in it, cells 3 and 4 do not
    const bed = row([
      { cell: 0, habitat: 0 },
      { cell: 1, habitat: 0 },
      { cell: 1, habitat: 2 },
      { cell: 2, habitat: 2 },
      { cell: 3, habitat: 2 },
    ]);
    const moved = shiftedBorders(bed, DENSITIES, predictor);
    expect(moved?.areaM2).toBe(100);
    expect(moved?.more).toBeCloseTo(2 * 25 * 9, 10);
    expect(moved?.fewer).toBeCloseTo(2 * 25 * 9, 10);
  });

  it('does not look outside of the surveyed habitat, and is null without a border', () => {
    const outside = { cell: 1, habitat: 2, reason: 1 };
    expect(
      shiftedBorders(row([{ cell: 0, habitat: 0 }, outside]), DENSITIES, predictor),
    ).toBeNull();
  });

  it('takes a habitat on which nothing was detected as none', () => {
    const empty = { ...density(1), base: -Infinity };
    const bed = row([0, 1].map((habitat, cell) => ({ cell, habitat })));
    const moved = shiftedBorders(bed, [empty, density(3)], predictor);
    expect(moved?.more).toBeCloseTo(75, 10);
    expect(moved?.fewer).toBeCloseTo(75, 10);
  });
});

const LAKE = lakePath('distance-halfnormal-point');

/** The reference lake with other choices of density and detection, as its analysis.json has them. */
async function withChoices(density: object, detection: object) {
  const files = new Map(
    readdirSync(LAKE).map((file) => [file, new Uint8Array(readFileSync(join(LAKE, file)))]),
  );
  const own = JSON.parse(readFileSync(join(LAKE, 'analysis.json'), 'utf8'));
  const analysis = {
    ...own,
    density: { ...own.density, ...density },
    detection: { ...own.detection, ...detection },
  };
  files.set('analysis.json', new TextEncoder().encode(JSON.stringify(analysis)));
  const done = await estimateSurvey({ name: 'lake', files });
  if (!done.ok) throw new Error('no estimate');
  return done.result;
}

describe('other models', () => {
  it('have the totals of runs that ask for them', { timeout: 120_000 }, async () => {
    const { whatIf, estimate } = await withChoices({ family: 'auto' }, { shape: 'auto' });
    const others = whatIf?.models ?? [];
    expect(others.length).toBeGreaterThan(0);
    for (const { delta } of others) expect(delta).toBeLessThanOrEqual(10);
    const [{ family, shape, mussels, delta }] = others;
    const alone = (await withChoices({ family }, { shape })).estimate;
    const total = alone.abundance?.mussels;
    // a bed condensed to 2 cm of depth is off by less than 1e-5, and another search ends within 1e-6 of a standard error
    expect(mussels.estimate / (total?.estimate ?? 0)).toBeCloseTo(1, 4);
    expect((mussels.se ?? 0) / (total?.se ?? 0)).toBeCloseTo(1, 4);
    expect(delta).toBeCloseTo((alone.model.aicc ?? 0) - (estimate.model.aicc ?? 0), 5);
  });
});
