/** Totals of surveys in time with their intervals, on a log axis. */

import { axisX, axisY, dot, link, type PlotOptions, ruleX, text } from '@observablehq/plot';
import { useCallback } from 'react';
import { visible } from '../../../shared/words.ts';
import type { SeriesPicture } from '../../present/change-pictures.ts';
import { TabledPlot } from './TabledPlot.tsx';

const HEIGHT_PX = 230;
const DIGIT_PX = 7.2;
const DAY_MS = 86_400_000;
/** Of the time between the first and the last, at either end. */
const ROOM = 0.12;

export function SurveySeries({
  picture,
  table: [head, ...rows],
}: {
  /** keep it the same record while nothing changed */
  picture: SeriesPicture;
  /** a head and a row a survey */
  table: string[][];
}) {
  const draw = useCallback(() => plotOf(picture), [picture]);
  return (
    <TabledPlot
      picture={picture}
      draw={draw}
      columns={head.map((title, i) => ({
        title,
        ...(i < 2 ? {} : { align: 'right' as const }),
        cell: (row: string[]) => visible(row[i]),
      }))}
      rows={rows}
      keyOf={([survey]) => survey}
    />
  );
}

function plotOf({ points, lines, axis: { from, to, ticks, name } }: SeriesPicture): PlotOptions {
  const dated = points.map((p) => ({ ...p, day: new Date(p.date) }));
  const [first, last] = [dated[0].day.getTime(), dated[dated.length - 1].day.getTime()];
  const room = Math.max(DAY_MS, (last - first) * ROOM);
  const longest = ticks.reduce((most, { label }) => Math.max(most, label.length), 0);
  const joined = lines.map(([a, b]) => ({ a: dated[a], b: dated[b] }));
  return {
    height: HEIGHT_PX,
    marginLeft: Math.ceil(longest * DIGIT_PX + 18),
    marginRight: 18,
    marginTop: 26,
    marginBottom: 30,
    x: { type: 'utc', domain: [new Date(first - room), new Date(last + room)], label: null },
    y: { type: 'log', domain: [from, to], label: null },
    marks: [
      link(joined, {
        x1: ({ a }) => a.day,
        y1: ({ a }) => a.estimate,
        x2: ({ b }) => b.day,
        y2: ({ b }) => b.estimate,
        stroke: 'var(--quiet)',
        strokeDasharray: '5 4',
      }),
      ruleX(dated, { x: 'day', y1: 'lower', y2: 'upper', stroke: 'var(--accent)', strokeWidth: 2 }),
      dot(dated, {
        x: 'day',
        y: 'estimate',
        r: 5,
        fill: 'var(--panel)',
        stroke: 'var(--accent)',
        strokeWidth: 2.2,
      }),
      axisX({
        ticks: dated.map(({ day }) => day),
        tickSize: 0,
        label: null,
        tickFormat: (day: Date) => day.toISOString().slice(0, 7),
      }),
      // an axis of Plot leaves some of its labels out where the scale is logarithmic
      text(ticks, {
        y: 'at',
        text: 'label',
        frameAnchor: 'left',
        textAnchor: 'end',
        dx: -8,
        fill: 'var(--quiet)',
      }),
      axisY({
        ticks: [],
        tickSize: 0,
        label: name,
        labelArrow: 'none',
      }),
    ],
  };
}
