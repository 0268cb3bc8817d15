/** The density as pixels. */

import { describe, expect, it } from 'vitest';
import type { Surface } from '../../shared/result.ts';
import type { Bed, GridFrame, Plane } from '../../shared/survey.ts';
import type { PaintOptions } from '../../src/app/contract.ts';
import { densityRange, paintBreaks, paintPixels } from '../../src/app/worker/paint.ts';
import { paintFrame } from '../../src/app/worker/paint-frame.ts';
import { makePlane } from '../../src/place/index.ts';
import { CHANCE_RAMP, CV_RAMP, classColour, NO_VALUE, rgbOf } from '../../src/present/ramp.ts';
import { cvOfRatio } from '../../src/present/unsure.ts';

const PLAIN: PaintOptions = {
  dark: false,
  surface: 'density',
  stretched: false,
  thresholdPerM2: 1,
  depthM: null,
  substrate: null,
};
const BASIS = { level: 0.95, transectEffect: false, transects: 6 };

function planeAt(lon: number, lat: number): Plane {
  const ring = [
    [lon - 1e-4, lat - 1e-4],
    [lon + 1e-4, lat - 1e-4],
    [lon + 1e-4, lat + 1e-4],
    [lon - 1e-4, lat + 1e-4],
    [lon - 1e-4, lat - 1e-4],
  ] as [number, number][];
  const lake = { outline: [[ring]], substrate: null, depth: null, treatments: [] };
  return makePlane(lake, { transects: [], habitat: [], detections: [] });
}

/** Three cells by two: found, unsure, dense; not searched, off the lake, nothing found on its class. */
function smallBed(): { bed: Bed; surface: Surface } {
  const frame: GridFrame = { x0: 0, y0: 10, cellM: 5, nx: 3, ny: 2 };
  const bed: Bed = {
    frame,
    habitats: [
      { substrate: ['sand'], plantCover: 0 },
      { substrate: ['rock', 'gravel'], plantCover: 0 },
    ],
    pieces: {
      count: 5,
      cell: Int32Array.of(0, 1, 2, 3, 5),
      habitat: Uint16Array.of(0, 0, 1, 0, 1),
      areaM2: Float64Array.of(25, 25, 25, 25, 25),
      depthM: Float64Array.of(1, 2, 3, 9, 3),
      reason: Uint8Array.of(0, 0, 0, 3, 0),
      band: Uint16Array.of(1, 2, 3, 9, 3),
    },
    outlineM2: 150,
    unmappedM2: 25,
    cellDepthM: Float32Array.of(1, 2, 3, 9, Number.NaN, 3),
  };
  const no = Number.NaN;
  const surface: Surface = {
    densityPerM2: Float32Array.of(0.3, 2, 50, no, no, 0),
    cv: Float32Array.of(0.2, 0.6, 0.2, no, no, no),
    inside: Float32Array.of(1, 1, 1, 0, no, 1),
    aboveThreshold: null,
  };
  return { bed, surface };
}

describe('a small grid', () => {
  const { bed, surface } = smallBed();
  const plane = planeAt(-93, 45);
  const frame = paintFrame(bed.frame, plane);
  const colourOf = (cell: number, options = PLAIN): string => {
    const pixels = paintPixels(frame, bed, surface, options, BASIS);
    return [...pixels.subarray(cell * 4, cell * 4 + 4)].join();
  };
  const opaque = (hex: string) => [...rgbOf(hex), 255].join();

  it('has a pixel a cell and lies between the corners of its frame', () => {
    expect([frame.width, frame.height]).toEqual([3, 2]);
    frame.corners.forEach((corner, k) => {
      const [x, y] = plane.forward(corner);
      expect([x, y]).toEqual(
        [
          [0, 10],
          [15, 10],
          [15, 0],
          [0, 0],
        ][k].map((v) => expect.closeTo(v, 6)),
      );
    });
  });

  it('shows found, less sure, not searched, and nothing off the lake', () => {
    expect(colourOf(0)).toEqual(opaque(classColour(2, false)));
    expect(colourOf(1)).toEqual(opaque(classColour(3, false, true)));
    expect(colourOf(2)).toEqual(opaque(classColour(5, false)));
    expect(colourOf(3)).toEqual('0,0,0,0'); // the map's own hatch shows through
    expect(colourOf(4)).toEqual('0,0,0,0');
    // a limit and no interval: the lowest class, less sure
    expect(colourOf(5)).toEqual(opaque(classColour(0, false, true)));
  });

  it('follows night, a depth band and a substrate', () => {
    expect(colourOf(0, { ...PLAIN, dark: true })).toEqual(opaque(classColour(2, true)));
    const band = { ...PLAIN, depthM: { from: 1, to: 2 } };
    expect(colourOf(0, band)).toEqual(colourOf(0));
    expect(colourOf(2, band)).not.toEqual(colourOf(2));
    for (const mixture of ['rock+gravel', 'gravel+rock']) {
      const lit = { ...PLAIN, substrate: mixture };
      expect(colourOf(2, lit)).toEqual(colourOf(2));
      expect(colourOf(0, lit)).not.toEqual(colourOf(0));
    }
    const gravel = { ...PLAIN, substrate: 'gravel' };
    expect(colourOf(2, gravel)).not.toEqual(colourOf(2)); // a part of the mixture is not the mixture
  });
});

