/** A depth that is pointed at or moved along by the keyboard; it lies over a plot whose depth runs down. */

import { type KeyboardEvent, type PointerEvent, useRef } from 'react';
import { afterKey, STEP_M } from './keys.ts';

export function DepthControl({
  label,
  depthM,
  fromM,
  toM,
  onDepth,
  words,
  toDepth,
  box,
}: {
  label: string;
  depthM: number | null;
  fromM: number;
  toM: number;
  onDepth(depthM: number | null): void;
  /** what is to be read at a depth */
  words(depthM: number): string;
  /** depth at so many pixels below the control's upper edge */
  toDepth(px: number): number;
  box: { left: number; top: number; width: number; height: number };
}) {
  /** held by a press or the keyboard: a pointer that only passes by does not move it or take it away */
  const held = useRef(false);
  const snapped = (m: number) =>
    Number(Math.min(toM, Math.max(fromM, Math.round(m / STEP_M) * STEP_M)).toFixed(2));
  const pointAt = (event: PointerEvent<HTMLElement>) => {
    const m = toDepth(event.clientY - event.currentTarget.getBoundingClientRect().top);
    if (m < fromM - STEP_M || m > toM + STEP_M) return;
    if (snapped(m) !== depthM) onDepth(snapped(m));
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const next = afterKey(event.key, depthM ?? fromM, fromM, toM);
    if (next === undefined) return;
    event.preventDefault();
    held.current = next !== null;
    onDepth(next === null ? null : snapped(next));
  };
  const now = depthM ?? fromM;
  return (
    <div
      className="plot-control"
      style={box}
      role="slider"
      tabIndex={0}
      aria-orientation="vertical"
      aria-label={label}
      aria-valuemin={fromM}
      aria-valuemax={toM}
      aria-valuenow={Math.min(toM, Math.max(fromM, now))}
      aria-valuetext={depthM === null ? 'no depth chosen' : words(now)}
      onPointerMove={(event) => {
        if (!held.current || event.buttons > 0) pointAt(event);
      }}
      onPointerDown={(event) => {
        held.current = !held.current;
        pointAt(event);
      }}
      onPointerLeave={() => {
        if (!held.current && depthM !== null) onDepth(null);
      }}
      onKeyDown={onKeyDown}
    />
  );
}
