/** Abundance by stratum: by substrate, each opened into its depth bands; pointing at a row lights it on the map. */

import { useState } from 'react';
import { label, labels } from '../../../../shared/glossary.ts';
import { landAreaUnit, type UnitSystem } from '../../../../shared/units.ts';
import { HEADINGS } from '../../../present/headings.ts';
import type { Strata, StratumRow, SubstrateRow } from '../../../present/strata.ts';
import type { Focus } from '../../contract.ts';

export function StrataTable({
  strata,
  ciName,
  units,
  focus,
  onFocus,
}: {
  strata: Strata;
  /** `95 % CI` */
  ciName: string;
  units: UnitSystem;
  focus: Focus;
  onFocus(change: Partial<Focus>): void;
}) {
  const [opened, setOpened] = useState<ReadonlySet<string>>(new Set());
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
        <caption>{HEADINGS.strata}</caption>
        <thead>
          <tr>
            <th scope="col">{label('substrate')}</th>
            <th scope="col" className="right">
              {landAreaUnit(units)}
            </th>
            <th scope="col" className="right">
              per m²
            </th>
            <th scope="col" className="right">
              {labels('mussel')}
            </th>
            <th scope="col" className="right">
              {ciName}
            </th>
          </tr>
        </thead>
        {strata.substrates.map((row) => (
          <tbody key={row.substrate}>
            <SubstrateLine
              row={row}
              open={opened.has(row.substrate)}
              chosen={focus.substrate === row.substrate}
              onToggle={() => toggle(row.substrate)}
              onPoint={() => onFocus({ substrate: row.substrate, depthM: null })}
            />
            {opened.has(row.substrate) &&
              row.strata.map((s) => (
                <StratumLine
                  key={s.fromM}
                  stratum={s}
                  onPoint={() =>
                    onFocus({ substrate: row.substrate, depthM: (s.fromM + s.toM) / 2 })
                  }
                />
              ))}
          </tbody>
        ))}
        {strata.whole !== null && (
          <tbody>
            <tr className="strata-all">
              <th scope="row">All</th>
              <td className="right">{strata.whole.area}</td>
              <td className="right" />
              <Numbers of={strata.whole.mussels} />
            </tr>
          </tbody>
        )}
      </table>
    </div>
  );
}

function SubstrateLine({
  row,
  open,
  chosen,
  onToggle,
  onPoint,
}: {
  row: SubstrateRow;
  open: boolean;
  chosen: boolean;
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
          {row.words}
        </button>
      </th>
      <td className="right">{row.area}</td>
      <td className="right">{row.density}</td>
      <td className="right">{row.mussels}</td>
      <td className="right quiet">{open ? '' : 'by depth'}</td>
    </tr>
  );
}

function StratumLine({ stratum, onPoint }: { stratum: StratumRow; onPoint(): void }) {
  return (
    <tr className="strata-band" onPointerEnter={onPoint}>
      <th scope="row">{stratum.band}</th>
      <td className="right">{stratum.area}</td>
      <td className="right">{stratum.density[0]}</td>
      <Numbers of={stratum.mussels} />
    </tr>
  );
}

function Numbers({ of: [estimate, interval] }: { of: [string, string] }) {
  return (
    <>
      <td className="right">{estimate}</td>
      <td className="right">{interval}</td>
    </>
  );
}
