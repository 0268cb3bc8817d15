/**
 * A transect from two waypoints, a compass bearing and the rope's length: weighted least squares (METHOD.md: Placing a transect).
 *
 * Unknown are the start s (two coordinates) and the direction θ; the length L is held. Minimised is
 *   |S − s|²/σ_g² + |s + L u(θ) − E|²/σ_g² + (θ − b)²/σ_b²,  u(θ) = (sin θ, cos θ).
 * For a given θ the best start is (S + E − L u)/2, which leaves one equation in θ.
 * Residuals and their standard errors as in any text on adjustment, e.g. Mikhail & Ackermann, Observations and
 * Least Squares (1976): residuals observed − adjusted, covariance R − J Σ Jᵀ with Σ = (Jᵀ R⁻¹ J)⁻¹.
 */

import type { XY } from '../../shared/survey.ts';

/** A residual whose variance is below this share of its observation's is fixed by the geometry and tells nothing. */
const FIXED_SHARE = 1e-9;

export interface Observed {
  start: XY;
  end: XY | null;
  /** grid direction from start to end, radians clockwise from north */
  bearing: number | null;
  /** horizontal length of the rope */
  lengthM: number;
  /** standard deviation of a waypoint per axis */
  gpsSdM: number;
  /** of the bearing, radians */
  compassSd: number;
}

/** Observed minus adjusted, and what it would vary by. */
export interface Deviation {
  /** metres, or radians for the bearing */
  value: number;
  se: number;
  /** value / se, 0 where the geometry leaves no freedom */
  ratio: number;
}

export interface Adjusted {
  start: XY;
  direction: number;
  /** covariance of (x of start, y of start, direction), row by row */
  covariance: number[];
  /** what was minimised, at its least; 0 where nothing is left over to compare */
  sumOfSquares: number;
  /** null where an observation is missing, or where nothing is left over to compare */
  residuals: {
    start: WaypointDeviation;
    end: WaypointDeviation;
    bearing: Deviation | null;
  } | null;
}

export interface WaypointDeviation {
  /** length of the shift, with the standard error in the direction of the shift */
  shift: Deviation;
  /** components in the direction of the rope and to its right */
  along: Deviation;
  across: Deviation;
}

/** Throws when there is neither an end waypoint nor a bearing, and on sizes that are not positive. */
export function adjust(observed: Observed): Adjusted {
  const { start, end, bearing, lengthM, gpsSdM, compassSd } = observed;
  if (!(gpsSdM > 0 && compassSd > 0 && lengthM >= 0)) {
    throw new Error(
      `adjust: got σ_g ${gpsSdM}, σ_b ${compassSd}, length ${lengthM}, expected σ > 0 and length ≥ 0`,
    );
  }
  if (end === null) {
    if (bearing === null)
      throw new Error('adjust: got no end and no bearing, expected one of them');
    const [g, b] = [gpsSdM ** 2, compassSd ** 2];
    const covariance = [g, 0, 0, 0, g, 0, 0, 0, b];
    return { start, direction: bearing, covariance, sumOfSquares: 0, residuals: null };
  }
  const direction = bestDirection(observed, end);
  const u: XY = [Math.sin(direction), Math.cos(direction)];
  const adjusted: XY = [
    (start[0] + end[0] - lengthM * u[0]) / 2,
    (start[1] + end[1] - lengthM * u[1]) / 2,
  ];
  const { covariance, left } = linearised(u, observed);
  const r = (i: number) => left(i, i);
  const cross = (i: number) => left(i, i + 1);
  const waypoint = (at: XY, seen: XY, i: number) =>
    waypointDeviation([seen[0] - at[0], seen[1] - at[1]], u, [r(i), cross(i), r(i + 1)], gpsSdM);
  const placedEnd: XY = [adjusted[0] + lengthM * u[0], adjusted[1] + lengthM * u[1]];
  const residuals = {
    start: waypoint(adjusted, start, 0),
    end: waypoint(placedEnd, end, 2),
    bearing: bearing === null ? null : deviation(wrap(bearing - direction), r(4), compassSd ** 2),
  };
  const sumOfSquares =
    (residuals.start.shift.value / gpsSdM) ** 2 +
    (residuals.end.shift.value / gpsSdM) ** 2 +
    ((residuals.bearing?.value ?? 0) / compassSd) ** 2;
  return { start: adjusted, direction, covariance, sumOfSquares, residuals };
}

/** An angle brought to −π..π. */
export function wrap(angle: number): number {
  return angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
}

