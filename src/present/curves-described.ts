/** The picture of density against depth in sentences, for those who do not see it: each curve's highest point and its ends. */

import { capital, term } from '../../shared/glossary.ts';
import type { DensityCurve } from '../../shared/result.ts';
import { formatDepth, formatDepthBand, type UnitSystem } from '../../shared/units.ts';
import { visible } from '../../shared/words.ts';
import { type CurvesOf, type DensityReading, densityPicture, readingAt } from './density-curve.ts';
import { classWords } from './strata.ts';

/** `Rock: most at 3.0 m, 4.0 (2.0 to 8.0); 1.0 (…) at 1.0 m, 2.0 (…) at 5.0 m.` Null when there is no density above 0 to draw. */
export function curvesDescribed(result: CurvesOf, units: UnitSystem = 'metric'): string | null {
  const picture = densityPicture(result);
  if (picture === null) return null;
  const unsampled = picture.unsampled.map((s) => formatDepthBand(s.fromM, s.toM, units));
  return [
    `${capital(term('density'))} by ${term('depth')}, mussels per m² with their ${term('confidenceInterval')}, a panel for each ${term('substrate')}.`,
    ...result.curves.flatMap((curve) => curveDescribed(curve, units) ?? []),
    ...(unsampled.length === 0 ? [] : [`Not sampled: ${unsampled.join(', ')}.`]),
  ].join(' ');
}

/** Null for a curve that is nowhere above 0. */
function curveDescribed(curve: DensityCurve, units: UnitSystem): string | null {
  const drawn = curve.depthM.filter((d, i) => d >= 0 && (curve.musselsPerM2[i] ?? 0) > 0);
  const [first, last] = [drawn.at(0), drawn.at(-1)];
  if (first === undefined || last === undefined) return null;
  const densityAt = (m: number): number => curve.musselsPerM2[curve.depthM.indexOf(m)] ?? 0;
  const top = drawn.reduce((most, m) => (densityAt(m) > densityAt(most) ? m : most), first);
  const said = (m: number): string => {
    const reading = readingAt(curve, m);
    return reading === null ? '' : `${inWords(reading)} at ${formatDepth(m, units)}`;
  };
  const ends = [...new Set([first, last])].filter((m) => m !== top).map(said);
  const name = capital(visible(classWords(curve.substrate)));
  return `${name}: most ${[said(top), ...ends].join('; ')}.`;
}

function inWords({ estimate, interval }: DensityReading): string {
  return interval === null ? estimate : `${estimate} (${interval})`;
}
