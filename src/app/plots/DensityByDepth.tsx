/**
 * Density against depth: depth runs down, density to the right on a log axis with the map's classes along it; a line a
 * substrate told apart by its style, its interval as a band, what nobody sampled hatched. A depth can be pointed at.
 */

import { areaX, line, type PlotOptions, ruleX } from '@observablehq/plot';
import { memo, useCallback, useId, useMemo } from 'react';
import type { DensityCurve } from '../../../shared/result.ts';
import type { Domain } from '../../../shared/survey.ts';
import { formatDepth, formatDepthBand } from '../../../shared/units.ts';
import { listed } from '../../../shared/words.ts';
import type { Units } from '../contract.ts';
import { lineStyle, substrateLabel } from '../look/substrate-style.ts';
import { DataTable, Figure, QuantityText, quantityWords, unitSystem } from '../shell/ui.tsx';
import { lengthTicks, powerLabel } from './axis-ticks.ts';
import { DensityOver, HEIGHT_PX, MARGIN, rowsOf, STRIP } from './DensityOver.tsx';
import { DepthControl } from './DepthControl.tsx';
import {
  type DensityAtDepth,
  type DensityFrame,
  densityAtDepth,
  densityFrame,
  drawable,
  tableDepths,
} from './density-data.ts';
import { PlotImage } from './PlotImage.tsx';

export interface DensityByDepthProps {
  curves: DensityCurve[];
  domain: Domain;
  /** depth looked at, null = none */
  focusDepthM: number | null;
  onDepth(depthM: number | null): void;
  units: Units;
}

/** Says so in words when no substrate has a density above 0. */
export function DensityByDepth({
  curves,
  domain,
  focusDepthM,
  onDepth,
  units,
}: DensityByDepthProps) {
  const id = useId();
  const drawn = useMemo(() => drawable(curves), [curves]);
  const axes = useMemo(() => densityFrame(drawn, domain), [drawn, domain]);
  const draw = useCallback(
    () => (axes ? plotOf(drawn, domain.classes, axes, units) : {}),
    [drawn, domain, axes, units],
  );
  if (axes === null) return <p className="quiet">No density above 0 to draw.</p>;
  const system = unitSystem(units);
  const at = (depthM: number) => drawn.flatMap((c) => densityAtDepth(c, depthM) ?? []);
  const focused = focusDepthM === null ? [] : at(focusDepthM);
  const fromM = Math.max(0, domain.depthFromM);
  return (
    <Figure
      title="Density by depth, mussels per m²"
      alt={`Depth runs down, density to the right on a log scale; lines with interval bands for ${listed(
        drawn.map((c) => substrateLabel(c.substrate)),
        'and',
      )}, from ${formatDepthBand(fromM, domain.depthToM, system)}. What was not sampled is hatched.`}
      interactive
      table={<CurveTable curves={drawn} domain={domain} units={units} />}
    >
      <PlotImage
        draw={draw}
        name="Density by depth, one line for each substrate; the numbers are in the table below"
        over={(frame) => (
          <DensityOver
            id={id}
            frame={frame}
            axes={axes}
            curves={drawn}
            classes={domain.classes}
            focusDepthM={focused.length > 0 ? focusDepthM : null}
            focused={focused}
          />
        )}
        control={(frame) => (
          <DepthControl
            label="Depth looked at"
            depthM={focusDepthM}
            fromM={fromM}
            toM={domain.depthToM}
            onDepth={onDepth}
            words={(depthM) => `${formatDepth(depthM, system)}: ${inWords(at(depthM))}`}
            toDepth={(px) => frame.y.invert(px + MARGIN.top)}
            box={{
              left: MARGIN.left,
              top: MARGIN.top,
              width: frame.widthPx - MARGIN.left - MARGIN.right,
              height: HEIGHT_PX - MARGIN.top - MARGIN.bottom,
            }}
          />
        )}
      />
      <p className="plot-reading quiet">
        {focusDepthM !== null && focused.length > 0 ? (
          <>
            <b>At {formatDepth(focusDepthM, system)}</b> {inWords(focused)} per m²
          </>
        ) : (
          <span className="no-print">
            Point at a depth, or move along it with the arrow keys, to read the densities there; the
            map shows the band.
          </span>
        )}
      </p>
    </Figure>
  );
}

function plotOf(
  curves: DensityCurve[],
  classes: readonly string[],
  axes: DensityFrame,
  units: Units,
): PlotOptions {
  const ticks = lengthTicks(axes.bottomM, 8, units);
  const powers = Array.from(
    { length: axes.toPower - axes.fromPower + 1 },
    (_, i) => axes.fromPower + i,
  );
  const densities = powers.map((p) => 10 ** p);
  const labelOf = new Map(ticks.map((t) => [t.m, t.label]));
  return {
    height: HEIGHT_PX,
    marginTop: MARGIN.top,
    marginRight: MARGIN.right,
    marginBottom: MARGIN.bottom,
    marginLeft: MARGIN.left,
    x: {
      type: 'log',
      domain: [10 ** axes.fromPower, 10 ** axes.toPower],
      ticks: densities,
      tickFormat: (d: number) => powerLabel(Math.round(Math.log10(d))),
      tickSize: 0,
      tickPadding: STRIP.gapPx + STRIP.heightPx + 6,
      label: null,
    },
    y: {
      domain: [0, axes.bottomM],
      reverse: true,
      ticks: ticks.map((t) => t.m),
      tickFormat: (m: number) => labelOf.get(m) ?? '',
      tickSize: 0,
      label: null,
    },
    marks: [
      ruleX(densities, { stroke: 'var(--line)' }),
      ...curves.flatMap((c) => {
        const rows = rowsOf(c);
        const { dash, widthPx } = lineStyle(c.substrate, classes);
        return [
          areaX(rows, {
            y: 'depthM',
            x1: 'lower',
            x2: 'upper',
            fill: 'var(--accent)',
            fillOpacity: 0.12,
            clip: true,
          }),
          line(rows, {
            y: 'depthM',
            x: 'musselsPerM2',
            stroke: 'var(--accent)',
            strokeWidth: widthPx,
            strokeDasharray: dash,
            clip: true,
          }),
        ];
      }),
    ],
  };
}

/** `rock 2.9 (2.1 to 4.0), gravel 2.4 (1.9 to 3.1)`, the densest first. */
function inWords(rows: readonly DensityAtDepth[]): string {
  return [...rows]
    .sort((a, b) => b.musselsPerM2 - a.musselsPerM2)
    .map((r) => {
      const { estimate, range } = quantityWords({ ...r, estimate: r.musselsPerM2 });
      return `${r.substrate} ${estimate}${range === null ? '' : ` (${range})`}`;
    })
    .join(', ');
}

const CurveTable = memo(function CurveTable({
  curves,
  domain,
  units,
}: {
  curves: DensityCurve[];
  domain: Domain;
  units: Units;
}) {
  return (
    <DataTable
      caption="Mussels per m² by depth and substrate, with intervals"
      captionHidden
      columns={[
        { title: 'Depth', cell: (depthM: number) => formatDepth(depthM, unitSystem(units)) },
        ...curves.map((c) => ({
          title: substrateLabel(c.substrate),
          align: 'right' as const,
          cell: (depthM: number) => {
            const d = densityAtDepth(c, depthM);
            return <QuantityText q={d && { ...d, estimate: d.musselsPerM2, se: null, cv: null }} />;
          },
        })),
      ]}
      rows={tableDepths(domain)}
      keyOf={(depthM) => String(depthM)}
    />
  );
});
