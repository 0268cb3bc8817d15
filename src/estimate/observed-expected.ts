/** Tables of the checks in the result's terms: classes named, rows in a lasting order. */

import type { Compared, ComparedTables, DistanceClass, SurveyRows } from '../../models/index.ts';
import type { Estimate, ObservedExpected } from '../../shared/estimate.ts';

type Tables = Pick<Estimate['checks'], 'by_diver' | 'by_offset' | 'by_substrate' | 'by_depth'>;

export function observedExpected(tables: ComparedTables, rows: SurveyRows): Tables {
  const both = new Set(tables.byObserver.map((r) => r.design)).size > 1;
  return {
    by_diver: byLabel(
      tables.byObserver.map(({ observer, role, design, ...r }) => {
        const name = rows.observerNames[observer] ?? '';
        const label = [name, role, ...(both ? [design] : [])].join(', ');
        return { ...counts(label, r), observer: name, role, design };
      }),
    ),
    by_offset: tables.byDistance.map(({ from, to, unit, ...r }) => ({
      ...counts(distanceLabel({ from, to, unit }), r),
      from,
      to,
      unit,
    })),
    by_substrate: byLabel(
      tables.bySubstrate.map(({ classes, ...r }) => {
        const substrate = classes.map((c) => rows.classNames[c]).join('+');
        return { ...counts(substrate, r), substrate };
      }),
    ),
    by_depth: tables.byDepth.map(({ fromM, toM, ...r }) => ({
      ...counts(`${fromM}–${toM} m`, r),
      depth_from_m: fromM,
      depth_to_m: toM,
    })),
  };
}

function counts(label: string, { observed, expected }: Compared): ObservedExpected {
  return { label, observed, expected };
}

/** Centimetres, or whole percents of the half width. */
function distanceLabel({ from, to, unit }: DistanceClass): string {
  return unit === 'm'
    ? `${Number(from.toFixed(2))}–${Number(to.toFixed(2))} m`
    : `${Math.round(100 * from)}–${Math.round(100 * to)} % of the half width`;
}

function byLabel<Row extends ObservedExpected>(rows: Row[]): Row[] {
  return rows.sort((a, b) => a.label.localeCompare(b.label, 'en'));
}
