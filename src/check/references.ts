/** Rules about rows of one table that refer to another. */

import { errorAt, type Finding } from '../../shared/findings.ts';
import { HABITAT, TRANSECTS } from '../../shared/tables.ts';
import { nearest, quoted } from '../../shared/words.ts';
import type { Context } from './context.ts';
import { looksLikeSpreadsheetDate } from './labels.ts';

/**
 * Labels of whole transects (with a habitat row at 0 and more) that transects.csv does not have: what a row
 * with a blank or duplicate label may have been meant to be.
 */
export function orphans({ habitatOf, detectionsOf, transectOf }: Context): Set<string> {
  const found = [...habitatOf].filter(([label, rows]) => {
    if (transectOf.has(label)) return false;
    const starts = rows.some(({ cells }) => cells.distance_m === 0);
    return starts && (rows.length > 1 || detectionsOf.has(label));
  });
  return new Set(found.map(([label]) => label));
}

/** Labels that are not told: a faulty label in transects.csv, told there, explains them. */
function explained(context: Context): Set<string> {
  const { rows } = context.drafts.transects;
  const faulty = rows.filter(
    ({ row, cells }) =>
      cells.transect === null || context.transectOf.get(cells.transect)?.row !== row,
  );
  const lost = orphans(context);
  return lost.size <= faulty.length ? lost : new Set();
}

export function unknownTransects(context: Context): Finding[] {
  const { drafts, transectOf } = context;
  const { readable, complete, columns, rows } = drafts.transects;
  if (!readable || !complete || !columns.has('transect') || rows.length === 0) return [];
  const told = explained(context);
  const findings: Finding[] = [];
  for (const table of [drafts.habitat, drafts.detections]) {
    for (const { row, cells } of table.rows) {
      const label = cells.transect;
      if (label === null || transectOf.has(label) || told.has(label)) continue;
      const message = `unknown transect ${quoted(label)}: transects.csv has no such label${hint(label, context)}`;
      findings.push(
        errorAt({ table: table.file, row, column: 'transect' }, 'unknown-transect', message),
      );
    }
  }
  return findings;
}

function hint(label: string, { transectOf }: Context): string {
  if (
    looksLikeSpreadsheetDate(label) ||
    /^\d{4}-\d{2}-\d{2}$|^\d{1,2}[./]\d{1,2}[./]\d{2,4}$/.test(label)
  ) {
    return '; it looks like a date: did a spreadsheet turn a label such as 3-4 into it?';
  }
  const bare = (text: string) => text.toLowerCase().replace(/[^a-z0-9]|(?<!\d)0+(?=\d)/g, '');
  const same = [...transectOf.keys()].find((known) => bare(known) === bare(label));
  const close = same ?? (label.length > 4 ? nearest(label, transectOf.keys()) : null);
  return close === null ? '' : `; did you mean ${quoted(close)}?`;
}

export function noHabitat(context: Context): Finding[] {
  const { drafts, transectOf, habitatOf } = context;
  const { readable, complete, columns, rows } = drafts.habitat;
  if (!readable || !complete || !columns.has('transect')) return [];
  const bare = [...transectOf].filter(([label]) => !habitatOf.has(label));
  // rows without a readable label are told as such, and may be what is missing here
  const unlabelled = rows.filter(({ cells }) => cells.transect === null).length;
  if (bare.length <= unlabelled) return [];
  return bare.map(([label, { row }]) => {
    const message = `no row of ${HABITAT.file} has the transect ${quoted(label)}; at least the one at 0 m expected`;
    return errorAt({ table: TRANSECTS.file, row, column: 'transect' }, 'no-habitat', message);
  });
}
