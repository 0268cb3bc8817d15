/** A transect that is pointed at or moved along by the keyboard; it lies over a plot of many transects. */

import { type KeyboardEvent, type PointerEvent, useRef } from 'react';
import { term } from '../../../shared/glossary.ts';
import { transectAfterKey } from './keys.ts';

export function TransectControl({
  label,
  transects,
  chosen,
  onChoose,
  words,
  nearest,
  box,
}: {
  label: string;
  /** names of the transects, in the order in which the arrow keys go through them */
  transects: readonly string[];
  chosen: string | null;
  onChoose(transect: string | null): void;
  /** what is to be read of a transect */
  words(transect: string): string;
  /** the transect at a place of the plot (pixels from its upper left corner); null = none near */
  nearest(xPx: number, yPx: number): string | null;
  box: { left: number; top: number; width: number; height: number };
}) {
  /** what was chosen before the pointer came; it comes back when the pointer leaves without a press */
  const earlier = useRef<string | null>(null);
  const at = chosen === null ? -1 : transects.indexOf(chosen);
  const pointed = (event: PointerEvent<HTMLElement>) => {
    const corner = event.currentTarget.getBoundingClientRect();
    return nearest(event.clientX - corner.left + box.left, event.clientY - corner.top + box.top);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const next = transectAfterKey(event.key, at, transects.length);
    if (next === undefined) return;
    event.preventDefault();
    earlier.current = next === null ? null : transects[next];
    onChoose(earlier.current);
  };
  return (
    <div
      className="plot-control"
      style={box}
      role="slider"
      tabIndex={0}
      aria-label={label}
      aria-valuemin={1}
      aria-valuemax={Math.max(1, transects.length)}
      aria-valuenow={Math.max(1, at + 1)}
      aria-valuetext={chosen === null || at < 0 ? `no ${term('transect')} chosen` : words(chosen)}
      onPointerEnter={() => {
        earlier.current = chosen;
      }}
      onPointerMove={(event) => {
        const transect = pointed(event) ?? earlier.current;
        if (transect !== chosen) onChoose(transect);
      }}
      onPointerDown={(event) => {
        const transect = pointed(event);
        earlier.current = transect === earlier.current ? null : transect;
        onChoose(earlier.current);
      }}
      onPointerLeave={() => {
        if (chosen !== earlier.current) onChoose(earlier.current);
      }}
      onKeyDown={onKeyDown}
    />
  );
}
