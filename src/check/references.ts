/** Rules about rows of one table that refer to another. */

import { errorAt, type Finding } from '../../shared/findings.ts';
import { HABITAT, TRANSECTS } from '../../shared/tables.ts';
import { nearest, quoted } from '../../shared/words.ts';
import type { Context } from './context.ts';
import { looksLikeSpreadsheetDate } from './labels.ts';

const DATE = /^\d{4}-\d{2}-\d{2}$|^\d{1,2}[./]\d{1,2}[./]\d{2,4}$/;
/** Pairs of labels that are compared letter by letter; beyond that slips are told without a guess. */
const MOST_COMPARED = 1_000_000;

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
  const hintFor = hints([...transectOf.keys()]);
  const findings: Finding[] = [];
  for (const table of [drafts.habitat, drafts.detections, drafts.planted]) {
    for (const { row, cells } of table.rows) {
      const label = cells.transect;
      if (label === null || transectOf.has(label) || told.has(label)) continue;
      const message = `unknown transect ${quoted(label)}: transects.csv has no such label${hintFor(label)}`;
      findings.push(
        errorAt({ table: table.file, row, column: 'transect' }, 'unknown-transect', message),
      );
    }
  }
  return findings;
}

/** What an unknown label may have been meant to be, worked out once a label. */
function hints(known: readonly string[]): (label: string) => string {
  const sameAs = new Map<string, string>();
  for (const label of [...known].reverse()) sameAs.set(bare(label), label);
  const worked = new Map<string, string>();
  let compared = 0;
  const hint = (label: string): string => {
    if (looksLikeSpreadsheetDate(label) || DATE.test(label))
      return '; it looks like a date: did a spreadsheet turn a label such as 3-4 into it?';
    let close = sameAs.get(bare(label)) ?? null;
    if (close === null && label.length > 4 && compared + known.length <= MOST_COMPARED) {
      compared += known.length;
      close = nearest(label, known);
    }
    return close === null ? '' : `; did you mean ${quoted(close)}?`;
  };
  return (label) => {
    const before = worked.get(label);
    if (before !== undefined) return before;
    const made = hint(label);
    worked.set(label, made);
    return made;
  };
}

/** Without signs, blanks and leading zeros: T-01 and t1 are the same. */
function bare(label: string): string {
  return label.toLowerCase().replace(/[^a-z0-9]|(?<!\d)0+(?=\d)/g, '');
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
