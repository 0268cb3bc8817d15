/** Round marks on axes of metres, shown in metres or feet. */

import { formatDigits, formatLength, M_PER_FOOT } from '../../../shared/units.ts';
import type { Units } from '../contract.ts';
import { unitSystem } from '../shell/ui.tsx';

export interface Tick {
  /** where it stands, in metres */
  m: number;
  label: string;
}

const STEPS = [0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1_000];

/** At most about `most` marks from 0 to `endM`, round in the reader's unit; each carries its unit. */
export function lengthTicks(endM: number, most: number, units: Units): Tick[] {
  const unitM = units === 'metric' ? 1 : M_PER_FOOT;
  const end = endM / unitM;
  const step = STEPS.find((s) => end / s <= most) ?? STEPS.at(-1)!;
  const count = Math.floor(end / step + 1e-9);
  return Array.from({ length: count + 1 }, (_, i) => {
    const value = Number((i * step).toPrecision(12));
    return {
      m: value * unitM,
      label: `${formatDigits(value, 6)} ${units === 'metric' ? 'm' : 'ft'}`,
    };
  });
}

/** `2.9 m`, `9.5 ft`: so many significant digits. */
export function lengthText(m: number, units: Units, digits: number): string {
  return formatLength(m, digits, unitSystem(units));
}

/** 0.01, 0.1, 1, 10 … as read on a log axis. */
export function powerLabel(power: number): string {
  return power < 0 ? (10 ** power).toFixed(-power) : (10 ** power).toLocaleString('en');
}
