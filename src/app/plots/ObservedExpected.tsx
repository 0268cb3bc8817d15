/** Clusters found, as bars, against what the model expects, as strokes, class by class; depth bands run down. */

import { axisX, axisY, barX, type PlotOptions, ruleX, tickX } from '@observablehq/plot';
import { useCallback } from 'react';
import type { ObservedExpected as Row } from '../../../shared/estimate.ts';
import { formatCount, formatDigits } from '../../../shared/units.ts';
import { DataTable, Figure } from '../shell/ui.tsx';
import { PlotImage } from './PlotImage.tsx';
import { labelMarginPx, rowLabel } from './row-labels.ts';

const ROW_PX = 22;

/** `what`: what the rows are, as in "by substrate". */
export function ObservedExpected({
  title,
  what,
  rows,
}: {
  title: string;
  what: string;
  rows: Row[];
}) {
  const draw = useCallback(() => plotOf(rows), [rows]);
  if (rows.length === 0) return null;
  return (
    <Figure
      title={title}
      alt={`Clusters found and expected by ${what}: ${rows
        .map(
          (r) =>
            `${r.label} ${formatCount(r.observed)} found, ${formatDigits(r.expected, 3)} expected`,
        )
        .join('; ')}.`}
      note="Bars: found. Strokes: expected by the model."
      table={
        <DataTable
          caption={`Clusters found and expected, by ${what}`}
          captionHidden
          columns={[
            { title: 'Class', cell: (r: Row) => r.label },
            { title: 'Found', align: 'right', cell: (r) => formatCount(r.observed) },
            { title: 'Expected', align: 'right', cell: (r) => formatDigits(r.expected, 3) },
          ]}
          rows={rows}
          keyOf={(r) => r.label}
        />
      }
    >
      <PlotImage draw={draw} />
    </Figure>
  );
}

function plotOf(rows: Row[]): PlotOptions {
  const most = Math.max(1, ...rows.map((r) => Math.max(r.observed, r.expected)));
  return {
    height: rows.length * ROW_PX + 28,
    marginTop: 2,
    marginBottom: 26,
    marginRight: 18,
    marginLeft: labelMarginPx(rows.map((r) => r.label)),
    x: { domain: [0, most * 1.04], label: null },
    y: { type: 'band', domain: rows.map((r) => r.label), label: null, padding: 0.3 },
    marks: [
      barX(rows, { y: 'label', x: 'observed', fill: 'var(--line)' }),
      tickX(rows, { y: 'label', x: 'expected', stroke: 'var(--accent)', strokeWidth: 2.5 }),
      ruleX([0], { stroke: 'var(--quiet)' }),
      axisX({ ticks: 5, tickSize: 0, label: null }),
      axisY({
        tickSize: 0,
        tickFormat: (s: string) => rowLabel(s),
        fill: 'var(--ink)',
        label: null,
      }),
    ],
  };
}
