/** Which rope the Transects station shows in section: the one pointed at, else the first. */

import type { PlacedTransect } from '../../../shared/survey.ts';

/** Null only where no rope could be placed. */
export function ropeInSection(
  placed: readonly PlacedTransect[],
  transect: string | null,
): PlacedTransect | null {
  return placed.find((p) => p.transect.transect === transect) ?? placed[0] ?? null;
}
