/** Sizes of the clusters found, beside what the fitted size distribution expects. */

import { axisX, axisY, barY, type PlotOptions, ruleY, tickY } from '@observablehq/plot';
import { useCallback } from 'react';
import { formatDigits } from '../../../shared/units.ts';
import { DataTable, Figure } from '../shell/ui.tsx';
import { PlotImage } from './PlotImage.tsx';
import type { SizeClass } from './size-data.ts';

const HEIGHT_PX = 170;

export function ClusterSizes({ classes }: { classes: SizeClass[] }) {
  const draw = useCallback(() => plotOf(classes), [classes]);
  if (classes.length === 0) return null;
  const fitted = classes.some((c) => c.expected !== null);
  return (
    <Figure
      title="Mussels in a cluster"
      alt={`Number of clusters found by their size: ${classes.map((c) => `${c.label}: ${c.found}`).join(', ')}.`}
      note={
        fitted
          ? 'Bars: clusters found, by the number of mussels in them. Strokes: what the fitted distribution expects.'
          : 'Bars: clusters found, by the number of mussels in them.'
      }
      table={
        <DataTable
          caption="Clusters found and expected, by size"
          captionHidden
          columns={[
            { title: 'Mussels in the cluster', cell: (c: SizeClass) => c.label },
            { title: 'Found', align: 'right', cell: (c) => c.found },
            {
              title: 'Expected',
              align: 'right',
              cell: (c) => (c.expected === null ? '–' : formatDigits(c.expected, 3)),
            },
          ]}
          rows={classes}
          keyOf={(c) => c.label}
        />
      }
    >
      <PlotImage draw={draw} />
    </Figure>
  );
}

function plotOf(classes: SizeClass[]): PlotOptions {
  return {
    height: HEIGHT_PX,
    marginTop: 8,
    marginBottom: 26,
    marginLeft: 40,
    marginRight: 18,
    x: { type: 'band', domain: classes.map((c) => c.label), label: null, padding: 0.25 },
    y: { label: null, nice: true, zero: true },
    marks: [
      barY(classes, { x: 'label', y: 'found', fill: 'var(--line)' }),
      tickY(
        classes.filter((c) => c.expected !== null),
        { x: 'label', y: 'expected', stroke: 'var(--accent)', strokeWidth: 2.5 },
      ),
      axisX({ tickSize: 0, label: null }),
      axisY({ ticks: 4, tickSize: 0, label: null }),
      ruleY([0], { stroke: 'var(--quiet)' }),
    ],
  };
}
