/** The transects that are still to be searched. */

import { useMemo } from 'react';
import type { UnitSystem } from '../../../../shared/units.ts';
import { type PlannedLine, type PlannedRow, plannedTable } from '../../../present/planned.ts';
import { DataTable } from '../../shell/ui.tsx';

export function Planned({ planned, units }: { planned: readonly PlannedRow[]; units: UnitSystem }) {
  const table = useMemo(() => plannedTable(planned, units), [planned, units]);
  if (table === null) return null;
  const { title, lead, columns, rows } = table;
  return (
    <div className="figure">
      <DataTable
        caption={title}
        columns={[
          { title: columns.transect, cell: (r: PlannedLine) => r.name },
          { title: columns.observers, cell: (r) => r.observers },
          { title: columns.start, align: 'right', cell: (r) => r.start },
          { title: columns.bearing, align: 'right', cell: (r) => r.bearing },
          { title: columns.length, align: 'right', cell: (r) => r.length },
        ]}
        rows={rows}
        keyOf={(r) => String(r.row)}
      />
      <p className="small quiet">{lead}</p>
    </div>
  );
}
