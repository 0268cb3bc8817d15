/** Offsets of the clusters found on distance transects as bars, the fitted fall of detection as a line over them. */

import { axisX, axisY, lineY, type PlotOptions, rectY, ruleY } from '@observablehq/plot';
import { useCallback } from 'react';
import type { Shape } from '../../../shared/estimate.ts';
import { formatDigits } from '../../../shared/units.ts';
import type { Units } from '../contract.ts';
import { DataTable, Figure } from '../shell/ui.tsx';
import { lengthText, lengthTicks } from './axis-ticks.ts';
import type { OffsetBin, OffsetPicture } from './offset-data.ts';
import { PlotImage } from './PlotImage.tsx';

const HEIGHT_PX = 190;

export function OffsetHistogram({
  picture,
  shape,
  units,
}: {
  picture: OffsetPicture;
  shape: Shape | null;
  units: Units;
}) {
  const draw = useCallback(() => plotOf(picture, units), [picture, units]);
  const fitted = picture.curve.length > 0 && shape !== null;
  return (
    <Figure
      title="How far from the rope the clusters were found"
      alt={`Histogram of the offsets of ${picture.found} clusters from 0 to ${lengthText(picture.halfWidthM, units, 2)}${
        fitted ? `, with the fitted ${shape} curve over it` : ''
      }.`}
      note={
        fitted
          ? `Bars: clusters found. Line: what the fitted ${shape} curve expects. Peaks at 0, at half and at the edge of the strip speak of rounding.`
          : 'Bars: clusters found.'
      }
      table={
        <DataTable
          caption="Clusters found and expected, by offset from the rope"
          captionHidden
          columns={[
            {
              title: 'Offset',
              cell: (b: OffsetBin) =>
                `${lengthText(b.fromM, units, 2)} to ${lengthText(b.toM, units, 2)}`,
            },
            { title: 'Found', align: 'right', cell: (b) => b.found },
            {
              title: 'Expected',
              align: 'right',
              cell: (b) => (b.expected === null ? '–' : formatDigits(b.expected, 3)),
            },
          ]}
          rows={picture.bins}
          keyOf={(b) => String(b.fromM)}
        />
      }
    >
      <PlotImage draw={draw} />
    </Figure>
  );
}

function plotOf(picture: OffsetPicture, units: Units): PlotOptions {
  const ticks = lengthTicks(picture.halfWidthM, 6, units);
  const labels = new Map(ticks.map((t) => [t.m, t.label]));
  return {
    height: HEIGHT_PX,
    marginTop: 8,
    marginBottom: 26,
    marginLeft: 40,
    marginRight: 18,
    x: { domain: [0, picture.halfWidthM], label: null },
    y: { label: null, nice: true, zero: true },
    marks: [
      rectY(picture.bins, {
        x1: 'fromM',
        x2: 'toM',
        y: 'found',
        fill: 'var(--line)',
        stroke: 'var(--panel)',
        strokeWidth: 1,
      }),
      lineY(picture.curve, {
        x: 'offsetM',
        y: 'expected',
        stroke: 'var(--accent)',
        strokeWidth: 2,
      }),
      axisX(
        ticks.map((t) => t.m),
        { tickFormat: (m: number) => labels.get(m) ?? '', tickSize: 0, label: null },
      ),
      axisY({ ticks: 4, tickSize: 0, label: null }),
      ruleY([0], { stroke: 'var(--quiet)' }),
    ],
  };
}
