/** What lies over the density plot: hatched depths, the class strip, the lines' names, and the depth looked at. */

import { memo } from 'react';
import { visible } from '../../../shared/words.ts';
import type { DensityPicture, DensityReading } from '../../present/density-curve.ts';
import { HatchPattern } from '../look/Patterns.tsx';
import { lineStyle } from '../look/substrate-style.ts';
import { ClassStrip } from './ClassStrip.tsx';
import type { PlotFrame } from './PlotImage.tsx';
import { placeLabels } from './place-labels.ts';

export const HEIGHT_PX = 300;
export const MARGIN = { top: 8, right: 12, bottom: 44, left: 48 };
/** Between the plot's lower edge and its class strip, and the strip's height. */
export const STRIP = { gapPx: 4, heightPx: 8 };
/** Width of a letter of a name on average, for laying out names before they are drawn. */
const LETTER_PX = 6.3;

export function DensityOver({
  id,
  frame,
  density,
  focusDepthM,
  focused,
}: {
  id: string;
  frame: PlotFrame;
  density: DensityPicture;
  focusDepthM: number | null;
  focused: DensityReading[];
}) {
  const left = MARGIN.left;
  const right = frame.widthPx - MARGIN.right;
  const bottom = HEIGHT_PX - MARGIN.bottom;
  const y = focusDepthM === null ? null : frame.y.apply(focusDepthM);
  return (
    <>
      <defs>
        <HatchPattern id={`${id}hatch`} />
      </defs>
      {density.unsampled.map(({ fromM, toM }) => (
        <rect
          key={fromM}
          x={left}
          width={right - left}
          y={frame.y.apply(fromM)}
          height={frame.y.apply(toM) - frame.y.apply(fromM)}
          fill={`url(#${id}hatch)`}
        />
      ))}
      <rect
        x={left}
        y={MARGIN.top}
        width={right - left}
        height={bottom - MARGIN.top}
        fill="none"
        className="plot-rule"
      />
      <ClassStrip
        fromPower={density.fromPower}
        toPower={density.toPower}
        x={(d) => frame.x.apply(d)}
        y={bottom + STRIP.gapPx}
        heightPx={STRIP.heightPx}
      />
      <Names density={density} frame={frame} />
      {y !== null && (
        <g>
          <line x1={left} x2={right} y1={y} y2={y} className="plot-focus" />
          {focused.map((d) => (
            <circle
              key={d.name}
              cx={frame.x.apply(d.value.estimate)}
              cy={y}
              r={lineStyle(d.classes, density.classes).widthPx + 2}
              className="plot-dot"
            />
          ))}
        </g>
      )}
    </>
  );
}

/** Laid out once for a drawing: where names fit takes longer to find than a pointer should wait. */
const Names = memo(function Names({
  density,
  frame,
}: {
  density: DensityPicture;
  frame: PlotFrame;
}) {
  return namesOf(density, frame).map((n) => (
    <g key={n.text}>
      {n.leader && (
        <>
          <line x1={n.leader.fromX} x2={n.leader.toX} y1={n.y} y2={n.y} className="plot-leader" />
          <circle cx={n.leader.toX} cy={n.y} r={2.5} className="plot-leader-end" />
        </>
      )}
      <text x={n.x} y={n.y} dominantBaseline="central" className="plot-name">
        {n.text}
      </text>
    </g>
  ));
});

function namesOf({ curves, unsampled, bottomM }: DensityPicture, frame: PlotFrame) {
  const left = MARGIN.left;
  const right = frame.widthPx - MARGIN.right;
  const top = frame.y.apply(unsampled.find((s) => s.fromM === 0)?.toM ?? 0);
  const bottom = frame.y.apply(unsampled.find((s) => s.toM === bottomM)?.fromM ?? bottomM);
  return placeLabels(
    curves.map((c) => ({
      text: visible(c.name),
      widthPx: c.name.length * LETTER_PX,
      points: c.line.map((p) => [frame.x.apply(p.musselsPerM2), frame.y.apply(p.depthM)] as const),
    })),
    { left, right, top, bottom },
  );
}
