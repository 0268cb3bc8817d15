/**
 * Density against depth: depth runs down, density to the right on a log axis with the map's classes along it; a line a
 * substrate told apart by its style, its interval as a band, what nobody sampled hatched. A depth can be pointed at.
 */

import { areaX, line, type PlotOptions, ruleX } from '@observablehq/plot';
import { memo, useCallback, useId, useMemo } from 'react';
import { capital, label, term, terms } from '../../../shared/glossary.ts';
import { formatDepth, formatDepthBand } from '../../../shared/units.ts';
import { listed, visible } from '../../../shared/words.ts';
import {
  type CurvesOf,
  type DensityPicture,
  type DensityTable,
  densitiesAt,
  densitiesText,
  densityPicture,
  densityTable,
} from '../../present/density-curve.ts';
import { NONE } from '../../present/quantity.ts';
import type { Units } from '../contract.ts';
import { lineStyle } from '../look/substrate-style.ts';
import { DataTable, Figure, unitSystem } from '../shell/ui.tsx';
import { lengthTicks, powerLabel } from './axis-ticks.ts';
import { DensityOver, HEIGHT_PX, MARGIN, STRIP } from './DensityOver.tsx';
import { DepthControl } from './DepthControl.tsx';
import { PlotImage } from './PlotImage.tsx';

/** About so many depths of the curves stand in the table. */
const MOST_DEPTHS = 14;

export interface DensityByDepthProps {
  /** keep it the same record while nothing changed */
  result: CurvesOf;
  /** depth looked at, null = none */
  focusDepthM: number | null;
  onDepth(depthM: number | null): void;
  units: Units;
}

/** Says so in words when no substrate has a density above 0. */
export function DensityByDepth({ result, focusDepthM, onDepth, units }: DensityByDepthProps) {
  const id = useId();
  const system = unitSystem(units);
  const density = useMemo(() => densityPicture(result), [result]);
  const table = useMemo(() => densityTable(result, MOST_DEPTHS, system), [result, system]);
  const draw = useCallback(() => (density ? plotOf(density, units) : {}), [density, units]);
  if (density === null || table === null)
    return <p className="quiet">No density above 0 to draw.</p>;
  const at = (depthM: number) => densitiesAt(result, depthM);
  const { curves, fromM, toM } = density;
  const focused = focusDepthM === null ? [] : at(focusDepthM);
  const names = listed(
    curves.map((c) => visible(c.name)),
    'and',
  );
  return (
    <Figure
      title={`${capital(term('density'))} by ${term('depth')}, ${UNIT}`}
      alt={`Depth runs down, density to the right on a log scale; lines with bands of the confidence interval for ${names}, from ${formatDepthBand(fromM, toM, system)}. What was not sampled is hatched.`}
      interactive
      table={<CurveTable table={table} />}
    >
      <PlotImage
        draw={draw}
        name="Density by depth, one line for each substrate; the numbers are in the table below"
        over={(frame) => (
          <DensityOver
            id={id}
            frame={frame}
            density={density}
            focusDepthM={focused.length > 0 ? focusDepthM : null}
            focused={focused}
          />
        )}
        control={(frame) => (
          <DepthControl
            label="Depth looked at"
            depthM={focusDepthM}
            fromM={fromM}
            toM={toM}
            onDepth={onDepth}
            words={(depthM) =>
              `${formatDepth(depthM, system)}: ${visible(densitiesText(at(depthM)))}`
            }
            toDepth={(px) => frame.y.invert(px + MARGIN.top)}
            box={{
              left: MARGIN.left,
              top: MARGIN.top,
              width: frame.widthPx - MARGIN.left - MARGIN.right,
              height: HEIGHT_PX - MARGIN.top - MARGIN.bottom,
            }}
          />
        )}
      />
      <p className="plot-reading quiet">
        {focusDepthM !== null && focused.length > 0 ? (
          <>
            <b>At {formatDepth(focusDepthM, system)}</b> {visible(densitiesText(focused))} per m²
          </>
        ) : (
          <span className="no-print">
            Point at a depth, or move along it with the arrow keys, to read the densities there; the
            map shows the band.
          </span>
        )}
      </p>
    </Figure>
  );
}

const UNIT = 'mussels per m²';

function plotOf(density: DensityPicture, units: Units): PlotOptions {
  const { curves, classes, fromPower, toPower, bottomM } = density;
  const ticks = lengthTicks(bottomM, 8, units);
  const powers = Array.from({ length: toPower - fromPower + 1 }, (_, i) => fromPower + i);
  const densities = powers.map((p) => 10 ** p);
  const labelOf = new Map(ticks.map((t) => [t.m, t.label]));
  return {
    height: HEIGHT_PX,
    marginTop: MARGIN.top,
    marginRight: MARGIN.right,
    marginBottom: MARGIN.bottom,
    marginLeft: MARGIN.left,
    x: {
      type: 'log',
      domain: [10 ** fromPower, 10 ** toPower],
      ticks: densities,
      tickFormat: (d: number) => powerLabel(Math.round(Math.log10(d))),
      tickSize: 0,
      tickPadding: STRIP.gapPx + STRIP.heightPx + 6,
      label: null,
    },
    y: {
      domain: [0, bottomM],
      reverse: true,
      ticks: ticks.map((t) => t.m),
      tickFormat: (m: number) => labelOf.get(m) ?? '',
      tickSize: 0,
      label: null,
    },
    marks: [
      ruleX(densities, { stroke: 'var(--line)' }),
      ...curves.flatMap((c) => {
        const { dash, widthPx } = lineStyle(c.classes, classes);
        return [
          areaX(c.band, {
            y: 'depthM',
            x1: 'lower',
            x2: 'upper',
            fill: 'var(--accent)',
            fillOpacity: 0.12,
            clip: true,
          }),
          line(c.line, {
            y: 'depthM',
            x: 'musselsPerM2',
            stroke: 'var(--accent)',
            strokeWidth: widthPx,
            strokeDasharray: dash,
            clip: true,
          }),
        ];
      }),
    ],
  };
}

const CurveTable = memo(function CurveTable({ table }: { table: DensityTable }) {
  return (
    <DataTable
      caption={`${capital(UNIT)} by depth and substrate, with ${terms('confidenceInterval')}`}
      captionHidden
      columns={[
        { title: label('depth'), cell: (r: Row) => r.depth },
        ...table.names.map((name, i) => ({
          title: visible(name),
          align: 'right' as const,
          cell: (r: Row) => <Density reading={r.cells[i] ?? null} />,
        })),
      ]}
      rows={table.rows}
      keyOf={(r) => String(r.depthM)}
    />
  );
});

type Row = DensityTable['rows'][number];

/** As in other tables of the page: the estimate, its interval quieter behind it. */
function Density({ reading }: { reading: Row['cells'][number] }) {
  if (reading === null) return NONE;
  return (
    <>
      <b>{reading.estimate}</b>
      {reading.interval !== null && <span className="quiet"> ({reading.interval})</span>}
    </>
  );
}
