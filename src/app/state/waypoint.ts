/** Positions of a device → one waypoint. */

/** One position as the device gave it. */
export interface Fix {
  lat: number;
  lon: number;
  /** 95 % of positions lie within, m, by the device (W3C Geolocation: a 95 % confidence level) */
  accuracyM: number;
}

export interface AveragedFix {
  lat: number;
  lon: number;
  /** as of one position of middling weight: errors of a device last for minutes, and do not average out */
  accuracyM: number;
  /** root mean square distance from the average, m */
  spreadM: number;
  count: number;
}

const M_PER_DEGREE = 111_195; // on a sphere of the earth's mean radius; over some metres good to 0.6 %
/** A device that claims to be better is not believed. */
const LEAST_ACCURACY_M = 1;

/**
 * The mean with weights 1/accuracy². Longitudes are of one place: none of them lies on the other side of ±180°.
 * @throws RangeError without a position
 */
export function averageFix(fixes: readonly Fix[]): AveragedFix {
  if (fixes.length === 0) throw new RangeError('got no position, expected one or more');
  const weights = fixes.map((f) => 1 / Math.max(LEAST_ACCURACY_M, f.accuracyM) ** 2);
  const total = weights.reduce((sum, w) => sum + w, 0);
  const mean = (of: (fix: Fix) => number): number =>
    fixes.reduce((sum, fix, i) => sum + (weights[i] / total) * of(fix), 0);
  const [lat, lon] = [mean((f) => f.lat), mean((f) => f.lon)];
  const perLon = M_PER_DEGREE * Math.cos((lat * Math.PI) / 180);
  const square = mean((f) => ((f.lat - lat) * M_PER_DEGREE) ** 2 + ((f.lon - lon) * perLon) ** 2);
  return {
    lat,
    lon,
    accuracyM: Math.sqrt(fixes.length / total),
    spreadM: Math.sqrt(square),
    count: fixes.length,
  };
}
