/** Abundance by depth band, and by substrate, each opened into its depth bands; pointing at a row lights it on the map. */

import { useId, useState } from 'react';
import { label, labels } from '../../../../shared/glossary.ts';
import { landAreaUnit, type UnitSystem } from '../../../../shared/units.ts';
import type { Strata, StrataNumbers, StratumRow, SubstrateRow } from '../../../present/strata.ts';
import type { Focus } from '../../contract.ts';
import { TableScroll } from '../../shell/ui.tsx';

interface StrataProps {
  strata: Strata;
  /** `95 % CI` */
  ciName: string;
  units: UnitSystem;
  focus: Focus;
  onFocus(change: Partial<Focus>): void;
}

export function StrataTables(props: StrataProps) {
  const { strata, onFocus } = props;
  const nothing = (): void => onFocus({ substrate: null, depthM: null });
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: leaving a table takes its light off the map
    <div
      className="strata-both"
      onPointerLeave={nothing}
      onBlur={(e) => {
        if (!e.currentTarget.contains(e.relatedTarget)) nothing();
      }}
    >
      <DepthTable {...props} />
      <SubstrateTable {...props} />
      {strata.basis !== null && <p className="small quiet">{strata.basis}</p>}
    </div>
  );
}

function DepthTable({ strata, ciName, units, onFocus }: StrataProps) {
  const id = useId();
  return (
    <TableScroll labelledBy={id}>
      <table className="data-table strata">
        <caption id={id}>{strata.captions.depths}</caption>
        <Head first={label('depth')} ciName={ciName} units={units} />
        <tbody>
          {strata.depths.map((row) => (
            <tr
              key={row.fromM}
              onPointerEnter={() => onFocus({ substrate: null, depthM: (row.fromM + row.toM) / 2 })}
            >
              <th scope="row">{row.band}</th>
              <Numbers of={row} />
            </tr>
          ))}
          <Whole of={strata.whole} />
        </tbody>
      </table>
    </TableScroll>
  );
}

function SubstrateTable({ strata, ciName, units, focus, onFocus }: StrataProps) {
  const id = useId();
  const [opened, setOpened] = useState<ReadonlySet<string>>(new Set());
  const toggle = (substrate: string): void => {
    const next = new Set(opened);
    if (!next.delete(substrate)) next.add(substrate);
    setOpened(next);
  };
  return (
    <TableScroll labelledBy={id}>
      <table className="data-table strata">
        <caption id={id}>{strata.captions.substrates}; a row opens into its depth bands</caption>
        <Head first={label('substrate')} ciName={ciName} units={units} />
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
        <tbody>
          <Whole of={strata.whole} />
        </tbody>
      </table>
    </TableScroll>
  );
}

function Head({ first, ciName, units }: { first: string; ciName: string; units: UnitSystem }) {
  return (
    <thead>
      <tr>
        <th scope="col">{first}</th>
        {[landAreaUnit(units), 'per m²', labels('mussel'), ciName].map((title) => (
          <th key={title} scope="col" className="right">
            {title}
          </th>
        ))}
      </tr>
    </thead>
  );
}

function Whole({ of: whole }: { of: StrataNumbers | null }) {
  if (whole === null) return null;
  return (
    <tr className="strata-all">
      <th scope="row">All</th>
      <Numbers of={whole} />
    </tr>
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
      <Numbers of={row} />
    </tr>
  );
}

function StratumLine({ stratum, onPoint }: { stratum: StratumRow; onPoint(): void }) {
  return (
    <tr className="strata-band" onPointerEnter={onPoint}>
      <th scope="row">{stratum.band}</th>
      <Numbers of={stratum} />
    </tr>
  );
}

/** Area, mean density, number and the number's interval. */
function Numbers({ of: { area, density, mussels } }: { of: StrataNumbers }) {
  return [area, density[0], ...mussels].map((text, i) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: four columns that do not move
    <td key={i} className="right">
      {text}
    </td>
  ));
}
