/** Lengths and depths of the form in the unit that the reader chose; what is asked for is in metres. */

import { M_PER_FOOT } from '../../../../shared/units.ts';
import type { Units } from '../../contract.ts';

export interface LengthUnit {
  unit: 'm' | 'ft';
  /** m in one of them */
  size: number;
}

/** Of depths in feet: a tenth of a foot between 10 and 100, finer than a depth gauge. */
const DIGITS = 3;

export function lengthUnit(units: Units): LengthUnit {
  return units === 'us' ? { unit: 'ft', size: M_PER_FOOT } : { unit: 'm', size: 1 };
}

/** `1, 3.5`; metres are shown as they are. */
export function depthsIn(depthsM: readonly number[], { unit, size }: LengthUnit): string {
  const shown = (m: number): number => (unit === 'm' ? m : Number((m / size).toPrecision(DIGITS)));
  return depthsM.map(shown).join(', ');
}

/** In m; null = nothing was typed. */
export function depthsTyped(text: string, { size }: LengthUnit): number[] | null | 'wrong' {
  if (text.trim() === '') return null;
  const typed = text.split(',').map((depth) => Number(depth.trim()));
  return typed.every((depth) => depth > 0 && Number.isFinite(depth))
    ? typed.map((depth) => depth * size)
    : 'wrong';
}
