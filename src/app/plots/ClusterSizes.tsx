/** Sizes of the detected clusters as bars, beside what the fit expects. */

import { axisX, axisY, barY, type PlotOptions, ruleY, tickY } from '@observablehq/plot';
import { useCallback } from 'react';
import type { SizePicture, SizeRow } from '../../present/cluster-sizes.ts';
import { TabledPlot } from './TabledPlot.tsx';

const HEIGHT_PX = 170;
const MARGIN_PX = { left: 40, right: 18 };
/** Room that a letter of a label needs, and a label at least; both ends of a class are named where they fit. */
const LETTER_PX = 7.2;
const LEAST_PX = 24;

export function ClusterSizes({ picture }: { picture: SizePicture }) {
  const draw = useCallback((widthPx: number) => plotOf(picture, widthPx), [picture]);
  const { columns } = picture;
  return (
    <TabledPlot
      picture={picture}
      draw={draw}
      columns={[
        { title: columns.size, cell: (c: SizeRow) => c.name },
        { title: columns.observed, align: 'right', cell: (c) => c.observedText },
        { title: columns.expected, align: 'right', cell: (c) => c.expectedText },
      ]}
      rows={picture.classes}
      keyOf={(c) => c.name}
    />
  );
}

function plotOf({ classes }: SizePicture, widthPx: number): PlotOptions {
  const each = (widthPx - MARGIN_PX.left - MARGIN_PX.right) / classes.length;
  const every = Math.ceil(LEAST_PX / each);
  const labels = new Map(
    classes.map((c, i) => [
      c.name,
      i % every > 0 ? '' : c.short.length * LETTER_PX > each * every ? c.start : c.short,
    ]),
  );
  return {
    height: HEIGHT_PX,
    marginTop: 8,
    marginBottom: 26,
    marginLeft: MARGIN_PX.left,
    marginRight: MARGIN_PX.right,
    x: { type: 'band', domain: classes.map((c) => c.name), label: null, padding: 0.25 },
    y: { label: null, nice: true, zero: true },
    marks: [
      barY(classes, { x: 'name', y: 'observed', fill: 'var(--line)' }),
      tickY(classes, { x: 'name', y: 'expected', stroke: 'var(--accent)', strokeWidth: 2.5 }),
      axisX({ tickFormat: (name: string) => labels.get(name) ?? '', tickSize: 0, label: null }),
      axisY({ ticks: 4, tickSize: 0, label: null }),
      ruleY([0], { stroke: 'var(--quiet)' }),
    ],
  };
}
