/** The length of a scale bar, with its words. */

import { roundBelow } from '../../shared/round-numbers.ts';
import { M_PER_FOOT, type UnitSystem } from '../../shared/units.ts';

export interface ScaleBar {
  lengthM: number;
  /** `200 m`, `2 km`, `2,000 ft` */
  label: string;
}

/** The longest round length of at most `mostM` metres, round in the reader's unit. */
export function scaleBarWithin(mostM: number, units: UnitSystem): ScaleBar {
  const metric = units === 'metric';
  const unitM = metric ? 1 : M_PER_FOOT;
  const length = roundBelow(mostM / unitM);
  return { lengthM: length * unitM, label: words(length, metric) };
}

/** Kilometres from 1,000 m on; feet stay feet, as on contour maps. */
function words(length: number, metric: boolean): string {
  if (metric && length >= 1000) return `${plain(length / 1000)} km`;
  if (metric && length < 0.1) return `${plain(length * 100)} cm`;
  return `${plain(length)} ${metric ? 'm' : 'ft'}`;
}

function plain(x: number): string {
  return Number(x.toPrecision(3)).toLocaleString('en', { maximumFractionDigits: 3 });
}
