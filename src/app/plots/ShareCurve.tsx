/** The share of the mussels that areas hold, against what they take of the budget. */

import { axisX, axisY, dot, line, type PlotOptions, ruleX, ruleY } from '@observablehq/plot';
import { useCallback } from 'react';
import { extent } from '../../../shared/extent.ts';
import { formatPercent } from '../../../shared/units.ts';
import type { ShareCurve as Curve } from '../../present/proposals.ts';
import { DataTable, Figure } from '../shell/ui.tsx';
import { PlotImage } from './PlotImage.tsx';

const HEIGHT_PX = 220;

export function ShareCurve({
  curve,
  table: [head, ...rows],
}: {
  /** keep it the same record while nothing changed */
  curve: Curve;
  /** the same in figures, the head first */
  table: string[][];
}) {
  const draw = useCallback(() => plotOf(curve), [curve]);
  return (
    <Figure
      title={curve.title}
      alt={curve.described}
      note={curve.note}
      table={
        <DataTable
          caption={curve.title}
          captionHidden
          columns={(head ?? []).map((title, i) => ({
            title,
            align: 'right' as const,
            cell: (row: string[]) => row[i],
          }))}
          rows={rows}
          keyOf={([budget]) => budget ?? ''}
        />
      }
    >
      <PlotImage draw={draw} />
    </Figure>
  );
}

function plotOf({ points, proposals, unit }: Curve): PlotOptions {
  const corrected = proposals.flatMap(({ used, corrected: c }) =>
    c === null ? [] : [{ used, ...c, lower: c.lower ?? c.share, upper: c.upper ?? c.share }],
  );
  const [, widest] = extent(points.map((p) => p.budget));
  const [, highest] = extent(points.map((p) => p.bound));
  return {
    height: HEIGHT_PX,
    marginLeft: 46,
    marginRight: 18,
    marginTop: 10,
    marginBottom: 36,
    x: { domain: [0, widest], label: null },
    y: { domain: [0, Math.min(1, 1.1 * highest)], label: null },
    marks: [
      line([{ budget: 0, bound: 0 }, ...points], {
        x: 'budget',
        y: 'bound',
        stroke: 'var(--quiet)',
        strokeDasharray: '4 3',
      }),
      line([{ budget: 0, share: 0 }, ...points], {
        x: 'budget',
        y: 'share',
        stroke: 'var(--ink)',
        strokeWidth: 2,
      }),
      ruleX(corrected, {
        x: 'used',
        y1: 'lower',
        y2: 'upper',
        stroke: 'var(--accent)',
        strokeWidth: 2,
      }),
      dot(corrected, { x: 'used', y: 'share', r: 4, fill: 'var(--accent)' }),
      dot(proposals, {
        x: 'used',
        y: 'share',
        r: 5,
        fill: 'var(--panel)',
        fillOpacity: 0,
        stroke: 'var(--ink)',
        strokeWidth: 1.6,
      }),
      axisX({ ticks: 5, tickSize: 0, label: unit, labelArrow: 'none', labelAnchor: 'center' }),
      axisY({ ticks: 5, tickSize: 0, label: null, tickFormat: (s: number) => formatPercent(s) }),
      ruleY([0], { stroke: 'var(--quiet)' }),
    ],
  };
}
