/** What planted shells say of the clusters that no observer can detect, in a sentence. */

import type { Estimate, PlantedShellsRow } from '../../shared/estimate.ts';
import { counted, term, terms } from '../../shared/glossary.ts';
import { formatCount } from '../../shared/units.ts';
import { ciName, probabilityText } from './quantity.ts';

/** Null without planted shells. */
export function plantedWords(
  { detection }: Pick<Estimate, 'detection'>,
  level: number,
): string | null {
  const shells = detection?.planted_shells ?? null;
  return shells && `${trialWords(shells)}: ${shareWords(shells, level)}. ${whatIsDone(shells)}`;
}

/** `Of 60 planted shells on 4 transects 40 were found, where 56 were expected if all of them could be detected` */
export function trialWords({ planted, found, transects, ratio }: PlantedShellsRow): string {
  const where = counted(transects, formatCount(transects), 'transect');
  return `Of ${formatCount(planted)} ${terms('plantedShell')} on ${where} ${formatCount(found)} were found, where ${formatCount(Math.round(found / ratio))} were expected if all of them could be detected`;
}

/** `an availability of 71 % (95 % CI 58 % to 86 %)` */
export function shareWords(shells: PlantedShellsRow, level: number): string {
  const { share, lower, upper } = shells;
  if (share === 1)
    return `the ${term('availability')} is taken as 1, never above it (at least ${probabilityText(lower)}, ${ciName(level)})`;
  return `an ${term('availability')} of ${probabilityText(share)} (${ciName(level)} ${probabilityText(lower)} to ${probabilityText(upper)})`;
}

/** The total if what is done with the shells were not, or the other way round: relative changes and words. */
export function withoutPlanted(
  shells: PlantedShellsRow,
  level: number,
): { from: number; to: number; assumed: string; otherwise: string; how: string } {
  const { share, lower, upper, used } = shells;
  const how = `${trialWords(shells)}: ${shareWords(shells, level)}. That holds for live mussels as far as they sit like the shells.`;
  if (used)
    return {
      from: share - 1,
      to: share - 1,
      assumed: `Live mussels are as hard to detect as ${terms('plantedShell')}`,
      otherwise: `if every ${term('cluster')} can be detected after all`,
      how,
    };
  return {
    from: 1 / upper - 1,
    to: 1 / lower - 1,
    assumed: `The ${terms('plantedShell')} are in no number`,
    otherwise: `if the ${term('availability')} is what they tell, ${probabilityText(share)}`,
    how,
  };
}

const whatIsDone = ({ used }: PlantedShellsRow): string =>
  used
    ? `All numbers are divided by it, and its error is part of every ${term('confidenceInterval')}.`
    : 'It is in no number, as the analysis does not ask for it.';
