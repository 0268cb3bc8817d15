/** What of a survey with errors can still be placed and cut, for the errors that only this can show. */

import type { Finding } from '../../shared/findings.ts';
import type { Reading } from '../../shared/reading.ts';
import type { Survey } from '../../shared/survey.ts';

type Drafts = Reading['drafts'];

/** The transects without an error of their own, with their rows. */
export function soundPart(
  { survey, drafts }: Pick<Reading, 'survey' | 'drafts'>,
  findings: Finding[],
): Survey {
  const errors = findings.filter((f) => f.severity === 'error');
  const tables = new Set(Object.values(drafts).map((draft) => draft.file));
  if (errors.some((f) => f.row === null && tables.has(f.table)))
    return { transects: [], habitat: [], detections: [] };
  const bad = new Set<string | null>();
  for (const draft of Object.values(drafts)) {
    const rows = new Set(errors.filter((f) => f.table === draft.file).map((f) => f.row));
    for (const label of labelsAt(draft, rows, survey)) bad.add(label);
  }
  const started = new Set(survey.habitat.flatMap((h) => (h.distanceM === 0 ? [h.transect] : [])));
  const sound = (label: string): boolean => !bad.has(label) && started.has(label);
  return {
    transects: survey.transects.filter((t) => sound(t.transect)),
    habitat: survey.habitat.filter((h) => sound(h.transect)),
    detections: survey.detections.filter((d) => sound(d.transect)),
  };
}

/**
 * Labels of the rows that have an error. A row whose own label is the error belongs to another transect, by all likelihood
 * that of a row beside it, which then lacks a row.
 */
function labelsAt(
  { rows }: Drafts[keyof Drafts],
  faulty: ReadonlySet<number | null>,
  { transects }: Survey,
): (string | null)[] {
  const known = new Set<string | null>(transects.map((t) => t.transect));
  return rows.flatMap(({ row, cells }, i) => {
    if (!faulty.has(row)) return [];
    if (known.has(cells.transect)) return [cells.transect];
    return [i - 1, i + 1].flatMap((k) => rows[k]?.cells.transect ?? []);
  });
}
