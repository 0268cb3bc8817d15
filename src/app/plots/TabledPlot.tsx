/** A plot that says what it shows, with the same in a table below: the frame that plots of a few classes share. */

import type { PlotOptions } from '@observablehq/plot';
import { visible } from '../../../shared/words.ts';
import { type DataColumn, DataTable, Figure } from '../shell/ui.tsx';
import { PlotImage } from './PlotImage.tsx';

export function TabledPlot<Row>({
  picture: { title, described, note },
  draw,
  columns,
  rows,
  keyOf,
}: {
  picture: { title: string; described: string; note: string };
  /** keep it the same function while nothing changed */
  draw: (widthPx: number) => PlotOptions;
  columns: DataColumn<Row>[];
  rows: readonly Row[];
  keyOf(row: Row): string;
}) {
  return (
    <Figure
      title={visible(title)}
      alt={visible(described)}
      note={note}
      table={
        <DataTable
          caption={visible(title)}
          captionHidden
          columns={columns}
          rows={rows}
          keyOf={keyOf}
        />
      }
    >
      <PlotImage draw={draw} />
    </Figure>
  );
}