/**
 * The direction of least squares. With φ that of the waypoints, t = θ − φ and β = b − φ, half the sum of squares is
 * constant − K cos t + (t − β)²/(2σ_b²), K = D L/(2σ_g²). Mirroring t to the other side of φ never makes it smaller,
 * so the best t lies between 0 and β; there its slope rises from below 0, and may fall again but not below 0
 * (the curvature changes sign once at most), so it has one root.
 */
function bestDirection(observed: Observed, end: XY): number {
  const { start, bearing, lengthM, gpsSdM, compassSd } = observed;
  const [dx, dy] = [end[0] - start[0], end[1] - start[1]];
  const waypoints = Math.atan2(dx, dy);
  if (bearing === null) return waypoints;
  const k = (Math.hypot(dx, dy) * lengthM) / (2 * gpsSdM ** 2);
  const beta = wrap(bearing - waypoints);
  const weight = 1 / compassSd ** 2;
  const t = rootBelow(
    Math.abs(beta),
    (x) => k * Math.sin(x) + (x - Math.abs(beta)) * weight,
    (x) => k * Math.cos(x) + weight,
  );
  return waypoints + Math.sign(beta) * t;
}

/** The root of a slope that is below 0 from 0 to the root and not below 0 from there to `end`: Newton, kept inside. */
function rootBelow(
  end: number,
  slope: (t: number) => number,
  curvature: (t: number) => number,
): number {
  let low = 0;
  let high = end;
  let t = end / 2;
  // halving alone needs 60 rounds to the last bit
  for (let round = 0; round < 100; round++) {
    const s = slope(t);
    if (s === 0) return t;
    if (s < 0) low = t;
    else high = t;
    const newton = t - s / curvature(t);
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - t) <= Number.EPSILON) return next;
    t = next;
  }
  return t;
}

/**
 * Σ, row by row, and a function for the elements of R − J Σ Jᵀ at the solution, observations in the order S_x, S_y, E_x, E_y,
 * bearing. Jᵀ R⁻¹ J is 2/σ_g² on the first two places of its diagonal and 0 between them, so its inverse is that of its third place
 * once the others are taken out of it (Schur complement), carried back.
 */
function linearised(
  u: XY,
  { bearing, lengthM, gpsSdM, compassSd }: Observed,
): { covariance: number[]; left: (i: number, k: number) => number } {
  const gps = gpsSdM ** 2;
  const compass = compassSd ** 2;
  const byEnd: XY = [lengthM * u[1], -lengthM * u[0]];
  const information = lengthM ** 2 / (2 * gps) + (bearing === null ? 0 : 1 / compass);
  // a rope that hangs straight down has no direction: nothing depends on it, any finite variance serves
  const variance = information === 0 ? Math.PI ** 2 / 3 : 1 / information;
  const [x, y] = [byEnd[0] / 2, byEnd[1] / 2];
  const covariance = [
    ...[gps / 2 + x * x * variance, x * y * variance, -x * variance],
    ...[x * y * variance, gps / 2 + y * y * variance, -y * variance],
    ...[-x * variance, -y * variance, variance],
  ];
  const jacobian = [
    [1, 0, 0],
    [0, 1, 0],
    [1, 0, byEnd[0]],
    [0, 1, byEnd[1]],
    [0, 0, 1],
  ];
  const left = (i: number, k: number): number => {
    let explained = 0;
    for (let p = 0; p < 3; p++)
      for (let q = 0; q < 3; q++)
        explained += jacobian[i][p] * covariance[3 * p + q] * jacobian[k][q];
    return (i === k ? (i < 4 ? gps : compass) : 0) - explained;
  };
  return { covariance, left };
}

function waypointDeviation(
  shift: XY,
  u: XY,
  [xx, xy, yy]: [number, number, number],
  gpsSdM: number,
): WaypointDeviation {
  const right: XY = [u[1], -u[0]];
  const component = (e: XY) =>
    deviation(
      shift[0] * e[0] + shift[1] * e[1],
      xx * e[0] ** 2 + 2 * xy * e[0] * e[1] + yy * e[1] ** 2,
      gpsSdM ** 2,
    );
  const length = Math.hypot(shift[0], shift[1]);
  const towards: XY = length > 0 ? [shift[0] / length, shift[1] / length] : u;
  return { shift: component(towards), along: component(u), across: component(right) };
}

function deviation(value: number, variance: number, observedVariance: number): Deviation {
  const free = variance > FIXED_SHARE * observedVariance;
  const se = free ? Math.sqrt(variance) : 0;
  return { value, se, ratio: free ? value / se : 0 };
}
