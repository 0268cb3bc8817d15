/**
 * A plot drawn by Observable Plot into the page, measured to its column, with a second drawing of React's own on top for
 * what moves (focus, labels). Plot's labels on groups are taken off: a group without a role may not carry one; the
 * picture as a whole has a name and a table instead.
 */

import { type PlotOptions, plot } from '@observablehq/plot';
import { type ReactNode, useLayoutEffect, useRef, useState } from 'react';
import { useWidth } from './use-width.ts';
import './plots.css';

export interface PlotScale {
  apply(value: unknown): number;
  invert(px: number): number;
  bandwidth: number;
}

/** The drawn plot's size and scales, for what is laid over it. */
export interface PlotFrame {
  widthPx: number;
  heightPx: number;
  x: PlotScale;
  y: PlotScale;
}

/** Inside of a picture with controls of its own the plot carries its `name` itself. */
export function PlotImage({
  draw,
  name,
  over,
  control,
}: {
  /** keep it the same function while nothing changed */
  draw: (widthPx: number) => PlotOptions;
  name?: string;
  /** SVG on top, in the plot's pixels */
  over?: (frame: PlotFrame) => ReactNode;
  /** a control that covers the plot, for pointer and keyboard */
  control?: (frame: PlotFrame) => ReactNode;
}) {
  const outer = useRef<HTMLDivElement>(null);
  const holder = useRef<HTMLDivElement>(null);
  const widthPx = useWidth(outer);
  const [measured, setMeasured] = useState<{ of: typeof draw; frame: PlotFrame } | null>(null);
  // the scales of an earlier drawing do not fit what is drawn now
  const frame = measured?.of === draw ? measured.frame : null;

  useLayoutEffect(() => {
    if (widthPx === 0) return;
    const drawn = plot({ ...draw(widthPx), width: widthPx });
    withoutPlotLabels(drawn);
    holder.current?.replaceChildren(drawn);
    setMeasured({
      of: draw,
      frame: {
        widthPx,
        heightPx: Number(drawn.getAttribute('height')),
        x: scaleOf(drawn, 'x'),
        y: scaleOf(drawn, 'y'),
      },
    });
  }, [draw, widthPx]);

  return (
    <div ref={outer} className="plot">
      <div {...(name === undefined ? {} : { role: 'img', 'aria-label': name })}>
        <div ref={holder} className="plot-drawn" />
        {frame && over && (
          <svg
            className="plot-over"
            width={frame.widthPx}
            height={frame.heightPx}
            viewBox={`0 0 ${frame.widthPx} ${frame.heightPx}`}
            aria-hidden="true"
            focusable="false"
          >
            {over(frame)}
          </svg>
        )}
      </div>
      {frame && control?.(frame)}
    </div>
  );
}

/** Labels of groups, and the style sheet that a strict policy would refuse: plots.css says the same. */
function withoutPlotLabels(drawn: Element): void {
  for (const style of drawn.querySelectorAll('style')) style.remove();
  for (const labelled of drawn.querySelectorAll(
    '[aria-label], [aria-description], [aria-hidden]',
  )) {
    for (const name of ['aria-label', 'aria-description', 'aria-hidden'])
      labelled.removeAttribute(name);
  }
  drawn.setAttribute('aria-hidden', 'true');
  drawn.setAttribute('focusable', 'false');
}

function scaleOf(drawn: ReturnType<typeof plot>, name: 'x' | 'y'): PlotScale {
  const scale = drawn.scale(name);
  return {
    apply: (value) => Number(scale?.apply(value)),
    invert: (px) => Number(scale?.invert?.(px)),
    bandwidth: scale?.bandwidth ?? 0,
  };
}
