/** The areas side by side; a row chosen is the area in hand. */

import type { AreasHeld } from '../../../../shared/areas.ts';
import { labels } from '../../../../shared/glossary.ts';
import { TREATMENTS_FILE } from '../../../../shared/survey-files.ts';
import { landAreaUnit } from '../../../../shared/units.ts';
import { type AreaRow, areaRow } from '../../../present/area-facts.ts';
import type { HeldRead } from '../../../present/areas.ts';
import { DataTable, unitSystem } from '../../shell/ui.tsx';
import { useApp } from '../../state/app-context.tsx';
import { chooseArea, useDesk } from '../../state/area-desk.ts';
import type { Areas } from '../../state/use-areas.ts';
import { Layer } from './Layer.tsx';
import { Stacked } from './Stacked.tsx';

export function AreaTable({
  areas,
  held,
  read,
}: {
  areas: Areas;
  held: AreasHeld;
  read: HeldRead;
}) {
  const { actions, state } = useApp();
  const units = unitSystem(state.units);
  const chosen = useDesk((d) => d.chosen);
  const moving = useDesk((d) => d.moving !== null);
  const live = useDesk((d) => (d.moving === null ? null : d.live));
  const isChosen = (i: number): boolean =>
    chosen?.file === TREATMENTS_FILE && areas.candidates[i]?.place === chosen.place;
  const rows = held.candidates.map((area, i) => ({
    i,
    row:
      isChosen(i) && live?.ok
        ? areaRow({ ...area, ...live.numbers }, units)
        : (read.candidates[i] ?? areaRow(area, units)),
  }));
  return (
    <div>
      <DataTable<{ i: number; row: AreaRow }>
        caption={labels('treatmentArea')}
        columns={[
          { title: 'Name', cell: ({ row }) => row.name },
          {
            title: <Stacked main={landAreaUnit(units)} beneath="m³" />,
            align: 'right',
            cell: ({ row }) => <Stacked main={row.land} beneath={row.volume} />,
          },
          {
            title: <Stacked main={labels('mussel')} beneath={read.ciName} />,
            align: 'right',
            cell: ({ row }) => <Stacked main={row.mussels[0]} beneath={row.mussels[1]} />,
          },
          {
            title: <Stacked main="Share" beneath={read.ciName} />,
            align: 'right',
            cell: ({ row }) => <Stacked main={row.share[0]} beneath={row.share[1]} />,
          },
        ]}
        rows={rows}
        keyOf={({ i, row }) => `${i} ${row.name}`}
        onRow={({ i }) => {
          const area = areas.candidates[i];
          if (area === undefined) return;
          chooseArea({ file: TREATMENTS_FILE, place: area.place });
          actions.setFocus({ lookAt: { rings: area.polygons.flat() } });
        }}
        isChosen={({ i }) => isChosen(i)}
      />
      {moving && (
        <p className="small quiet" role="status">
          What all areas hold together follows when the hand lets go.
        </p>
      )}
      <Layer />
    </div>
  );
}
