/** Expected precision against the number of dives, with the band of designs, the plan and the survey as it is. */

import { areaY, axisX, axisY, dot, line, type PlotOptions, ruleY } from '@observablehq/plot';
import { useCallback } from 'react';
import { formatPercent } from '../../../shared/units.ts';
import type { PrecisionPicture } from '../../present/precision-curve.ts';
import { TabledPlot } from './TabledPlot.tsx';

const HEIGHT_PX = 250;

export function PrecisionCurve({
  picture,
  table: { head, rows },
}: {
  /** keep it the same record while nothing changed */
  picture: PrecisionPicture;
  table: { head: string[]; rows: string[][] };
}) {
  const draw = useCallback(() => plotOf(picture), [picture]);
  return (
    <TabledPlot
      picture={{ title: picture.title, described: picture.described, note: picture.band }}
      draw={draw}
      columns={head.map((title, i) => ({
        title,
        align: 'right' as const,
        cell: (row: string[]) => row[i],
      }))}
      rows={rows}
      keyOf={([transects]) => transects ?? ''}
    />
  );
}

function plotOf({ points, plan, current, transects, cv }: PrecisionPicture): PlotOptions {
  return {
    height: HEIGHT_PX,
    marginLeft: 46,
    marginRight: 18,
    marginTop: 12,
    marginBottom: 38,
    x: { type: 'log', domain: [transects.from, transects.to], label: null },
    y: { type: 'log', domain: [cv.from, cv.to], label: null },
    marks: [
      areaY(points, { x: 'transects', y1: 'lower', y2: 'upper', fill: 'var(--water)' }),
      ...(current === null
        ? []
        : [ruleY([current], { stroke: 'var(--quiet)', strokeDasharray: '5 4' })]),
      line(points, { x: 'transects', y: 'cv', stroke: 'var(--ink)', strokeWidth: 2 }),
      dot(plan === null ? [] : [plan], {
        x: 'transects',
        y: 'cv',
        r: 5.5,
        fill: 'var(--panel)',
        stroke: 'var(--accent)',
        strokeWidth: 2.4,
      }),
      axisX({
        ticks: transects.ticks,
        tickFormat: String,
        tickSize: 0,
        label: transects.name,
        labelArrow: 'none',
        labelAnchor: 'center',
      }),
      axisY({
        ticks: cv.ticks.map((t) => t.at),
        tickSize: 0,
        label: null,
        tickFormat: (x: number) => formatPercent(x),
      }),
    ],
  };
}
