/** What the bed holds at a spot, in words: for the card beside the pointer and for those who hear the map. */

import { formatDepth, formatToStep, roundingStep } from '../../../shared/units.ts';
import type { SpotView, Units } from '../contract.ts';

export interface SpotWords {
  /** `Rock · 2.4 m · plants 1` */
  bed: string;
  /** `6.1 per m²`; null where there is no estimate */
  density: string | null;
  /** `3.4 to 10.9` */
  interval: string | null;
  /** why there is no estimate, a whole sentence; null where there is one */
  why: string | null;
}

const WHY: Record<string, string> = {
  'off the lake': 'Off the lake.',
  'not mapped': 'No substrate is mapped here, so the number leaves it out.',
  substrate: 'Mapped, not searched: no rope crossed this substrate.',
  'plant cover': 'Mapped, not searched: more or fewer plants than were searched.',
  depth: 'Mapped, not searched: shallower or deeper than the ropes reached.',
  'depth unmapped': 'No depth is mapped here, so the number leaves it out.',
};

export function spotWords(spot: SpotView, units: Units): SpotWords {
  const system = units === 'metric' ? 'metric' : 'imperial';
  const bed = [
    spot.substrate === null ? null : capital(spot.substrate.join(' and ')),
    spot.depthM === null ? null : formatDepth(spot.depthM, system),
    spot.plantCover === null ? null : `plants ${spot.plantCover}`,
  ].filter((part) => part !== null);
  const m = spot.why === null ? spot.musselsPerM2 : null;
  const interval =
    m !== null && m.lower !== null && m.upper !== null ? { lower: m.lower, upper: m.upper } : null;
  const step = m === null ? 1 : roundingStep({ se: null, ...m });
  return {
    bed: bed.join(' · '),
    density: m === null ? null : `${formatToStep(m.estimate, step)} per m²`,
    interval:
      interval === null
        ? null
        : `${formatToStep(interval.lower, step)} to ${formatToStep(interval.upper, step)}`,
    why: m === null ? whyNot(spot.why) : null,
  };
}

/** The same as one line to be read aloud. */
export function spotSentence(spot: SpotView, units: Units): string {
  const { bed, density, interval, why } = spotWords(spot, units);
  const number =
    density === null
      ? why
      : `${density.replace('per', 'mussels per')}${interval === null ? '' : `, interval ${interval}`}.`;
  return [bed === '' ? null : `${bed.replaceAll(' · ', ', ')}.`, number]
    .filter((part) => part !== null)
    .join(' ');
}

function whyNot(reason: string | null): string {
  if (reason === null) return 'No estimate here yet.';
  return WHY[reason] ?? `${capital(reason)}.`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
