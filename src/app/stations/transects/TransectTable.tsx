/** All transects, one a row; a flag where waypoints and bearing disagree. */

import type { TransectTable as Table, TransectRow } from '../../../present/transects.ts';
import { DataTable } from '../../shell/ui.tsx';

export function TransectTable({
  table: { title, columns, rows, flag, note },
  chosen,
  onChoose,
}: {
  table: Table;
  chosen: string | null;
  onChoose(transect: string): void;
}) {
  return (
    <div className="figure transect-table">
      <DataTable
        caption={title}
        columns={[
          {
            title: columns.transect,
            cell: (r: TransectRow) => (
              <>
                {r.name}
                {r.flagged && (
                  <span className="transect-flagged">
                    {' '}
                    ⚑<span className="visually-hidden"> {flag}</span>
                  </span>
                )}
              </>
            ),
          },
          { title: columns.observers, cell: (r) => r.observers },
          { title: columns.depth, align: 'right', cell: (r) => r.depths },
          { title: columns.area, align: 'right', cell: (r) => r.area },
          { title: columns.clusters, align: 'right', cell: (r) => r.clusters },
          { title: columns.mussels, align: 'right', cell: (r) => r.mussels },
        ]}
        rows={rows}
        keyOf={(r) => r.transect}
        onRow={(r) => onChoose(r.transect)}
        isChosen={(r) => r.transect === chosen}
      />
      {note !== null && <p className="small quiet">⚑ {note}</p>}
    </div>
  );
}
