import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pointAlong } from '../../shared/rope.ts';
import type { XY } from '../../shared/survey.ts';
import { adjust, type Observed, wrap } from '../../src/place/adjust.ts';
import { normals } from './normals.ts';

const DEGREE = Math.PI / 180;
const observed = (changes: Partial<Observed> = {}): Observed => ({
  start: [0, 0],
  end: [0, 30],
  bearing: 0,
  lengthM: 30,
  gpsSdM: 4,
  compassSd: 4 * DEGREE,
  ...changes,
});

/** The sum of squares (METHOD.md: Placing a transect), written down a second time. */
function sumOfSquares(o: Observed, [x, y, direction]: number[]): number {
  const ex = x! + o.lengthM * Math.sin(direction!);
  const ey = y! + o.lengthM * Math.cos(direction!);
  let sum = ((o.start[0] - x!) ** 2 + (o.start[1] - y!) ** 2) / o.gpsSdM ** 2;
  if (o.end) sum += ((o.end[0] - ex) ** 2 + (o.end[1] - ey) ** 2) / o.gpsSdM ** 2;
  if (o.bearing !== null) {
    let turn = (direction! - o.bearing) % (2 * Math.PI);
    if (turn > Math.PI) turn -= 2 * Math.PI;
    if (turn < -Math.PI) turn += 2 * Math.PI;
    sum += turn ** 2 / o.compassSd ** 2;
  }
  return sum;
}

/** Compass search: try a step either way in each unknown, halve the step when nothing is better. */
function search(o: Observed, from: number[]): { at: number[]; value: number } {
  let at = from;
  let value = sumOfSquares(o, at);
  let steps = [4, 4, 0.2];
  while (steps[0] > 1e-9) {
    let better = false;
    for (let i = 0; i < 3; i++) {
      for (const sign of [1, -1]) {
        const next = [...at];
        next[i] += sign * steps[i];
        const v = sumOfSquares(o, next);
        if (v < value) [at, value, better] = [next, v, true];
      }
    }
    if (!better) steps = steps.map((s) => s / 2);
  }
  return { at, value };
}

describe('the adjustment is the minimum that a brute search finds', () => {
  it.each([
    ['small disagreement', observed({ end: [3, 33], bearing: 8 * DEGREE })],
    ['a rope too short', observed({ end: [20, 60], bearing: 30 * DEGREE, lengthM: 29 })],
    ['a bearing at right angles', observed({ end: [28, 3], bearing: 0 })],
    ['a reversed bearing', observed({ end: [1, 31], bearing: 182 * DEGREE })],
    ['a good compass, a bad receiver', observed({ end: [20, 20], gpsSdM: 12, compassSd: DEGREE })],
    ['a bad compass', observed({ end: [20, 20], bearing: 200 * DEGREE, compassSd: 40 * DEGREE })],
    ['no bearing', observed({ end: [-17, -31], bearing: null })],
    ['across north', observed({ end: [4, 28], bearing: 352 * DEGREE })],
    ['across south', observed({ end: [4, -28], bearing: -174 * DEGREE })],
  ])('%s', (_name, o) => {
    const found = adjust(o);
    const value = sumOfSquares(o, [...found.start, found.direction]);
    // from every eighth of the circle, so that no second minimum is missed
    const tries = [0, 1, 2, 3, 4, 5, 6, 7].map((k) => search(o, [...o.start, (k * Math.PI) / 4]));
    const best = tries.reduce((a, b) => (b.value < a.value ? b : a));
    // the search stops at steps of 1e-9 m; near a minimum the value is then good to rounding
    expect(found.sumOfSquares).toBeCloseTo(value, 9);
    expect(value).toBeLessThanOrEqual(best.value * (1 + 1e-12) + 1e-12);
    expect(best.value - value).toBeLessThan(1e-9 * Math.max(1, value));
    expect(Math.abs(found.start[0] - best.at[0])).toBeLessThan(1e-4);
    expect(Math.abs(found.start[1] - best.at[1])).toBeLessThan(1e-4);
    expect(Math.abs(wrap(found.direction - best.at[2]))).toBeLessThan(1e-5);
  });
});

