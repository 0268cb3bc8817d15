/**
 * Density against depth, a panel a substrate: depth runs down, density to the right on a log axis with the map's classes
 * along it, what nobody sampled hatched. A curve runs over the depths at which its substrate is mapped. A depth can be
 * pointed at in any of the panels, and is read in all.
 */

import { memo, useMemo, useRef } from 'react';
import { capital, label, term, terms } from '../../../shared/glossary.ts';
import { formatDepth } from '../../../shared/units.ts';
import { visible } from '../../../shared/words.ts';
import { curvesDescribed } from '../../present/curves-described.ts';
import {
  type CurvesOf,
  type DensityTable,
  densitiesAt,
  densitiesText,
  densityPicture,
  densityTable,
} from '../../present/density-curve.ts';
import { NONE } from '../../present/quantity.ts';
import type { Units } from '../contract.ts';
import { DataTable, Figure, unitSystem } from '../shell/ui.tsx';
import { DensityPanels, DepthInPanels } from './DensityPanels.tsx';
import { DepthControl } from './DepthControl.tsx';
import { downPanel, panelGrid, SIDE_PX } from './panel-grid.ts';
import { useWidth } from './use-width.ts';
import './plots.css';

/** About so many depths of the curves stand in the table. */
const MOST_DEPTHS = 14;
const UNIT = 'mussels per m²';

export interface DensityByDepthProps {
  /** keep it the same record while nothing changed */
  result: CurvesOf;
  /** depth looked at, null = none */
  focusDepthM: number | null;
  onDepth(depthM: number | null): void;
  units: Units;
  /** what else is to be known of the curves */
  note?: string | null;
}

/** Says so in words when no substrate has a density above 0. */
export function DensityByDepth({
  result,
  focusDepthM,
  onDepth,
  units,
  note = null,
}: DensityByDepthProps) {
  const outer = useRef<HTMLDivElement>(null);
  const widthPx = useWidth(outer);
  const system = unitSystem(units);
  const density = useMemo(() => densityPicture(result), [result]);
  const table = useMemo(() => densityTable(result, MOST_DEPTHS, system), [result, system]);
  const grid = useMemo(
    () => panelGrid(density?.curves.map((c) => visible(c.name)) ?? [], widthPx),
    [density, widthPx],
  );
  const described = useMemo(() => curvesDescribed(result, system), [result, system]);
  if (density === null || table === null || described === null)
    return <p className="quiet">No density above 0 to draw.</p>;
  const at = (depthM: number) => densitiesAt(result, depthM);
  const { fromM, toM, bottomM } = density;
  const focused = focusDepthM === null ? [] : at(focusDepthM);
  const looked = focused.length > 0 ? focusDepthM : null;
  return (
    <Figure
      title={`${capital(term('density'))} by ${term('depth')}, ${UNIT}`}
      alt={null}
      interactive
      note={`Bands: ${terms('confidenceInterval')}; thin lines: the other substrates. A curve ends where its ${term('substrate')} does.${note === null ? '' : ` ${note}`}`}
      table={<CurveTable table={table} />}
    >
      <div ref={outer} className="plot">
        {widthPx > 0 && (
          <>
            <div role="img" aria-label={described}>
              <DensityPanels density={density} grid={grid} widthPx={widthPx} units={units} />
              <svg
                className="plot-over"
                width={widthPx}
                height={grid.heightPx}
                viewBox={`0 0 ${widthPx} ${grid.heightPx}`}
                aria-hidden="true"
                focusable="false"
              >
                {looked !== null && (
                  <DepthInPanels density={density} grid={grid} depthM={looked} readings={focused} />
                )}
              </svg>
            </div>
            <DepthControl
              label="Depth looked at"
              depthM={focusDepthM}
              fromM={fromM}
              toM={toM}
              onDepth={onDepth}
              words={(depthM) =>
                `${formatDepth(depthM, system)}: ${visible(densitiesText(at(depthM)))}`
              }
              toDepth={(px) => {
                const share = downPanel(grid, px);
                // between the panels there is no depth
                return share === null ? Number.NEGATIVE_INFINITY : share * bottomM;
              }}
              box={{
                left: SIDE_PX.left,
                top: 0,
                width: widthPx - SIDE_PX.left - SIDE_PX.right,
                height: grid.heightPx,
              }}
            />
          </>
        )}
      </div>
      <p className="plot-reading quiet">
        {looked !== null ? (
          <>
            <b>At {formatDepth(looked, system)}</b> {visible(densitiesText(focused))} per m²
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
