/** Whether the survey, cut as asked for, stays within what can be computed. */

import { errorAt, type Finding } from '../../shared/findings.ts';
import { formatCount } from '../../shared/units.ts';
import type { Context } from './context.ts';

const MOST_SEGMENTS = 200_000;
/** A piece is not cut off for less than this share of itself. */
const CUT_DUST = 1e-9;

export function tooManySegments(context: Context): Finding[] {
  const { analysis, habitatOf, transectOf, fileNames } = context;
  const maxM = analysis.segments.max_length_m;
  let segments = 0;
  for (const [label, { cells }] of transectOf) {
    const ropeM = cells.length_m;
    if (ropeM === null) continue;
    const breaksM = (habitatOf.get(label) ?? [])
      .flatMap((row) => (row.cells.distance_m === null ? [] : [row.cells.distance_m]))
      .filter((distanceM) => distanceM > 0 && distanceM < ropeM)
      .sort((a, b) => a - b);
    const edgesM = [0, ...breaksM, ropeM];
    for (let i = 1; i < edgesM.length; i++) {
      const stretchM = edgesM[i] - edgesM[i - 1];
      segments += maxM === null ? 1 : Math.max(1, Math.ceil(stretchM / maxM - CUT_DUST));
    }
  }
  if (segments <= MOST_SEGMENTS) return [];
  const count = formatCount(segments);
  const message = `the survey would be cut into ${count} segments (at most 200,000 expected)`;
  const spot = fileNames.includes('analysis.json')
    ? { table: 'analysis.json', column: 'segments.max_length_m' }
    : { table: 'habitat.csv' };
  return [errorAt(spot, 'too-many-segments', message)];
}