describe('properties', () => {
  const place = fc.double({ min: -500, max: 500, noNaN: true });
  const turn = fc.double({ min: 0, max: 360, maxExcluded: true, noNaN: true });
  const length = fc.double({ min: 1, max: 200, noNaN: true });
  const shift = fc.double({ min: -15, max: 15, noNaN: true });
  const along = (s: XY, deg: number, l: number): XY => [
    s[0] + l * Math.sin(deg * DEGREE),
    s[1] + l * Math.cos(deg * DEGREE),
  ];
  const placedOf = (found: ReturnType<typeof adjust>) => ({
    start: found.start,
    gridBearingDeg: found.direction / DEGREE,
    covariance: found.covariance,
  });

  it('what fits exactly is left as it is, in every direction, with or without a bearing', () => {
    fc.assert(
      fc.property(place, place, turn, length, fc.boolean(), (x, y, deg, lengthM, compass) => {
        const end = along([x, y], deg, lengthM);
        const bearing = compass ? deg * DEGREE : null;
        const found = adjust(observed({ start: [x, y], end, bearing, lengthM }));
        // rounding of coordinates of 700 m: 1e-13 m, and a thousandfold room
        expect(Math.hypot(found.start[0] - x, found.start[1] - y)).toBeLessThan(1e-10);
        expect(Math.abs(wrap(found.direction - deg * DEGREE))).toBeLessThan(1e-10);
        const { start, end: e, bearing: b } = found.residuals!;
        expect(start.shift.value + e.shift.value + Math.abs(b?.value ?? 0)).toBeLessThan(1e-9);
      }),
      { seed: 1 },
    );
  });

  it('the rope keeps its length exactly', () => {
    fc.assert(
      fc.property(turn, turn, length, shift, shift, (deg, seen, lengthM, dx, dy) => {
        const end = along([0, 0], deg, lengthM);
        const o = observed({ end: [end[0] + dx, end[1] + dy], bearing: seen * DEGREE, lengthM });
        const found = placedOf(adjust(o));
        const [a, b] = [pointAlong(found, 0).xy, pointAlong(found, lengthM).xy];
        expect(Math.abs(Math.hypot(b[0] - a[0], b[1] - a[1]) - lengthM)).toBeLessThan(1e-11);
      }),
      { seed: 2 },
    );
  });

  it('moving or turning the whole picture moves or turns the answer and leaves its errors', () => {
    fc.assert(
      fc.property(place, place, turn, shift, shift, turn, (x, y, by, dx, dy, deg) => {
        const rotate = ([px, py]: XY): XY => {
          const [s, c] = [Math.sin(by * DEGREE), Math.cos(by * DEGREE)];
          return [x + px * c + py * s, y - px * s + py * c]; // clockwise
        };
        const o = observed({ end: [dx, 30 + dy], bearing: deg * DEGREE });
        fc.pre(Math.abs(wrap(deg * DEGREE - Math.atan2(dx, 30 + dy))) < 3.1); // no tie
        const one = adjust(o);
        const two = adjust({
          ...o,
          start: rotate(o.start),
          end: rotate(o.end!),
          bearing: (deg + by) * DEGREE,
        });
        const moved = rotate(one.start);
        expect(Math.hypot(two.start[0] - moved[0], two.start[1] - moved[1])).toBeLessThan(1e-8);
        expect(Math.abs(wrap(two.direction - one.direction - by * DEGREE))).toBeLessThan(1e-9);
        for (const h of [0, 15, 30]) {
          expect(pointAlong(placedOf(two), h).seM).toBeCloseTo(pointAlong(placedOf(one), h).seM, 8);
        }
        const ratios = (f: typeof one) => {
          const { start, end, bearing } = f.residuals!;
          return [start.along, start.across, end.along, end.across, bearing!].map((d) => d.ratio);
        };
        ratios(two).forEach((r, i) => {
          expect(r).toBeCloseTo(ratios(one)[i], 7);
        });
      }),
      { seed: 3 },
    );
  });
});

