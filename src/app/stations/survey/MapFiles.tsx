/** Which maps of the lake are there, and what is lost without the others. */

import { type MapFiles as Files, mapFiles } from '../../../present/map-files.ts';
import type { JudgedView } from '../../contract.ts';
import { DataTable } from '../../shell/ui.tsx';

export function MapFiles({ judged }: { judged: JudgedView }) {
  const { title, columns, rows } = mapFiles(judged.lake);
  return (
    <DataTable
      caption={title}
      columns={[
        { title: columns.name, cell: (file: Files['rows'][number]) => file.name },
        { title: columns.holds, cell: (file) => file.holds },
      ]}
      rows={rows}
      keyOf={(file) => file.name}
    />
  );
}
