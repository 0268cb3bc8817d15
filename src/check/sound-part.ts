/** What of a survey with errors can still be placed and cut, for the errors that only this can show. */

import type { Finding } from '../../shared/findings.ts';
import type { Reading } from '../../shared/reading.ts';
import type { Survey } from '../../shared/survey.ts';

/** The transects without an error of their own, with their rows. */
export function soundPart(
  { survey, drafts }: Pick<Reading, 'survey' | 'drafts'>,
  findings: Finding[],
): Survey {
  const bad = new Set<string | null>();
  for (const f of findings) {
    if (f.severity !== 'error') continue;
    for (const draft of Object.values(drafts)) {
      if (draft.file !== f.table) continue;
      if (f.row === null) return { transects: [], habitat: [], detections: [] };
      for (const row of draft.rows) if (row.row === f.row) bad.add(row.cells.transect);
    }
  }
  const started = new Set(survey.habitat.map((h) => h.transect));
  const sound = (label: string): boolean => !bad.has(label) && started.has(label);
  return {
    transects: survey.transects.filter((t) => sound(t.transect)),
    habitat: survey.habitat.filter((h) => sound(h.transect)),
    detections: survey.detections.filter((d) => sound(d.transect)),
  };
}
