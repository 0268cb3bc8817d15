/** Detection probability of each observer, with its interval, and of each pair together; a shape an observer. */

import { axisX, axisY, type PlotOptions, ruleX, ruleY } from '@observablehq/plot';
import { useCallback } from 'react';
import { formatPercent } from '../../../shared/units.ts';
import type { DetectionReading, DetectionRow } from '../../present/detection.ts';
import { NONE } from '../../present/quantity.ts';
import { observerShape, shapePath } from '../look/observer-shapes.ts';
import { DataTable, Figure } from '../shell/ui.tsx';
import { PlotImage } from './PlotImage.tsx';
import { labelMarginPx, rowLabel } from './row-labels.ts';

const ROW_PX = 24;
const RADIUS_PX = 5;
/** From the end of an interval to the value, and room for the value: `over 99 %`. */
const VALUE_GAP_PX = 10;
const VALUE_PX = 72;
/** With more rows than this the pairs are left to the table. */
const MOST_ROWS = 16;
const SHARES = [0, 0.25, 0.5, 0.75, 1];

export function DetectionByObserver({ reading }: { reading: DetectionReading }) {
  const groups = reading.groups.filter((g) => g.estimated);
  if (groups.length === 0) return null;
  const marginLeft = labelMarginPx(
    groups.flatMap((g) => [...g.observers, ...g.pairs].map((row) => row.label)),
  );
  return (
    <Figure
      title={reading.title}
      alt={reading.described}
      note={`${reading.note} ${reading.pairNote}`}
      table={<ProbabilityTable reading={reading} />}
    >
      {groups.map(({ design, heading, observers, pairs }) => (
        <Group
          key={design}
          title={reading.groups.length > 1 ? heading : null}
          rows={observers.length + pairs.length > MOST_ROWS ? observers : [...observers, ...pairs]}
          marginLeft={marginLeft}
        />
      ))}
    </Figure>
  );
}

function ProbabilityTable({ reading }: { reading: DetectionReading }) {
  const { columns, captions, groups } = reading;
  return (
    <DataTable
      caption={captions.observers}
      captionHidden
      columns={[
        { title: columns.observer, cell: (d: DetectionRow) => d.label },
        { title: columns.design, cell: (d) => d.design },
        { title: columns.p, align: 'right', cell: (d) => d.share },
        { title: columns.interval, align: 'right', cell: (d) => d.interval ?? NONE },
        { title: columns.se, align: 'right', cell: (d) => d.se ?? NONE },
      ]}
      rows={groups.flatMap((g) => [...g.observers, ...g.pairs])}
      keyOf={(d) => d.key}
    />
  );
}

function Group({
  title,
  rows,
  marginLeft,
}: {
  title: string | null;
  rows: DetectionRow[];
  marginLeft: number;
}) {
  const draw = useCallback(() => plotOf(rows, marginLeft), [rows, marginLeft]);
  return (
    <div>
      {title !== null && <div className="small quiet">{title}</div>}
      <PlotImage
        draw={draw}
        over={({ x, y }) =>
          rows.map((d) => (
            <g
              key={d.key}
              transform={`translate(${x.apply(d.p)},${y.apply(d.key) + y.bandwidth / 2})`}
            >
              <Marks of={d} />
              <text
                x={x.apply(d.upper ?? d.p) - x.apply(d.p) + VALUE_GAP_PX}
                dominantBaseline="central"
                className="plot-name"
              >
                {d.share}
              </text>
            </g>
          ))
        }
      />
    </div>
  );
}

/** One observer's shape; of a pair both shapes, open, over each other's edge. */
function Marks({ of: { observers } }: { of: DetectionRow }) {
  const single = observers.length === 1;
  return observers.map(({ name, place }, i) => (
    <path
      key={name}
      transform={single ? undefined : `translate(${(i - 0.5) * RADIUS_PX * 1.2},0)`}
      d={shapePath(observerShape(place), single ? RADIUS_PX : RADIUS_PX * 0.8)}
      className={single ? 'plot-lit' : 'plot-open'}
    />
  ));
}

function plotOf(rows: DetectionRow[], marginLeft: number): PlotOptions {
  const labels = new Map(rows.map((d) => [d.key, rowLabel(d.label)]));
  return {
    height: rows.length * ROW_PX + 26,
    marginTop: 2,
    marginBottom: 24,
    marginRight: VALUE_PX,
    marginLeft,
    x: { domain: [0, 1], label: null },
    y: { type: 'band', domain: rows.map((d) => d.key), label: null },
    marks: [
      ruleX(SHARES, { stroke: 'var(--line)' }),
      axisX(SHARES, { tickFormat: (s: number) => formatPercent(s), tickSize: 0, label: null }),
      axisY({
        tickFormat: (key: string) => labels.get(key) ?? '',
        tickSize: 0,
        fill: 'var(--ink)',
        label: null,
      }),
      ruleY(
        rows.filter((d) => d.lower !== null && d.upper !== null),
        { y: 'key', x1: 'lower', x2: 'upper', stroke: 'var(--accent)', strokeWidth: 2 },
      ),
    ],
  };
}
