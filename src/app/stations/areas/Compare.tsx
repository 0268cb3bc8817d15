/** One area against the others: the chance that it holds more. */

import { useId, useState } from 'react';
import type { AreasHeld } from '../../../../shared/areas.ts';
import { labels } from '../../../../shared/glossary.ts';
import { TREATMENTS_FILE } from '../../../../shared/survey-files.ts';
import { type Comparison, compareArea } from '../../../present/areas.ts';
import { DataTable } from '../../shell/ui.tsx';
import { useDesk } from '../../state/area-desk.ts';
import type { Areas } from '../../state/use-areas.ts';
import { Stacked } from './Stacked.tsx';

export function Compare({ areas, held }: { areas: Areas; held: AreasHeld }) {
  const id = useId();
  const chosen = useDesk((d) => d.chosen);
  const [asked, setAsked] = useState<number | null>(null);
  const chosenAt =
    chosen?.file === TREATMENTS_FILE
      ? areas.candidates.findIndex((area) => area.place === chosen.place)
      : -1;
  const which = asked ?? Math.max(0, chosenAt);
  const compared = compareArea(held, which) ?? compareArea(held, 0);
  if (compared === null) return null;
  return (
    <section aria-labelledby={id} className="area-compare">
      <h2 id={id}>Which holds more</h2>
      <p className="area-line no-print">
        <label htmlFor={`${id}s`}>Compare</label>
        <select
          id={`${id}s`}
          className="field"
          value={which}
          onChange={(e) => setAsked(Number(e.target.value))}
        >
          {held.candidates.map(({ name }, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: names may repeat
            <option key={i} value={i}>
              {name}
            </option>
          ))}
        </select>
      </p>
      <DataTable
        caption={compared.head}
        columns={[
          { title: 'than', cell: (row: Comparison['rows'][number]) => row.name },
          {
            title: labels('mussel'),
            align: 'right',
            cell: ({ mussels: [estimate, interval] }) => (
              <Stacked main={estimate} beneath={interval} />
            ),
          },
          { title: 'Chance', align: 'right', cell: (row) => row.chance },
        ]}
        rows={compared.rows}
        keyOf={(row, i) => `${i} ${row.name}`}
      />
    </section>
  );
}
