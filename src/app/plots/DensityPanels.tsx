/** The panels of density against depth: one a substrate, its interval as a band, the others thin behind it. */

import { memo, useId } from 'react';
import type { DensityPicture, DensityReading, DrawnCurve } from '../../present/density-curve.ts';
import type { Units } from '../contract.ts';
import { HatchPattern } from '../look/Patterns.tsx';
import { lengthTicks, powerLabel } from './axis-ticks.ts';
import { ClassStrip } from './ClassStrip.tsx';
import { PanelTitle } from './PanelTitle.tsx';
import type { PanelBox, PanelGrid } from './panel-grid.ts';

/** Between a panel's lower edge and its class strip, and the strip's height. */
const STRIP = { gapPx: 4, heightPx: 8 };
const MOST_POWERS = 4;
const MOST_DEPTHS = 6;
const DOT_PX = 4;

export interface PanelScales {
  x(box: PanelBox, musselsPerM2: number): number;
  y(box: PanelBox, depthM: number): number;
}

export function scalesOf({ fromPower, toPower, bottomM }: DensityPicture): PanelScales {
  return {
    x: (box, density) =>
      box.left +
      ((Math.log10(density) - fromPower) / (toPower - fromPower)) * (box.right - box.left),
    y: (box, depthM) => box.top + (depthM / bottomM) * (box.bottom - box.top),
  };
}

export const DensityPanels = memo(function DensityPanels({
  density,
  grid,
  widthPx,
  units,
}: {
  density: DensityPicture;
  grid: PanelGrid;
  widthPx: number;
  units: Units;
}) {
  const id = useId();
  const scales = scalesOf(density);
  return (
    <svg
      width={widthPx}
      height={grid.heightPx}
      viewBox={`0 0 ${widthPx} ${grid.heightPx}`}
      className="density-panels"
      aria-hidden="true"
    >
      <defs>
        <HatchPattern id={`${id}hatch`} />
      </defs>
      {grid.panels.map((box, i) => (
        <g key={`${box.left} ${box.top}`}>
          <clipPath id={`${id}${i}`}>
            <rect
              x={box.left}
              y={box.top}
              width={box.right - box.left}
              height={box.bottom - box.top}
            />
          </clipPath>
          <Axes
            density={density}
            box={box}
            scales={scales}
            units={units}
            hatch={`url(#${id}hatch)`}
          />
          <g clipPath={`url(#${id}${i})`}>
            <Curves density={density} own={i} box={box} scales={scales} />
          </g>
          <PanelTitle box={box} />
        </g>
      ))}
    </svg>
  );
});

function Axes({
  density,
  box,
  scales,
  units,
  hatch,
}: {
  density: DensityPicture;
  box: PanelBox;
  scales: PanelScales;
  units: Units;
  hatch: string;
}) {
  const { fromPower, toPower, bottomM, unsampled } = density;
  const every = Math.ceil((toPower - fromPower + 1) / MOST_POWERS);
  const powers = Array.from({ length: toPower - fromPower + 1 }, (_, i) => fromPower + i);
  const x = (d: number): number => scales.x(box, d);
  return (
    <>
      {unsampled.map(({ fromM, toM }) => (
        <rect
          key={fromM}
          x={box.left}
          width={box.right - box.left}
          y={scales.y(box, fromM)}
          height={scales.y(box, toM) - scales.y(box, fromM)}
          fill={hatch}
        />
      ))}
      {powers.map((power) => (
        <g key={power}>
          <line
            x1={x(10 ** power)}
            x2={x(10 ** power)}
            y1={box.top}
            y2={box.bottom}
            className="plot-rule"
          />
          {/* those at the edges stay within, or they run into the next panel's */}
          {(power - fromPower) % every === 0 && (
            <text
              x={x(10 ** power)}
              y={box.bottom + STRIP.gapPx + STRIP.heightPx + 14}
              textAnchor={power === fromPower ? 'start' : power === toPower ? 'end' : 'middle'}
              className="plot-quiet"
            >
              {powerLabel(power)}
            </text>
          )}
        </g>
      ))}
      {lengthTicks(bottomM, MOST_DEPTHS, units).map(({ m, label }) => (
        <g key={m}>
          <line
            x1={box.left}
            x2={box.right}
            y1={scales.y(box, m)}
            y2={scales.y(box, m)}
            className="plot-rule"
          />
          {box.first && (
            <text
              x={box.left - 6}
              y={scales.y(box, m)}
              textAnchor="end"
              dominantBaseline="central"
              className="plot-quiet"
            >
              {label}
            </text>
          )}
        </g>
      ))}
      <ClassStrip
        fromPower={fromPower}
        toPower={toPower}
        x={x}
        y={box.bottom + STRIP.gapPx}
        heightPx={STRIP.heightPx}
      />
    </>
  );
}

function Curves({
  density: { curves },
  own,
  box,
  scales,
}: {
  density: DensityPicture;
  own: number;
  box: PanelBox;
  scales: PanelScales;
}) {
  const place = (density: number, depthM: number): string =>
    `${scales.x(box, density).toFixed(1)},${scales.y(box, depthM).toFixed(1)}`;
  const line = ({ line: points }: DrawnCurve): string =>
    points.map((p) => place(p.musselsPerM2, p.depthM)).join(' ');
  const curve = curves[own];
  if (curve === undefined) return null;
  return (
    <>
      <polygon
        points={[
          ...curve.band.map((p) => place(p.lower, p.depthM)),
          ...curve.band.toReversed().map((p) => place(p.upper, p.depthM)),
        ].join(' ')}
        className="panel-band"
      />
      {curves.map((c, i) =>
        i === own ? null : <polyline key={c.name} points={line(c)} className="panel-other" />,
      )}
      <polyline points={line(curve)} className="panel-own" />
    </>
  );
}

/** The depth looked at, through all panels, and each substrate's density there. */
export function DepthInPanels({
  density,
  grid,
  depthM,
  readings,
}: {
  density: DensityPicture;
  grid: PanelGrid;
  depthM: number;
  readings: readonly DensityReading[];
}) {
  const scales = scalesOf(density);
  return grid.panels.map((box, i) => {
    const y = scales.y(box, depthM);
    const reading = readings.find((r) => r.name === density.curves[i]?.name);
    return (
      <g key={`${box.left} ${box.top}`}>
        <line x1={box.left} x2={box.right} y1={y} y2={y} className="plot-focus" />
        {reading && (
          <circle
            cx={scales.x(box, reading.value.estimate)}
            cy={y}
            r={DOT_PX}
            className="plot-dot"
          />
        )}
      </g>
    );
  });
}
