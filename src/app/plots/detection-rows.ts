/** What divers see, as rows of a plot: each diver of each design with limits, then each pair of them. */

import type { Estimate } from '../../../shared/estimate.ts';
import type { Design } from '../../../shared/survey.ts';

export interface DetectionRow {
  key: string;
  label: string;
  design: Design;
  /** one diver, or the two of a pair */
  divers: string[];
  p: number;
  lower: number | null;
  upper: number | null;
  se: number | null;
}

/**
 * Divers, then pairs, design by design; a pair sees the same whoever goes first, so it stands here once. A share that was
 * taken as 1, because nobody followed, is no estimate and has no row.
 */
export function detectionRows(
  detection: NonNullable<Estimate['detection']>,
): { design: Design; divers: DetectionRow[]; pairs: DetectionRow[] }[] {
  const designs = (['belt', 'distance'] as const).filter((d) =>
    detection.observers.some((o) => o.design === d),
  );
  const groups = designs.map((design) => {
    const divers = detection.observers
      .filter((o) => o.design === design && isEstimated(o))
      .map((o) => row(design, [o.observer], o));
    const pairs = new Map<string, DetectionRow>();
    for (const pair of detection.pairs) {
      if (pair.design !== design || divers.length === 0) continue;
      const two = [pair.primary, pair.secondary].sort((a, b) => (a < b ? -1 : 1));
      const made = row(design, two, pair);
      if (!pairs.has(made.key)) pairs.set(made.key, made);
    }
    return { design, divers, pairs: [...pairs.values()] };
  });
  return groups.filter((g) => g.divers.length > 0);
}

/** A share at its boundary has a lower limit; one that was only taken as 1 has none. */
function isEstimated({ p, se, lower }: Pick<DetectionRow, 'p' | 'se' | 'lower'>): boolean {
  return p < 1 || se !== null || (lower !== null && lower < 1);
}

function row(
  design: Design,
  divers: string[],
  q: { p: number; se: number | null; lower: number | null; upper: number | null },
): DetectionRow {
  const label = divers.join(' + ');
  return { key: `${design} ${label}`, label, design, divers, ...pick(q) };
}

function pick({ p, se, lower, upper }: Pick<DetectionRow, 'p' | 'se' | 'lower' | 'upper'>) {
  return { p, se, lower, upper };
}
