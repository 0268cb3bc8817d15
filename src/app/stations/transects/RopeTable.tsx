/** All transects, one a row; a flag where waypoints and bearing disagree. */

import { formatArea, formatDepthBand } from '../../../../shared/units.ts';
import { visible } from '../../../../shared/words.ts';
import type { Units } from '../../contract.ts';
import { DataTable, unitSystem } from '../../shell/ui.tsx';
import type { RopeRow } from './transect-facts.ts';

export function RopeTable({
  rows,
  chosen,
  onChoose,
  units,
}: {
  rows: RopeRow[];
  chosen: string | null;
  onChoose(transect: string): void;
  units: Units;
}) {
  const flagged = rows.filter((r) => r.flagged).length;
  return (
    <div className="figure">
      <DataTable
        caption="Transects"
        columns={[
          {
            title: 'Rope',
            cell: (r: RopeRow) => (
              <>
                {visible(r.transect)}
                {r.flagged && (
                  <span className="rope-flagged">
                    {' '}
                    ⚑<span className="visually-hidden"> position in doubt</span>
                  </span>
                )}
              </>
            ),
          },
          { title: 'Divers', cell: (r) => r.divers },
          {
            title: 'Depth',
            align: 'right',
            cell: (r) => formatDepthBand(r.fromM, r.toM, unitSystem(units)),
          },
          {
            title: 'Searched',
            align: 'right',
            cell: (r) => formatArea(r.areaM2, unitSystem(units)),
          },
          { title: 'Clusters', align: 'right', cell: (r) => r.clusters.toLocaleString('en') },
          { title: 'Mussels', align: 'right', cell: (r) => r.mussels.toLocaleString('en') },
        ]}
        rows={rows}
        keyOf={(r) => r.transect}
        onRow={(r) => onChoose(r.transect)}
        isChosen={(r) => r.transect === chosen}
      />
      {flagged > 0 && (
        <p className="small quiet">
          ⚑ {flagged === 1 ? 'One rope’s' : `${flagged} ropes’`} waypoints, bearing and length
          disagree by more than three standard errors; the map draws where they were pulled to.
        </p>
      )}
    </div>
  );
}
