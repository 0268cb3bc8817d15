/** Share of the clusters in the strip that each diver sees, with its interval, and each pair together; a shape a diver. */

import { axisX, axisY, type PlotOptions, ruleX, ruleY } from '@observablehq/plot';
import { useCallback, useMemo } from 'react';
import type { Estimate } from '../../../shared/estimate.ts';
import { formatPercent } from '../../../shared/units.ts';
import { DataTable, Figure } from '../shell/ui.tsx';
import { type DetectionRow, detectionRows } from './detection-rows.ts';
import { type DiverShape, shapePath } from './diver-shapes.ts';
import { PlotImage } from './PlotImage.tsx';
import { labelMarginPx, rowLabel } from './row-labels.ts';

const ROW_PX = 24;
const RADIUS_PX = 5;
/** With more rows than this the pairs are left to the table. */
const MOST_ROWS = 16;
const SHARES = [0, 0.25, 0.5, 0.75, 1];

export function DetectionByDiver({
  detection,
  shapes,
  interval,
}: {
  detection: NonNullable<Estimate['detection']>;
  shapes: ReadonlyMap<string, DiverShape>;
  interval: number;
}) {
  const groups = useMemo(() => detectionRows(detection), [detection]);
  const all = groups.flatMap((g) => [...g.divers, ...g.pairs]);
  if (all.length === 0) return null;
  return (
    <Figure
      title="What each diver sees"
      alt={`Share of the clusters in the strip that each diver sees, with ${formatPercent(interval)} intervals: ${groups
        .flatMap((g) => g.divers.map((d) => `${d.label} on ${d.design} transects ${share(d.p)}`))
        .join(', ')}.`}
      note={`Lines are ${formatPercent(interval)} intervals. A pair is what the two find together. ${
        groups.some((g) => g.design === 'distance')
          ? 'On distance transects it is the share seen right at the rope.'
          : ''
      }`}
      table={
        <DataTable
          caption="Share of the clusters in the strip that divers see"
          captionHidden
          columns={[
            { title: 'Who', cell: (d: DetectionRow) => d.label },
            { title: 'Transects', cell: (d) => d.design },
            { title: 'Sees', align: 'right', cell: (d) => share(d.p) },
            {
              title: 'Interval',
              align: 'right',
              cell: (d) =>
                d.lower === null || d.upper === null
                  ? '–'
                  : `${share(d.lower)} to ${share(d.upper)}`,
            },
            {
              title: 'Standard error',
              align: 'right',
              cell: (d) => (d.se === null ? '–' : d.se.toFixed(3)),
            },
          ]}
          rows={all}
          keyOf={(d) => d.key}
        />
      }
    >
      {groups.map((g) => (
        <Group
          key={g.design}
          title={groups.length > 1 ? `${capital(g.design)} transects` : null}
          rows={g.divers.length + g.pairs.length > MOST_ROWS ? g.divers : [...g.divers, ...g.pairs]}
          shapes={shapes}
          marginLeft={labelMarginPx(all.map((d) => d.label))}
        />
      ))}
    </Figure>
  );
}

function Group({
  title,
  rows,
  shapes,
  marginLeft,
}: {
  title: string | null;
  rows: DetectionRow[];
  shapes: ReadonlyMap<string, DiverShape>;
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
              {d.divers.length === 1 ? (
                <path
                  d={shapePath(shapes.get(d.divers[0]!) ?? 'circle', RADIUS_PX)}
                  className="plot-lit"
                />
              ) : (
                <Pair d={d} shapes={shapes} />
              )}
            </g>
          ))
        }
      />
    </div>
  );
}

/** Both divers' shapes, open, over each other's edge. */
function Pair({ d, shapes }: { d: DetectionRow; shapes: ReadonlyMap<string, DiverShape> }) {
  return d.divers.map((name, i) => (
    <path
      key={name}
      transform={`translate(${(i - 0.5) * RADIUS_PX * 1.2},0)`}
      d={shapePath(shapes.get(name) ?? 'circle', RADIUS_PX * 0.8)}
      className="plot-open"
    />
  ));
}

function plotOf(rows: DetectionRow[], marginLeft: number): PlotOptions {
  const labels = new Map(rows.map((d) => [d.key, rowLabel(d.label)]));
  return {
    height: rows.length * ROW_PX + 26,
    marginTop: 2,
    marginBottom: 24,
    marginRight: 18,
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

/** Whole percent, but 99.9 is not 100. */
function share(p: number): string {
  if (p < 1 && p > 0.99) return 'over 99 %';
  return formatPercent(Number(p.toFixed(2)));
}

function capital(word: string): string {
  return word.slice(0, 1).toUpperCase() + word.slice(1);
}