describe('errors of position and of residuals', () => {
  // small errors, so that the linearised covariance is the true one: (σ/L)² is 2e-4
  const [gpsSdM, compassSd, lengthM, deg] = [0.4, 0.6 * DEGREE, 30, 35];
  const end: XY = [lengthM * Math.sin(deg * DEGREE), lengthM * Math.cos(deg * DEGREE)];
  const RUNS = 20_000;
  // a standard deviation from n runs is good to 1/√(2n), 0.5 % here; 4 of these
  const TOLERANCE = 0.02;

  function simulate(compass: boolean) {
    const draw = normals(20261125);
    return Array.from({ length: RUNS }, () =>
      adjust({
        start: [gpsSdM * draw(), gpsSdM * draw()],
        end: [end[0] + gpsSdM * draw(), end[1] + gpsSdM * draw()],
        bearing: compass ? deg * DEGREE + compassSd * draw() : null,
        lengthM,
        gpsSdM,
        compassSd,
      }),
    );
  }
  const sd = (values: number[]) => {
    const mean = values.reduce((a, b) => a + b, 0) / values.length;
    return Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / (values.length - 1));
  };
  const exact = (compass: boolean) =>
    adjust({
      start: [0, 0],
      end,
      bearing: compass ? deg * DEGREE : null,
      lengthM,
      gpsSdM,
      compassSd,
    });

  it.each([true, false])('are those of a simulation (bearing: %s)', (compass) => {
    const runs = simulate(compass);
    const told = exact(compass);
    const unknowns = runs.map((r) => [r.start[0], r.start[1], r.direction]);
    for (let i = 0; i < 3; i++) {
      const expected = Math.sqrt(told.covariance[4 * i]);
      expect(Math.abs(sd(unknowns.map((u) => u[i])) / expected - 1)).toBeLessThan(TOLERANCE);
    }
    const placed = { start: told.start, gridBearingDeg: deg, covariance: told.covariance };
    for (const h of [0, 10, 30]) {
      const at = unknowns.map((u) => [u[0] + h * Math.sin(u[2]), u[1] + h * Math.cos(u[2])]);
      const perAxis = Math.sqrt((sd(at.map((p) => p[0])) ** 2 + sd(at.map((p) => p[1])) ** 2) / 2);
      expect(Math.abs(perAxis / pointAlong(placed, h).seM - 1)).toBeLessThan(TOLERANCE);
    }
    const { start, end: e, bearing } = told.residuals!;
    const seen = runs.map((r) => r.residuals!);
    const compare = (values: number[], se: number) =>
      expect(Math.abs(sd(values) / se - 1)).toBeLessThan(TOLERANCE);
    compare(
      seen.map((r) => r.start.along.value),
      start.along.se,
    );
    compare(
      seen.map((r) => r.end.along.value),
      e.along.se,
    );
    if (compass) {
      compare(
        seen.map((r) => r.start.across.value),
        start.across.se,
      );
      compare(
        seen.map((r) => r.end.across.value),
        e.across.se,
      );
      compare(
        seen.map((r) => r.bearing!.value),
        bearing!.se,
      );
    }
  });

  it('in closed form: along the rope σ_g/√2, and nothing across it without a bearing', () => {
    // by hand: along, S and E see the same unknown twice; across, start and direction take up both
    const without = exact(false).residuals!;
    expect(without.start.along.se).toBeCloseTo(gpsSdM / Math.SQRT2, 12);
    expect(without.start.across).toMatchObject({ se: 0, ratio: 0 });
    expect(without.bearing).toBeNull();
    expect(exact(false).covariance[8]).toBeCloseTo((2 * gpsSdM ** 2) / lengthM ** 2, 12);
    // by hand: w = E − S − L b across has variance 2σ_g² + L²σ_b²; the bearing's residual is −L σ_b²/var(w) of it
    const w = Math.sqrt(2 * gpsSdM ** 2 + lengthM ** 2 * compassSd ** 2);
    const withBearing = exact(true).residuals!;
    expect(withBearing.start.across.se).toBeCloseTo(gpsSdM ** 2 / w, 12);
    expect(withBearing.bearing!.se).toBeCloseTo((lengthM * compassSd ** 2) / w, 12);
  });

  it('a flag at 3 standard errors is rare where nothing is wrong', () => {
    const far = simulate(true).filter((r) => {
      const { start, bearing } = r.residuals!;
      return Math.abs(start.along.ratio) > 3 || Math.abs(bearing!.ratio) > 3;
    });
    // two independent normal deviates beyond 3: 0.54 %; ± 4 standard errors of the share
    expect(Math.abs(far.length / RUNS - 0.0054)).toBeLessThan(4 * Math.sqrt(0.0054 / RUNS));
  });
});

describe('without an end waypoint', () => {
  it('the start stays as given and the bearing is the direction', () => {
    const found = adjust(observed({ start: [3, 4], end: null, bearing: 40 * DEGREE }));
    expect(found.start).toEqual([3, 4]);
    expect(found.direction).toBe(40 * DEGREE);
    expect(found.residuals).toBeNull();
    const placed = { start: found.start, gridBearingDeg: 40, covariance: found.covariance };
    // by hand: σ_g² per axis, and L²σ_b² across the rope shared over two axes
    const seM = Math.sqrt(16 + (30 * 4 * DEGREE) ** 2 / 2);
    expect(pointAlong(placed, 30).seM).toBeCloseTo(seM, 12);
  });
});

describe('the edges', () => {
  it('a rope that hangs straight down is at the mean of its waypoints', () => {
    const found = adjust(observed({ start: [0, 0], end: [2, 10], bearing: null, lengthM: 0 }));
    expect(found.start).toEqual([1, 5]);
    expect(found.covariance.every(Number.isFinite)).toBe(true);
    expect(found.covariance[0]).toBeCloseTo(8, 12); // σ_g²/2
  });

  it('waypoints on one spot leave the direction to the bearing', () => {
    const found = adjust(observed({ start: [5, 5], end: [5, 5], bearing: 70 * DEGREE }));
    expect(found.direction).toBeCloseTo(70 * DEGREE, 12);
  });

  it('refuses what it cannot place', () => {
    expect(() => adjust(observed({ end: null, bearing: null }))).toThrow('no end and no bearing');
    expect(() => adjust(observed({ gpsSdM: 0 }))).toThrow('σ_g 0');
  });
});
