/** Perpendicular distances of the detections as bars, as high as detections per metre; over them what the fit expects, on a second scale the detection function. */

import { axisX, axisY, lineY, type PlotOptions, rectY, ruleY, text } from '@observablehq/plot';
import { useCallback } from 'react';
import { extent } from '../../../shared/extent.ts';
import { formatPercent } from '../../../shared/units.ts';
import type { DistanceClass, DistancePicture } from '../../present/detection-function.ts';
import type { Units } from '../contract.ts';
import { lengthTicks } from './axis-ticks.ts';
import { TabledPlot } from './TabledPlot.tsx';

const HEIGHT_PX = 200;
const SHARES = [0, 0.5, 1];

export function DistanceHistogram({ picture, units }: { picture: DistancePicture; units: Units }) {
  const draw = useCallback(() => plotOf(picture, units), [picture, units]);
  const { columns } = picture;
  return (
    <TabledPlot
      picture={picture}
      draw={draw}
      columns={[
        { title: columns.distance, cell: (c: DistanceClass) => c.name },
        { title: columns.observed, align: 'right', cell: (c) => c.observedText },
        { title: columns.expected, align: 'right', cell: (c) => c.expectedText },
        { title: columns.detection, align: 'right', cell: (c) => c.detectionText },
      ]}
      rows={picture.classes}
      keyOf={(c) => String(c.fromM)}
    />
  );
}

function plotOf(picture: DistancePicture, units: Units): PlotOptions {
  const { classes, curve, expectedAtOne, halfWidthM, heightAxis, symbol } = picture;
  const ticks = lengthTicks(halfWidthM, 6, units);
  const labels = new Map(ticks.map((t) => [t.m, t.label]));
  const most = extent([
    expectedAtOne ?? 0,
    ...classes.map((c) => c.observedPerLength),
    ...curve.map((c) => c.expectedPerLength),
  ])[1];
  const second =
    expectedAtOne === null
      ? []
      : [
          axisY(
            SHARES.map((p) => p * expectedAtOne),
            {
              anchor: 'right',
              tickFormat: (n: number) => formatPercent(Number((n / expectedAtOne).toFixed(3))),
              tickSize: 4,
              label: symbol,
              labelArrow: 'none',
            },
          ),
        ];
  return {
    height: HEIGHT_PX,
    marginTop: 20,
    marginBottom: 26,
    marginLeft: 40,
    marginRight: expectedAtOne === null ? 18 : 48,
    x: { domain: [0, halfWidthM], label: null },
    y: { domain: [0, most], label: null, nice: true },
    marks: [
      rectY(classes, {
        x1: 'fromM',
        x2: 'toM',
        y: 'observedPerLength',
        fill: 'var(--line)',
        stroke: 'var(--panel)',
        strokeWidth: 1,
      }),
      lineY(curve, {
        x: 'distanceM',
        y: 'expectedPerLength',
        stroke: 'var(--accent)',
        strokeWidth: 2,
      }),
      axisX(
        ticks.map((t) => t.m),
        { tickFormat: (m: number) => labels.get(m) ?? '', tickSize: 0, label: null },
      ),
      text(classes, {
        x: (c: DistanceClass) => (c.fromM + c.toM) / 2,
        y: 'observedPerLength',
        text: 'observedText',
        dy: -7,
        stroke: 'var(--panel)',
        strokeWidth: 3,
        fill: 'var(--ink)',
      }),
      axisY({ ticks: 4, tickSize: 0, label: heightAxis, labelArrow: 'none' }),
      ...second,
      ruleY([0], { stroke: 'var(--quiet)' }),
    ],
  };
}
