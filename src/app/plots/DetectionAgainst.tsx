/**
 * Detection against one covariate of the model, a panel an observer: the interval as a band, the others thin behind it,
 * values at a few points. Depth runs down, every other covariate to the right.
 */

import { useId, useRef } from 'react';
import { formatPercent } from '../../../shared/units.ts';
import { visible } from '../../../shared/words.ts';
import type {
  AgainstCurve,
  AgainstPicture,
  AgainstPoint,
} from '../../present/detection-against.ts';
import { observerShape, shapePath } from '../look/observer-shapes.ts';
import { DataTable, Figure } from '../shell/ui.tsx';
import { PanelTitle } from './PanelTitle.tsx';
import { PANEL_PX, type PanelBox, type PanelGrid, panelGrid, SIDE_PX } from './panel-grid.ts';
import { useWidth } from './use-width.ts';

const SHARES = [0, 0.5, 1];
const RADIUS_PX = 4;
const TICK_PX = 16;
/** A value stands above its point, below it where it would leave the panel. */
const VALUE_PX = { above: -9, below: 18, topOfPanel: 24 };

export function DetectionAgainst({ picture }: { picture: AgainstPicture }) {
  const outer = useRef<HTMLDivElement>(null);
  const widthPx = useWidth(outer);
  const { title, described, note, curves, table } = picture;
  const grid = panelGrid(
    curves.map((c) => visible(c.name)),
    widthPx,
  );
  return (
    <Figure
      title={title}
      alt={described}
      note={note}
      table={
        <DataTable
          caption={title}
          captionHidden
          columns={table.columns.map((column, i) => ({
            title: visible(column),
            ...(i === 0 ? {} : { align: 'right' as const }),
            cell: (row: string[]) => row[i] ?? '',
          }))}
          rows={table.rows}
          keyOf={(row) => row[0] ?? ''}
        />
      }
    >
      <div ref={outer} className="plot">
        {widthPx > 0 && <Panels picture={picture} grid={grid} widthPx={widthPx} />}
      </div>
    </Figure>
  );
}

type Place = (point: { value: number; p: number }) => [xPx: number, yPx: number];

/** Places of values and shares in a panel. */
function placeIn({ down, from, to, log }: AgainstPicture, box: PanelBox): Place {
  const along = log
    ? (value: number) => Math.log(value / from) / Math.log(to / from)
    : (value: number) => (value - from) / (to - from);
  const x = (share: number): number => box.left + share * (box.right - box.left);
  const y = (share: number): number => box.top + share * (box.bottom - box.top);
  return ({ value, p }) => (down ? [x(p), y(along(value))] : [x(along(value)), y(1 - p)]);
}

function Panels({
  picture,
  grid,
  widthPx,
}: {
  picture: AgainstPicture;
  grid: PanelGrid;
  widthPx: number;
}) {
  const id = useId();
  const { curves, axis, down } = picture;
  return (
    <svg
      width={widthPx}
      height={grid.heightPx + TICK_PX}
      viewBox={`0 0 ${widthPx} ${grid.heightPx + TICK_PX}`}
      className="panels"
      aria-hidden="true"
    >
      {grid.panels.map((box, i) => {
        const place = placeIn(picture, box);
        const own = curves[i];
        return (
          <g key={`${box.left} ${box.top}`}>
            <clipPath id={`${id}${i}`}>
              <rect
                x={box.left}
                y={box.top}
                width={box.right - box.left}
                height={PANEL_PX.height}
              />
            </clipPath>
            <Axes picture={picture} box={box} place={place} />
            {own && (
              <>
                <g clipPath={`url(#${id}${i})`}>
                  <polygon points={bandOf(own, place)} className="panel-band" />
                  {curves.map((c, k) =>
                    k === i ? null : (
                      <polyline key={c.name} points={lineOf(c, place)} className="panel-other" />
                    ),
                  )}
                  <polyline points={lineOf(own, place)} className="panel-own" />
                </g>
                <Values curve={own} place={place} box={box} />
              </>
            )}
            <PanelTitle box={box} />
          </g>
        );
      })}
      <text x={SIDE_PX.left} y={grid.heightPx + TICK_PX - 4} className="plot-quiet">
        {down ? `${axis}, downwards` : axis}
      </text>
    </svg>
  );
}

function Axes({ picture, box, place }: { picture: AgainstPicture; box: PanelBox; place: Place }) {
  const { down, from, ticks } = picture;
  const across = SHARES.map((p) => ({ at: place({ value: from, p }), text: formatPercent(p) }));
  const values = ticks.map((t) => ({ at: place({ value: t.value, p: 0 }), text: t.label }));
  const [below, beside] = down ? [across, values] : [values, across];
  return (
    <>
      {below.map(({ at: [x], text }) => (
        <g key={text}>
          <line x1={x} x2={x} y1={box.top} y2={box.bottom} className="plot-rule" />
          <text x={x} y={box.bottom + TICK_PX} textAnchor="middle" className="plot-quiet">
            {text}
          </text>
        </g>
      ))}
      {beside.map(({ at: [, y], text }) => (
        <g key={text}>
          <line x1={box.left} x2={box.right} y1={y} y2={y} className="plot-rule" />
          {box.first && (
            <text
              x={box.left - 6}
              y={y}
              textAnchor="end"
              dominantBaseline="central"
              className="plot-quiet"
            >
              {text}
            </text>
          )}
        </g>
      ))}
    </>
  );
}

function Values({ curve, place, box }: { curve: AgainstCurve; place: Place; box: PanelBox }) {
  return curve.marks.map((mark, i) => {
    const [x, y] = place(mark);
    const above = y - box.top > VALUE_PX.topOfPanel;
    return (
      <g key={mark.value} transform={`translate(${x},${y})`}>
        <path d={shapePath(observerShape(curve.place), RADIUS_PX)} className="plot-lit" />
        <text
          y={above ? VALUE_PX.above : VALUE_PX.below}
          textAnchor={anchorOf(x, box, i, curve.marks.length)}
          className="plot-name"
        >
          {mark.text}
        </text>
      </g>
    );
  });
}

/** Values at the ends of a panel stay inside of it. */
function anchorOf(x: number, box: PanelBox, i: number, count: number): 'start' | 'middle' | 'end' {
  const margin = 0.2 * (box.right - box.left);
  if (x < box.left + margin) return 'start';
  if (x > box.right - margin) return 'end';
  return count > 1 && i === 0 ? 'start' : 'middle';
}

function lineOf({ points }: AgainstCurve, place: Place): string {
  return path(points, place);
}

function bandOf({ points }: AgainstCurve, place: Place): string {
  const limits = (side: 'lower' | 'upper') => points.map((at) => ({ ...at, p: at[side] }));
  return path([...limits('lower'), ...limits('upper').toReversed()], place);
}

function path(points: readonly AgainstPoint[], place: Place): string {
  return points
    .map((at) =>
      place(at)
        .map((px) => px.toFixed(1))
        .join(','),
    )
    .join(' ');
}
