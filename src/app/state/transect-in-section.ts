/** Which transect is shown in section: the one pointed at, else the first. */

import type { PlacedTransect } from '../../../shared/survey.ts';

/** Null only where none could be placed. */
export function transectInSection(
  placed: readonly PlacedTransect[],
  transect: string | null,
): PlacedTransect | null {
  return placed.find((p) => p.transect.transect === transect) ?? placed[0] ?? null;
}