describe('the other surfaces of the same cells', () => {
  const { bed, surface } = smallBed();
  const frame = paintFrame(bed.frame, planeAt(-93, 45));
  const coloursOf = (options: PaintOptions): string[] => {
    const pixels = paintPixels(frame, bed, surface, options, BASIS);
    return [0, 1, 2, 3, 5].map((c) => [...pixels.subarray(c * 4, c * 4 + 4)].join());
  };
  const opaque = (hex: string) => [...rgbOf(hex), 255].join();
  const outside = '0,0,0,0';

  it('the chance of more than 1 per m², 0 where nothing was detected on the class', () => {
    const { light } = CHANCE_RAMP;
    // by hand: Φ(ln 0.3/0.2) = Φ(−6.02) = 0; Φ(ln 2/0.6) = Φ(1.155) = 0.876, below 0.95; Φ(ln 50/0.2) = 1
    expect(coloursOf({ ...PLAIN, surface: 'chance' })).toEqual([
      opaque(light[0]),
      opaque(light[4]),
      opaque(light[5]),
      outside,
      opaque(light[0]),
    ]);
    // Φ(ln(2/4)/0.6) = Φ(−1.155) = 0.124
    expect(coloursOf({ ...PLAIN, surface: 'chance', thresholdPerM2: 4 })[1]).toBe(opaque(light[1]));
  });

  it('the CV, and that there is none', () => {
    const { dark } = CV_RAMP;
    expect(coloursOf({ ...PLAIN, dark: true, surface: 'cv' })).toEqual([
      opaque(dark[1]), // 0.2
      opaque(dark[3]), // 0.6
      opaque(dark[1]),
      outside,
      opaque(NO_VALUE.dark),
    ]);
  });

  it('density stretched to the lake: its least in the first class, its greatest in the last', () => {
    const colours = coloursOf({ ...PLAIN, stretched: true });
    expect(colours[0]).toBe(opaque(classColour(0, false)));
    expect(colours[2]).toBe(opaque(classColour(6, false)));
    expect(paintBreaks(PLAIN, surface)).toEqual([0.05, 0.2, 1, 5, 20, 100]);
  });

  it('has a range of nearly all cells: one in a hundred at either end does not count', () => {
    const even = Float32Array.from({ length: 1000 }, (_, i) => 1 + i / 1000);
    even[0] = 1e-6;
    even[1] = 1e6;
    even[2] = Number.NaN;
    even[3] = 0;
    const { from, to } = densityRange(even)!;
    // by hand: 1.01 to 1.99 but for 10^(1/100) = 2.3 %
    expect(Math.abs(from - 1.01)).toBeLessThan(0.03);
    expect(Math.abs(to - 1.99)).toBeLessThan(0.05);
    expect(densityRange(Float32Array.of(0, Number.NaN))).toBeNull();
  });
});

describe('less sure', () => {
  it('begins where the upper limit is five times the lower', () => {
    // by hand: ln 5 / (2 · 1.959964) = 0.410577; √(e^(0.410577²) − 1) = 0.42850
    expect(cvOfRatio(BASIS)).toBeCloseTo(0.4285, 4);
  });

  it('is everything where there is no interval', () => {
    expect(cvOfRatio({ level: 0.95, transectEffect: true, transects: 1 })).toBe(0);
  });
});

describe('a wide grid', () => {
  it('has under each pixel the cell that lies there, though its rows are not rows of the map', () => {
    const plane = planeAt(-93, 60);
    const grid: GridFrame = { x0: -30_000, y0: 15_000, cellM: 50, nx: 1200, ny: 600 };
    const frame = paintFrame(grid, plane);
    const [nw, , se] = frame.corners;
    const mercator = (lat: number) => Math.log(Math.tan(Math.PI / 4 + (lat * Math.PI) / 360));
    let wrong = 0;
    let on = 0;
    for (let k = 0; k < 5000; k++) {
      const i = (k * 7919) % frame.width;
      const j = (k * 104_729) % frame.height;
      const lon = nw[0] + ((se[0] - nw[0]) * (i + 0.5)) / frame.width;
      const y = mercator(nw[1]) + ((mercator(se[1]) - mercator(nw[1])) * (j + 0.5)) / frame.height;
      const lat = (Math.atan(Math.exp(y)) * 360) / Math.PI - 90;
      const [px, py] = plane.forward([lon, lat]);
      const column = Math.floor((px - grid.x0) / grid.cellM);
      const row = Math.floor((grid.y0 - py) / grid.cellM);
      const inside = column >= 0 && column < grid.nx && row >= 0 && row < grid.ny;
      if (inside) on++;
      if (frame.cells![j * frame.width + i] !== (inside ? row * grid.nx + column : -1)) wrong++;
    }
    expect(on).toBeGreaterThan(4000);
    // positions are interpolated to a few centimetres: 0.1 % of pixels may fall on the other side of a 50 m cell's edge
    expect(wrong).toBeLessThanOrEqual(10);
  });
});
