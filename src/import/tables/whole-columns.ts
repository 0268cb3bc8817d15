/** Columns that a survey's sheets leave out as everybody there knows them: how it was searched, and who found it. */

import { errorAt, type Finding } from '../../../shared/findings.ts';
import type { Ask, ImportedRow, ImportedTables } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';

/** The design of all transects, where no column says it. */
export function askDesign(
  transects: ImportedRow[],
  detections: readonly ImportedRow[],
  ask: Ask,
): ImportedRow[] {
  if (transects.length === 0 || transects.some(({ cells }) => cells.design !== undefined))
    return transects;
  const measured = new Set(
    detections
      .filter(({ cells }) => (cells.offset_m ?? '') !== '')
      .map(({ cells }) => cells.transect),
  );
  const across = detections.filter(({ cells }) => measured.has(cells.transect)).length;
  const proposal =
    measured.size === 0 ? 'belt' : across === detections.length ? 'distance' : 'by-transect';
  const answer = ask({
    kind: 'choice',
    id: 'transects.design-of-all',
    about: 'transects',
    ask: 'No column says how the transects were searched: how were they?',
    evidence: [
      `A perpendicular distance from the rope is recorded on ${formatCount(measured.size)} of ${formatCount(transects.length)} transects.`,
    ],
    certain: false,
    pictures: [],
    options: [
      { value: 'belt', label: 'belt: the strip between two ropes was searched whole' },
      {
        value: 'distance',
        label: 'distance: one rope, and the perpendicular distance of each cluster from it',
      },
      {
        value: 'by-transect',
        label: 'distance where a perpendicular distance was recorded, belt where none was',
      },
    ],
    proposal,
  });
  if (answer === null) return transects;
  return transects.map(({ cells, place }) => {
    const byTransect = measured.has(cells.transect) ? 'distance' : 'belt';
    return { place, cells: { ...cells, design: answer === 'by-transect' ? byTransect : answer } };
  });
}

/** Where no column says who found it: the primary, if nobody followed on any transect; else it is refused. */
export function settleRoles({ transects, detections }: ImportedTables): {
  rows: ImportedRow[];
  findings: Finding[];
  remarks: string[];
} {
  if (detections.length === 0 || detections.some(({ cells }) => cells.role !== undefined))
    return { rows: detections, findings: [], remarks: [] };
  const followed = transects.filter(({ cells }) => (cells.secondary ?? '') !== '').length;
  if (followed > 0 || transects.length === 0) {
    const message = `no column says which observer found it, and on ${formatCount(followed)} transects two searched (primary or secondary expected)`;
    return {
      rows: detections,
      findings: [errorAt({ table: 'detections.csv', column: 'role' }, 'no-column', message)],
      remarks: [],
    };
  }
  return {
    rows: detections.map(({ cells, place }) => ({ place, cells: { ...cells, role: 'primary' } })),
    findings: [],
    remarks: ['Nobody followed on any transect: each detection is the primary observer’s.'],
  };
}
