/** Rules about the lake's maps together with the tables. */

import { type Finding, noticeAt } from '../../shared/findings.ts';
import type { Context } from './context.ts';

/** One notice a class, at the first polygon that has it. */
export function unsurveyedClasses({ drafts, lake, analysis }: Context): Finding[] {
  const { readable, complete, rows } = drafts.habitat;
  const hidden = rows.some(({ bad }) => bad.has('substrate'));
  if (lake.substrate === null || !readable || !complete || hidden) return [];
  const surveyed = new Set(rows.flatMap(({ cells }) => cells.substrate ?? []));
  return analysis.substrates.flatMap((name) => {
    const patches = lake.substrate!.filter(({ substrate }) => substrate.includes(name));
    if (patches.length === 0 || surveyed.has(name)) return [];
    const many = patches.length > 1 ? ` (${patches.length} features)` : '';
    const message = `${name} is on the map${many} but was never surveyed; its area is reported as outside of the survey and has no estimate`;
    const spot = { table: 'substrate.geojson', row: patches[0].feature, column: 'substrate' };
    return [noticeAt(spot, 'substrate-never-surveyed', message)];
  });
}
