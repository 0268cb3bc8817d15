/** What lies over the density plot: hatched depths, the class strip, the lines' names, and the depth looked at. */

import { memo } from 'react';
import type { DensityCurve } from '../../../shared/result.ts';
import { HatchPattern } from '../look/Patterns.tsx';
import { lineStyle, substrateLabel } from '../look/substrate-style.ts';
import { ClassStrip } from './ClassStrip.tsx';
import type { DensityAtDepth, DensityFrame } from './density-data.ts';
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
  axes,
  curves,
  classes,
  focusDepthM,
  focused,
}: {
  id: string;
  frame: PlotFrame;
  axes: DensityFrame;
  curves: DensityCurve[];
  classes: readonly string[];
  focusDepthM: number | null;
  focused: DensityAtDepth[];
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
      {axes.unsampled.map(({ fromM, toM }) => (
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
        fromPower={axes.fromPower}
        toPower={axes.toPower}
        x={(d) => frame.x.apply(d)}
        y={bottom + STRIP.gapPx}
        heightPx={STRIP.heightPx}
      />
      <Names curves={curves} frame={frame} axes={axes} />
      {y !== null && (
        <g>
          <line x1={left} x2={right} y1={y} y2={y} className="plot-focus" />
          {focused.map((d) => (
            <circle
              key={d.substrate}
              cx={frame.x.apply(d.musselsPerM2)}
              cy={y}
              r={lineStyle([d.substrate], classes).widthPx + 2}
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
  curves,
  frame,
  axes,
}: {
  curves: DensityCurve[];
  frame: PlotFrame;
  axes: DensityFrame;
}) {
  return namesOf(curves, frame, axes).map((n) => (
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

function namesOf(curves: DensityCurve[], frame: PlotFrame, { unsampled, bottomM }: DensityFrame) {
  const left = MARGIN.left;
  const right = frame.widthPx - MARGIN.right;
  const top = frame.y.apply(unsampled.find((s) => s.fromM === 0)?.toM ?? 0);
  const bottom = frame.y.apply(unsampled.find((s) => s.toM === bottomM)?.fromM ?? bottomM);
  return placeLabels(
    curves.map((c) => ({
      text: substrateLabel(c.substrate),
      widthPx: substrateLabel(c.substrate).length * LETTER_PX,
      points: rowsOf(c).map(
        (r) => [frame.x.apply(r.musselsPerM2), frame.y.apply(r.depthM)] as const,
      ),
    })),
    { left, right, top, bottom },
  );
}

/** A log axis cannot show 0: such points are left out of the line and its band. */
export function rowsOf(curve: DensityCurve) {
  return curve.depthM.flatMap((depthM, i) => {
    const [musselsPerM2, lower, upper] = [curve.musselsPerM2[i]!, curve.lower[i]!, curve.upper[i]!];
    const finite = musselsPerM2 > 0 && lower > 0 && Number.isFinite(upper);
    return finite && depthM >= 0 ? [{ depthM, musselsPerM2, lower, upper }] : [];
  });
}
