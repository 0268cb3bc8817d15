/** Where they are: by substrate, each opened into its metre bands; pointing at a row lights it on the map. */

import { useState } from 'react';
import type { Estimate, Stratum } from '../../../../shared/estimate.ts';
import {
  formatDepthBand,
  formatDigits,
  formatLandArea,
  type UnitSystem,
} from '../../../../shared/units.ts';
import type { Focus } from '../../contract.ts';
import { quantityWords } from '../../shell/quantity.ts';
import { type BedRow, bedRows, bedWords } from './lake-facts.ts';

export function StrataTable({
  estimate,
  units,
  focus,
  onFocus,
}: {
  estimate: Estimate;
  units: UnitSystem;
  focus: Focus;
  onFocus(change: Partial<Focus>): void;
}) {
  const [opened, setOpened] = useState<ReadonlySet<string>>(new Set());
  const rows = bedRows(estimate.strata ?? []);
  const whole = estimate.abundance;
  const nothing = (): void => onFocus({ substrate: null, depthM: null });
  const toggle = (substrate: string): void => {
    const next = new Set(opened);
    if (!next.delete(substrate)) next.add(substrate);
    setOpened(next);
  };
  return (
    <div className="table-scroll">
      <table
        className="data-table strata"
        onPointerLeave={nothing}
        onBlur={(e) => {
          if (!e.currentTarget.contains(e.relatedTarget)) nothing();
        }}
      >
        <caption>Where they are</caption>
        <thead>
          <tr>
            <th scope="col">Bed</th>
            <th scope="col" className="right">
              {units === 'metric' ? 'Hectares' : 'Acres'}
            </th>
            <th scope="col" className="right">
              per m²
            </th>
            <th scope="col" className="right">
              Mussels
            </th>
            <th scope="col" className="right">
              Interval
            </th>
          </tr>
        </thead>
        {rows.map((row) => (
          <tbody key={row.substrate}>
            <BedLine
              row={row}
              open={opened.has(row.substrate)}
              chosen={focus.substrate === row.substrate}
              units={units}
              onToggle={() => toggle(row.substrate)}
              onPoint={() => onFocus({ substrate: row.substrate, depthM: null })}
            />
            {opened.has(row.substrate) &&
              row.strata.map((s) => (
                <BandLine
                  key={s.depth_from_m}
                  stratum={s}
                  units={units}
                  onPoint={() =>
                    onFocus({
                      substrate: s.substrate,
                      depthM: (s.depth_from_m + s.depth_to_m) / 2,
                    })
                  }
                />
              ))}
          </tbody>
        ))}
        {whole !== null && (
          <tbody>
            <tr className="strata-all">
              <th scope="row">All</th>
              <td className="right">{area(whole.area_m2, units)}</td>
              <td className="right" />
              <Quantities q={whole.mussels} />
            </tr>
          </tbody>
        )}
      </table>
    </div>
  );
}

function BedLine({
  row,
  open,
  chosen,
  units,
  onToggle,
  onPoint,
}: {
  row: BedRow;
  open: boolean;
  chosen: boolean;
  units: UnitSystem;
  onToggle(): void;
  onPoint(): void;
}) {
  return (
    <tr
      className={chosen ? 'pressable chosen' : 'pressable'}
      onPointerEnter={onPoint}
      onClick={onToggle}
    >
      <th scope="row">
        <button
          type="button"
          className="row-button strata-bed"
          aria-expanded={open}
          onFocus={onPoint}
        >
          {bedWords(row.substrate)}
        </button>
      </th>
      <td className="right">{area(row.areaM2, units)}</td>
      <td className="right">{row.perM2 === null ? '–' : formatDigits(row.perM2, 2)}</td>
      <td className="right">{row.mussels === null ? '–' : formatDigits(row.mussels, 3)}</td>
      <td className="right quiet">{open ? '' : 'by metre'}</td>
    </tr>
  );
}

function BandLine({
  stratum,
  units,
  onPoint,
}: {
  stratum: Stratum;
  units: UnitSystem;
  onPoint(): void;
}) {
  const density = stratum.mussels_per_m2;
  return (
    <tr className="strata-band" onPointerEnter={onPoint}>
      <th scope="row">{formatDepthBand(stratum.depth_from_m, stratum.depth_to_m, units)}</th>
      <td className="right">{area(stratum.area_m2, units)}</td>
      <td className="right">{density === null ? '–' : quantityWords(density).estimate}</td>
      <Quantities q={stratum.mussels} />
    </tr>
  );
}

function Quantities({ q }: { q: Stratum['mussels'] }) {
  if (q === null)
    return (
      <>
        <td className="right">–</td>
        <td className="right">–</td>
      </>
    );
  const { estimate, range } = quantityWords(q);
  return (
    <>
      <td className="right">{estimate}</td>
      <td className="right">{range ?? '–'}</td>
    </>
  );
}

/** Without the unit, which stands at the column's head. */
function area(areaM2: number, units: UnitSystem): string {
  return formatLandArea(areaM2, units).replace(/ .*$/, '');
}
