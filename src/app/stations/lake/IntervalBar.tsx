/** The lake's number and its interval on a log axis; the one before the last change beneath it. */

import { extent } from '../../../../shared/extent.ts';
import { formatDigits } from '../../../../shared/units.ts';
import type { LakeNumber } from '../../../present/answer.ts';
import { logTicks } from './log-ticks.ts';

export interface Before {
  mussels: number;
  lower: number | null;
  upper: number | null;
}

/** Free at either end, as a share of the width, for the ticks' numbers. */
const SIDE = 0.08;
const BAR_Y = 14;
const BEFORE_Y = 30;
const MOST_TICKS = 6;
/** Room beyond the limits, as a factor. */
const ROOM = 1.35;

export function IntervalBar({
  number,
  limits,
  before,
}: {
  number: LakeNumber;
  limits: { lower: number; upper: number };
  before: Before | null;
}) {
  const ends = [limits.lower, limits.upper, before?.lower, before?.upper, before?.mussels].filter(
    (x): x is number => x != null && x > 0,
  );
  const [least, greatest] = extent(ends);
  const [from, to] = [least / ROOM, greatest * ROOM];
  const share = (value: number): number =>
    SIDE + (Math.log(value / from) / Math.log(to / from)) * (1 - 2 * SIDE);
  // in per cent of the width, so that the type keeps its size on a phone
  const x = (value: number): string => `${(100 * share(value)).toFixed(2)}%`;
  const axisY = before === null ? 34 : 46;
  return (
    <svg
      className="interval-bar"
      width="100%"
      height={axisY + 22}
      role="img"
      aria-label={`About ${number.estimate} ${number.noun}, ${number.intervalName} ${number.interval}, on a log axis${
        before === null ? '' : `; before the last change ${formatDigits(before.mussels, 3)}`
      }`}
    >
      <rect
        x={x(limits.lower)}
        width={`${(100 * (share(limits.upper) - share(limits.lower))).toFixed(2)}%`}
        y={BAR_Y - 6}
        height="12"
        rx="4"
        className="interval-band"
      />
      <circle cx={x(number.value.estimate)} cy={BAR_Y} r="7" className="interval-dot" />
      {before !== null && (
        <g className="interval-before">
          {before.lower !== null && before.upper !== null && before.lower > 0 && (
            <line x1={x(before.lower)} x2={x(before.upper)} y1={BEFORE_Y} y2={BEFORE_Y} />
          )}
          <circle cx={x(before.mussels)} cy={BEFORE_Y} r="4" />
        </g>
      )}
      {logTicks(from, to, MOST_TICKS).map((value) => (
        <g key={value} className="interval-tick">
          <line x1={x(value)} x2={x(value)} y1={axisY - 6} y2={axisY - 2} />
          <text x={x(value)} y={axisY + 14} textAnchor="middle">
            {formatDigits(value, 2)}
          </text>
        </g>
      ))}
    </svg>
  );
}
