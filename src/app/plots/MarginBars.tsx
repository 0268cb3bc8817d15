/**
 * Mussels by depth band and by substrate: a bar a row as long as the number, filled with the map's colour of its mean
 * density, the interval as a line across its end. Pointing at a row lights it on the map.
 */

import { useRef } from 'react';
import { extent } from '../../../shared/extent.ts';
import { roundSteps } from '../../../shared/round-numbers.ts';
import { formatDigits } from '../../../shared/units.ts';
import { visible } from '../../../shared/words.ts';
import { classColour, densityClass } from '../../present/ramp.ts';
import type { DepthRow, Strata, SubstrateRow } from '../../present/strata.ts';
import type { Focus } from '../contract.ts';
import { Figure } from '../shell/ui.tsx';
import { labelMarginPx, rowLabel } from './row-labels.ts';
import { useWidth } from './use-width.ts';
import './plots.css';

const ROW_PX = 24;
const BAR_PX = 13;
const AXIS_PX = 24;
const DIGIT_PX = 7.2;
const GAP_PX = 8;
const LEAST_BAR_PX = 80;
const MOST_TICKS = 4;

interface Bar {
  key: string;
  name: string;
  row: DepthRow | SubstrateRow;
  at: Pick<Focus, 'substrate' | 'depthM'>;
}

export function MarginBars({
  strata,
  ciName,
  focus,
  onFocus,
}: {
  strata: Strata;
  /** `95 % CI` */
  ciName: string;
  focus: Focus;
  onFocus(change: Partial<Focus>): void;
}) {
  const outer = useRef<HTMLDivElement>(null);
  const widthPx = useWidth(outer);
  const { axis, depths, substrates, captions } = strata;
  if (axis === null) return null;
  const groups: { caption: string; bars: Bar[] }[] = [
    {
      caption: captions.depths,
      bars: depths.map((row) => ({
        key: row.band,
        name: row.band,
        row,
        at: { substrate: null, depthM: (row.fromM + row.toM) / 2 },
      })),
    },
    {
      caption: captions.substrates,
      bars: substrates.map((row) => ({
        key: row.substrate,
        name: visible(row.words),
        row,
        at: { substrate: row.substrate, depthM: null },
      })),
    },
  ];
  const bars = groups.flatMap((g) => g.bars);
  const left = labelMarginPx(bars.map((b) => b.name));
  const numbersPx = extent(bars.map((b) => b.row.mussels[0].length))[1] * DIGIT_PX + GAP_PX;
  const right = Math.max(left + LEAST_BAR_PX, widthPx - numbersPx);
  const x = (mussels: number): number => left + (Math.min(mussels, axis) / axis) * (right - left);
  // the last group carries the axis
  const heightPx = (own: Bar[], g: number): number =>
    own.length * ROW_PX + (g === groups.length - 1 ? AXIS_PX : 4);
  return (
    <Figure
      title={strata.title}
      alt={strata.described}
      note={`Lines: ${ciName}. Colour: mean density, as on the map.`}
    >
      <div
        ref={outer}
        className="plot margin-bars"
        onPointerLeave={() => onFocus({ substrate: null, depthM: null })}
      >
        {widthPx > 0 &&
          groups.map(({ caption, bars: own }, g) => (
            <div key={caption}>
              <div className="small quiet">{caption}</div>
              <svg
                className="margin-picture"
                width={widthPx}
                height={heightPx(own, g)}
                viewBox={`0 0 ${widthPx} ${heightPx(own, g)}`}
                aria-hidden="true"
              >
                {ticksOf(axis).map((mussels) => (
                  <g key={mussels}>
                    <line
                      x1={x(mussels)}
                      x2={x(mussels)}
                      y1={0}
                      y2={own.length * ROW_PX}
                      className="plot-rule"
                    />
                    {g === groups.length - 1 && (
                      <text
                        x={x(mussels)}
                        y={own.length * ROW_PX + 16}
                        textAnchor="middle"
                        className="plot-quiet"
                      >
                        {formatDigits(mussels, 3)}
                      </text>
                    )}
                  </g>
                ))}
                {own.map((bar, i) => (
                  <BarRow
                    key={bar.key}
                    bar={bar}
                    y={i * ROW_PX}
                    left={left}
                    widthPx={widthPx}
                    x={x}
                    lit={isLit(bar, focus)}
                    onPoint={() => onFocus(bar.at)}
                  />
                ))}
              </svg>
            </div>
          ))}
      </div>
    </Figure>
  );
}

function BarRow({
  bar: { name, row },
  y,
  left,
  widthPx,
  x,
  lit,
  onPoint,
}: {
  bar: Bar;
  y: number;
  left: number;
  widthPx: number;
  x(mussels: number): number;
  lit: boolean;
  onPoint(): void;
}) {
  const { mussels, musselsPerM2 } = row.value;
  const middle = y + ROW_PX / 2;
  const density = densityClass(musselsPerM2 ?? 0);
  return (
    <g onPointerEnter={onPoint} className={lit ? 'margin-row lit' : 'margin-row'}>
      <rect x={0} y={y} width={widthPx} height={ROW_PX} className="margin-ground" />
      <text x={0} y={middle} dominantBaseline="central" className="margin-name">
        {rowLabel(name)}
      </text>
      {mussels !== null && mussels.estimate > 0 && (
        <rect
          x={left}
          y={middle - BAR_PX / 2}
          width={x(mussels.estimate) - left}
          height={BAR_PX}
          className="margin-bar"
          style={{
            fill: `light-dark(${classColour(density, false)}, ${classColour(density, true)})`,
          }}
        />
      )}
      {mussels !== null && mussels.upper !== null && (
        <line
          x1={x(mussels.lower ?? 0)}
          x2={x(mussels.upper)}
          y1={middle}
          y2={middle}
          className="margin-interval"
        />
      )}
      <text
        x={widthPx}
        y={middle}
        dominantBaseline="central"
        textAnchor="end"
        className="margin-name"
      >
        {row.mussels[0]}
      </text>
    </g>
  );
}

function isLit({ at }: Bar, { substrate, depthM }: Focus): boolean {
  if (at.substrate !== null) return at.substrate === substrate;
  return (
    substrate === null && depthM !== null && Math.floor(depthM) === Math.floor(at.depthM ?? -1)
  );
}

/** 0 and round steps up to the axis' end. */
function ticksOf(end: number): number[] {
  return roundSteps(0, end, MOST_TICKS).filter((mussels) => mussels <= end);
}
