/** Two readings of the same places against each other, with the line that fits them. */

import { axisX, axisY, dot, line, type PlotOptions } from '@observablehq/plot';
import { useCallback } from 'react';
import { extent } from '../../../../shared/extent.ts';
import type { ImportPicture } from '../../../../shared/importing.ts';
import { plain, visible } from '../../../../shared/words.ts';
import { PlotImage } from '../../plots/PlotImage.tsx';
import { Figure } from '../../shell/ui.tsx';

const HEIGHT_PX = 260;

type Picture = Extract<ImportPicture, { kind: 'scatter' }>;

export function PicturePlot({ picture }: { picture: Picture }) {
  const { caption, xLabel, yLabel, points, slope, intercept } = picture;
  const draw = useCallback(() => plotOf(picture), [picture]);
  const fitted = `${plain(Number(slope.toPrecision(3)))} × ${xLabel}${intercept === 0 ? '' : ` ${intercept < 0 ? '−' : '+'} ${plain(Number(Math.abs(intercept).toPrecision(3)))}`}`;
  return (
    <Figure
      title={visible(caption)}
      alt={visible(`${points.length} pairs of ${xLabel} and ${yLabel}; the line is ${fitted}.`)}
      note={visible(`Across: ${xLabel}. Up: ${yLabel}. Line: ${fitted}.`)}
    >
      <PlotImage draw={draw} />
    </Figure>
  );
}

function plotOf({ points, slope, intercept }: Picture): PlotOptions {
  const [low, high] = extent([0, ...points.map(({ x }) => x)]);
  const ends = [low, high].map((x) => ({ x, y: slope * x + intercept }));
  return {
    height: HEIGHT_PX,
    marginLeft: 48,
    marginBottom: 26,
    x: { label: null, nice: true },
    y: { label: null, nice: true },
    marks: [
      line(ends, { x: 'x', y: 'y', stroke: 'var(--accent)', strokeWidth: 1.5 }),
      dot(points, { x: 'x', y: 'y', r: 2.5, stroke: 'var(--quiet)', strokeWidth: 1.2 }),
      axisX({ ticks: 6, tickSize: 0, label: null }),
      axisY({ ticks: 5, tickSize: 0, label: null }),
    ],
  };
}
