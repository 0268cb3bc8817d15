/** Changes between two surveys: a mark and its interval a row, on a log axis about no change. */

import { axisX, axisY, dot, type PlotOptions, ruleX, ruleY, text, tickX } from '@observablehq/plot';
import { useCallback } from 'react';
import { visible } from '../../../shared/words.ts';
import type { RatioPicture } from '../../present/change-pictures.ts';
import { labelMarginPx, rowLabel } from './row-labels.ts';
import { TabledPlot } from './TabledPlot.tsx';

const ROW_PX = 24;
/** What a row is a part of is told by its shape, too. */
const SHAPES = {
  total: 'diamond',
  substrate: 'square',
  depth: 'circle',
  area: 'triangle',
} as const;

export function ChangeRatios({
  picture,
}: {
  /** keep it the same record while nothing changed */
  picture: RatioPicture;
}) {
  const draw = useCallback(() => plotOf(picture), [picture]);
  const [part, ratio] = picture.head;
  return (
    <TabledPlot
      picture={picture}
      draw={draw}
      columns={[
        { title: part, cell: ([name]: [string, string]) => visible(name) },
        { title: ratio, cell: ([, words]) => words },
      ]}
      rows={picture.rows}
      keyOf={([name, words]) => `${name} ${words}`}
    />
  );
}

function plotOf({ bars, axis: { from, to, ticks, name } }: RatioPicture): PlotOptions {
  // two parts may be called the same
  const keyed = bars.map((bar, i) => ({ ...bar, row: i }));
  const label = (row: number): string => rowLabel(visible(bars[row].name));
  return {
    height: bars.length * ROW_PX + 48,
    marginLeft: labelMarginPx(bars.map((bar) => visible(bar.name))),
    marginRight: 18,
    marginTop: 6,
    marginBottom: 40,
    x: { type: 'log', domain: [from, to], label: null },
    y: { type: 'band', domain: keyed.map(({ row }) => row), label: null },
    marks: [
      ruleX([1], { stroke: 'var(--ink)', strokeDasharray: '5 4' }),
      ruleY(keyed, { y: 'row', x1: 'lower', x2: 'upper', stroke: 'var(--accent)', strokeWidth: 2 }),
      tickX(
        keyed.filter(({ stop }) => stop !== null),
        { y: 'row', x: 'stop', inset: 5, stroke: 'var(--accent)', strokeWidth: 2.2 },
      ),
      dot(
        keyed.filter(({ ratio }) => ratio !== null),
        {
          y: 'row',
          x: 'ratio',
          r: 5,
          symbol: ({ kind }: (typeof keyed)[number]) => SHAPES[kind],
          fill: 'var(--panel)',
          stroke: 'var(--accent)',
          strokeWidth: 2.2,
        },
      ),
      // an axis of Plot leaves some of its labels out where the scale is logarithmic
      text(ticks, { x: 'at', text: 'label', frameAnchor: 'bottom', dy: 15, fill: 'var(--quiet)' }),
      axisX({
        ticks: [],
        tickSize: 0,
        label: name,
        labelArrow: 'none',
        labelAnchor: 'center',
      }),
      axisY({ tickSize: 0, tickFormat: label, fill: 'var(--ink)', label: null }),
    ],
  };
}
