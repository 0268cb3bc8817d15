/** The drafts, put together by transect, as the rules look at them. */

import type { Finding } from '../../shared/findings.ts';
import type {
  DetectionCells,
  DraftRow,
  HabitatCells,
  Reading,
  TransectCells,
} from '../../shared/reading.ts';
import { DEFAULT_WIDTH_M } from '../../shared/tables.ts';

export type TransectRow = DraftRow<TransectCells>;
export type HabitatDraft = DraftRow<HabitatCells>;
export type DetectionDraft = DraftRow<DetectionCells>;

export interface Context extends Omit<Reading, 'survey' | 'findings'> {
  /** the first row of each label */
  transectOf: Map<string, TransectRow>;
  /** rows in the order of the file, by label, known or not */
  habitatOf: Map<string, HabitatDraft[]>;
  detectionsOf: Map<string, DetectionDraft[]>;
  /** detections whose transect is known, in the order of the file */
  located: { found: DetectionDraft; on: TransectRow }[];
}

export type Rule = (context: Context) => Finding[];

export function makeContext(reading: Omit<Reading, 'survey' | 'findings'>): Context {
  const transectOf = new Map<string, TransectRow>();
  for (const row of reading.drafts.transects.rows) {
    const label = row.cells.transect;
    if (label !== null && !transectOf.has(label)) transectOf.set(label, row);
  }
  const habitatOf = byLabel(reading.drafts.habitat.rows);
  const detectionsOf = byLabel(reading.drafts.detections.rows);
  const located: Context['located'] = [];
  for (const found of reading.drafts.detections.rows) {
    const { transect } = found.cells;
    const on = transect === null ? undefined : transectOf.get(transect);
    if (on !== undefined) located.push({ found, on });
  }
  return { ...reading, transectOf, habitatOf, detectionsOf, located };
}

/** Width searched, default filled in; null where it cannot be known. */
export function widthOf({ cells, bad }: TransectRow): number | null {
  if (bad.has('width_m')) return null;
  if (cells.width_m !== null) return cells.width_m;
  return cells.design === null ? null : DEFAULT_WIDTH_M[cells.design];
}

function byLabel<C extends { transect: string | null }>(rows: DraftRow<C>[]) {
  const groups = new Map<string, DraftRow<C>[]>();
  for (const row of rows) {
    const label = row.cells.transect;
    if (label === null) continue;
    const group = groups.get(label);
    if (group === undefined) groups.set(label, [row]);
    else group.push(row);
  }
  return groups;
}
