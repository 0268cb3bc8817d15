/** From a map's numbers to depths, once they are understood. */

import type { Finding } from '../../../shared/findings.ts';
import type { GivenFile } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { type Comparison, compareDepths, depthOf, MEANINGS } from './depth-meaning.ts';
import type { MapAt } from './depth-surface.ts';
import type { DepthAnswers } from './depth-unit.ts';
import type { Divers } from './divers.ts';
import { median, robustSd } from './line-fit.ts';

/** Depths are kept to the centimetre. */
const DECIMALS = 2;

export interface MadeMap {
  file: GivenFile | null;
  findings: Finding[];
  remarks: string[];
}

/** Null without divers' depths or without a map. */
export function compared(
  divers: Divers | null,
  mapAt: MapAt | null,
  unitsNamed: boolean,
): Comparison | null {
  if (divers === null || mapAt === null) return null;
  return compareDepths(
    divers,
    mapAt,
    MEANINGS.filter((m) => !unitsNamed || m.unitM === 1),
  );
}

/** In m to the centimetre; below 0 above the water. */
export function finalDepth({ meaning, level, shiftM }: DepthAnswers, value: number): number {
  const depthM = Number((depthOf(meaning, value, level) + shiftM).toFixed(DECIMALS));
  return depthM === 0 ? 0 : depthM;
}

/** What is left between map and divers once the numbers are understood. */
export function tellAgreement(
  about: string,
  comparison: Comparison | null,
  answers: DepthAnswers,
  remarks: string[],
): void {
  if (comparison === null || comparison.judged.length === 0) {
    remarks.push(`${about}: its depths could not be compared with those of the divers.`);
    return;
  }
  const left = comparison.pairs.map(({ x, y }) => x - finalDepth(answers, y));
  remarks.push(
    `${about}: as ${answers.meaning.label} it differs from the divers' depths by ${median(left).toFixed(2)} m in the middle of ${formatCount(left.length)} places, single places by ±${robustSd(left).toFixed(2)} m.`,
  );
}

/** Without what is no number. */
export function rangeOf(values: ArrayLike<number>): { least: number; most: number; count: number } {
  let [least, most, count] = [Infinity, -Infinity, 0];
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (Number.isNaN(value)) continue;
    count++;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return { least, most, count };
}
