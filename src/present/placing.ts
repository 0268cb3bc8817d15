/** Where a transect lies and how well its waypoints, bearing and length agree, in sentences. */

import { extent } from '../../shared/extent.ts';
import { term } from '../../shared/glossary.ts';
import type { PlacedTransect, Residual } from '../../shared/survey.ts';
import { formatLength, type UnitSystem } from '../../shared/units.ts';

export interface Placing {
  text: string;
  /** they disagree by more than the instruments explain */
  doubtful: boolean;
}

export function placing(placed: PlacedTransect, units: UnitSystem = 'metric'): Placing {
  return {
    text: sentences(placed, units).join(' '),
    doubtful: placed.residuals.some((r) => r.flagged),
  };
}

function sentences(placed: PlacedTransect, units: UnitSystem): string[] {
  const { transect, residuals } = placed;
  const metres = (m: number): string => formatLength(m, Math.abs(m) < 1 ? 1 : 2, units);
  if (placed.endInferred) {
    return [
      `No end waypoint was recorded: the end follows from the bearing and the length of the ${term('rope')}, to about ${metres(placed.endSeM)} each way.`,
    ];
  }
  const flagged = residuals.filter((r) => r.flagged);
  const shift = residuals.find((r) => r.of === 'start');
  const turn = residuals.find((r) => r.of === 'bearing');
  const moved =
    shift === undefined
      ? []
      : [
          turn
            ? `To agree with each other, each waypoint was moved ${metres(shift.value)} and the bearing was turned ${degrees(turn)}.`
            : `To agree with a ${term('rope')} of ${metres(transect.lengthM)}, each waypoint was moved ${metres(shift.value)}; no bearing was recorded.`,
        ];
  if (flagged.length > 0)
    return [
      ...moved,
      `That is more than the GPS and the compass are good for (${worst(flagged)} standard errors, 3 at most expected): look at the sheet for exchanged waypoints or a bearing read the wrong way round.`,
    ];
  const [start, end] = [metres(placed.startSeM), metres(placed.endSeM)];
  return [
    ...moved,
    'That is within what the GPS and the compass are good for.',
    start === end
      ? `Both ends are then known to about ${start} each way.`
      : `The start is then known to about ${start} each way, the end to ${end}.`,
  ];
}

function worst(residuals: readonly Residual[]): string {
  const [, ratio] = extent(residuals.map((r) => Math.abs(r.value) / r.se));
  return ratio.toFixed(1);
}

function degrees(r: Residual): string {
  return `${Math.abs(r.value).toFixed(Math.abs(r.value) < 10 ? 1 : 0)}°`;
}
