/** Detected clusters, as bars, against what the model expects, as strokes, class by class; depth bands run down. */

import { axisX, axisY, barX, type PlotOptions, ruleX, tickX } from '@observablehq/plot';
import { useCallback, useMemo } from 'react';
import { extent } from '../../../shared/extent.ts';
import { visible } from '../../../shared/words.ts';
import type { ObservedRow, ObservedTable } from '../../present/observed-expected.ts';
import { DataTable, Figure } from '../shell/ui.tsx';
import { PlotImage } from './PlotImage.tsx';
import { labelMarginPx, rowLabel } from './row-labels.ts';

const ROW_PX = 22;

export function ObservedExpected({ table }: { table: ObservedTable }) {
  const { title, column, groups, described } = table;
  const rows = useMemo(() => groups.flatMap((g) => g.rows), [groups]);
  const draw = useCallback(() => plotOf(rows), [rows]);
  return (
    <Figure
      title={title}
      alt={visible(`${title}: ${described}`)}
      note="Bars: detected. Strokes: expected by the model."
      table={
        <DataTable
          caption={title}
          captionHidden
          columns={[
            { title: column, cell: (r: ObservedRow) => visible(r.name) },
            { title: 'Detected', align: 'right', cell: (r) => r.observedText },
            { title: 'Expected', align: 'right', cell: (r) => r.expectedText },
          ]}
          rows={rows}
          keyOf={(r) => r.name}
        />
      }
    >
      <PlotImage draw={draw} />
    </Figure>
  );
}

function plotOf(rows: readonly ObservedRow[]): PlotOptions {
  const [, most] = extent([1, ...rows.flatMap((r) => [r.observed, r.expected])]);
  return {
    height: rows.length * ROW_PX + 28,
    marginTop: 2,
    marginBottom: 26,
    marginRight: 18,
    marginLeft: labelMarginPx(rows.map((r) => r.name)),
    x: { domain: [0, most * 1.04], label: null },
    y: { type: 'band', domain: rows.map((r) => r.name), label: null, padding: 0.3 },
    marks: [
      barX(rows, { y: 'name', x: 'observed', fill: 'var(--line)' }),
      tickX(rows, { y: 'name', x: 'expected', stroke: 'var(--accent)', strokeWidth: 2.5 }),
      ruleX([0], { stroke: 'var(--quiet)' }),
      axisX({ ticks: 5, tickSize: 0, label: null }),
      axisY({
        tickSize: 0,
        tickFormat: (s: string) => rowLabel(visible(s)),
        fill: 'var(--ink)',
        label: null,
      }),
    ],
  };
}
