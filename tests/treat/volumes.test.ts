/** Areas, depths and volumes of beds whose integrals are known by hand; units by their definitions. */

import { describe, expect, it } from 'vitest';
import type { BedPieces } from '../../shared/survey.ts';
import { M2_PER_ACRE, M3_PER_ACRE_FOOT } from '../../shared/units.ts';
import { volumesOf } from '../../src/treat/area.ts';

/** Squares of `side` m over a square of `half` m to each side, with the depth of their middles. */
function bedOf(half: number, side: number, depthAt: (x: number, y: number) => number) {
  const n = Math.round((2 * half) / side);
  const areaM2: number[] = [];
  const depthM: number[] = [];
  for (let row = 0; row < n; row++)
    for (let column = 0; column < n; column++) {
      const depth = depthAt(-half + (column + 0.5) * side, -half + (row + 0.5) * side);
      if (depth <= 0) continue;
      areaM2.push(side * side);
      depthM.push(depth);
    }
  const count = areaM2.length;
  const pieces: BedPieces = {
    count,
    cell: new Int32Array(count),
    habitat: new Uint16Array(count),
    areaM2: Float64Array.from(areaM2),
    depthM: Float64Array.from(depthM),
    reason: new Uint8Array(count),
    band: new Uint16Array(count),
  };
  const frame = { x0: -half, y0: half, cellM: side, nx: n, ny: n };
  return {
    pieces,
    frame,
    habitats: [],
    outlineM2: 0,
    unmappedM2: 0,
    cellDepthM: new Float32Array(0),
  };
}

describe('units', () => {
  it('an acre and an acre-foot are what the international foot makes them', () => {
    // by hand: 43,560 ft² and 43,560 ft³, 1 ft = 0.3048 m
    expect(M2_PER_ACRE).toBe(4046.8564224);
    expect(M3_PER_ACRE_FOOT).toBeCloseTo(1233.48183754752, 10);
  });
});

describe('volumes', () => {
  it('of a plane, whole and its top layer', () => {
    // by hand: depth from 0 to 8 m over 100 m × 100 m holds 40,000 m³; min(depth, 2) = 2 on three quarters, mean 1 on one
    const { volumeM3, layerM3, knownM2 } = volumesOf(
      bedOf(50, 1, (x) => 0.08 * (x + 50)),
      2,
    );
    expect(knownM2).toBeCloseTo(10_000, 6);
    expect(volumeM3).toBeCloseTo(40_000, 6);
    expect(layerM3).toBeCloseTo(17_500, 6);
  });

  it('of a paraboloid', () => {
    // by hand: depth 10(1 − r²/R²) holds πR²·10/2; the top h m hold that without the part below, πR²(1 − h/10)²·10/2
    const R = 100;
    const { volumeM3, layerM3, deepestM } = volumesOf(
      bedOf(R, 0.5, (x, y) => 10 * (1 - (x * x + y * y) / R ** 2)),
      4,
    );
    const whole = (Math.PI * R ** 2 * 10) / 2;
    // squares of half a metre along a rim of 628 m on which the depth is next to 0
    expect(Math.abs(volumeM3 / whole - 1)).toBeLessThan(1e-5);
    expect(Math.abs(layerM3 / (whole * (1 - 0.6 ** 2)) - 1)).toBeLessThan(1e-5);
    expect(deepestM).toBeCloseTo(10, 3);
  });

  it('refuses a layer that is none', () => {
    expect(() =>
      volumesOf(
        bedOf(1, 1, () => 1),
        0,
      ),
    ).toThrow('got a layer of 0 m');
  });
});
