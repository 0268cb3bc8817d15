/** A survey folder before the dives → what its sheets are printed with. */

import type { PlannedSurvey, PlannedTransect } from '../../shared/field-sheets.ts';
import { type Finding, inOrder } from '../../shared/findings.ts';
import type { TransectCells } from '../../shared/reading.ts';
import { TRANSECTS } from '../../shared/tables.ts';
import { ANALYSIS_FILE, readAnalysis } from './analysis.ts';
import { LACKING } from './planned-rows.ts';
import { readTable } from './tables.ts';

/**
 * A row of transects.csv without a date is a planned transect. Every file may be missing: the sheets are blank then. Never
 * throws; the findings are the errors that would print something wrong.
 */
export function readPlanned(
  files: ReadonlyMap<string, Uint8Array>,
  folderName: string,
): { survey: PlannedSurvey; findings: Finding[] } {
  const { analysis, findings } = readAnalysis(files.get(ANALYSIS_FILE), folderName);
  const table = readTable<TransectCells>(TRANSECTS, files.get(TRANSECTS.file), null);
  const wrong = table.findings.filter((f) => f.severity === 'error' && !LACKING.includes(f.code));
  const datesToFix = new Set(wrong.filter((f) => f.column === 'date').map((f) => f.row));
  const { rows } = table.draft;
  const planned = rows.filter((r) => r.cells.date === null && !datesToFix.has(r.row));
  const dived = rows.findLast((r) => r.cells.date !== null)?.cells;
  const own = new Set<number | null>([null, 1, ...datesToFix, ...planned.map((r) => r.row)]);
  return {
    survey: {
      lake: analysis.lake,
      substrates: analysis.substrates,
      planned: planned.map(({ row, cells }) => plannedTransect(row, cells)),
      lastRoles:
        dived?.primary && dived.secondary
          ? { primary: dived.primary, secondary: dived.secondary }
          : null,
    },
    findings: inOrder([
      ...findings.filter((f) => f.severity === 'error'),
      ...wrong.filter((f) => own.has(f.row)),
    ]),
  };
}

function plannedTransect(row: number, cells: TransectCells): PlannedTransect {
  const known = Object.entries(cells).filter(([, value]) => value !== null);
  return {
    row,
    design: cells.design,
    cells: Object.fromEntries(known.map(([column, value]) => [column, String(value)])),
  };
}
