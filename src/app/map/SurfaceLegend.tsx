/** Which surface lies on the bed, its classes, and what can be set of it: the stretch of density, the threshold of the chance. */

import { type KeyboardEvent, useEffect, useId, useState } from 'react';
import { capital, gloss, label, labels, term } from '../../../shared/glossary.ts';
import { formatPercent, type UnitSystem } from '../../../shared/units.ts';
import { areaAboveWords, formatThreshold } from '../../present/area-above.ts';
import {
  CHANCE_RAMP,
  CLASS_BREAKS,
  CV_RAMP,
  classColour,
  classLabel,
  NO_VALUE,
  RAMP,
} from '../../present/ramp.ts';
import type { MapLook, ResultView, SurfaceName } from '../contract.ts';
import { Switch, unitSystem } from '../shell/ui.tsx';
import { useApp } from '../state/app-context.tsx';
import { readThreshold, steppedThreshold } from './threshold-steps.ts';
import { type Threshold, useAreaAbove } from './use-threshold.ts';

const NAMES: Record<SurfaceName, string> = {
  density: label('density'),
  chance: 'Chance',
  cv: term('cv'),
};

/** What stands at the legend's head, and what a print says is on the map. */
export function surfaceTitle(surface: SurfaceName, perM2: number): string {
  if (surface === 'density') return `${labels('mussel')} per m²`;
  if (surface === 'cv') return `${term('cv')} of the ${term('density')}`;
  return `Chance of more than ${formatThreshold(perM2)} per m²`;
}

export function SurfaceLegend({
  breaks,
  threshold,
}: {
  /** of what is painted */
  breaks: readonly number[];
  threshold: Threshold;
}) {
  const { state, actions } = useApp();
  const { mapLook, dark, result } = state;
  const { surface } = mapLook;
  const units = unitSystem(state.units);
  return (
    <>
      <div className="map-surfaces no-print">
        <Switch
          label="Surface on the map"
          value={surface}
          options={(Object.keys(NAMES) as SurfaceName[]).map((value) => ({
            value,
            text: NAMES[value],
          }))}
          onChange={(value) => actions.setMapLook({ surface: value })}
        />
      </div>
      <Ramp surface={surface} breaks={breaks} dark={dark} />
      {surface === 'density' && (
        <Stretch look={mapLook} breaks={breaks} onChange={actions.setMapLook} />
      )}
      {surface === 'chance' && result && (
        <Chance threshold={threshold} result={result} units={units} />
      )}
      {surface === 'cv' && <p className="quiet">{capital(gloss('cv') ?? '')}, cell by cell.</p>}
    </>
  );
}

function Ramp({
  surface,
  breaks,
  dark,
}: {
  surface: SurfaceName;
  breaks: readonly number[];
  dark: boolean;
}) {
  const theme = dark ? 'dark' : 'light';
  const ramp = { density: RAMP, chance: CHANCE_RAMP, cv: CV_RAMP }[surface][theme];
  const words = (edge: number) => (surface === 'chance' ? formatPercent(edge) : `${edge}`);
  const columns = { gridTemplateColumns: `repeat(${breaks.length}, 1fr)` };
  return (
    <div className="map-ramp">
      <div
        role="img"
        aria-label={`${ramp.length} classes, parted at ${breaks.map(words).join(', ')}`}
        style={{ gridTemplateColumns: `repeat(${ramp.length}, 1fr)` }}
      >
        {ramp.map((colour, k) => (
          <span
            key={colour}
            title={surface === 'chance' ? undefined : classLabel(k, breaks)}
            style={{ background: surface === 'density' ? classColour(k, dark) : colour }}
          />
        ))}
      </div>
      <div
        aria-hidden="true"
        className="map-ramp-edges"
        // each edge stands under the border of two classes
        style={{ ...columns, padding: `0 calc(100% / ${2 * ramp.length})` }}
      >
        {breaks.map((edge) => (
          <span key={edge}>{surface === 'chance' ? `${edge * 100}` : edge}</span>
        ))}
      </div>
      {surface === 'chance' && <p className="map-ramp-unit quiet">per cent</p>}
    </div>
  );
}

/** Off until it is asked for: one colour means one density over all lakes and years. */
function Stretch({
  look,
  breaks,
  onChange,
}: {
  look: MapLook;
  breaks: readonly number[];
  onChange(change: Partial<MapLook>): void;
}) {
  const spread = look.stretched && breaks !== CLASS_BREAKS;
  return (
    <div className="map-stretch">
      <label className="no-print">
        <input
          type="checkbox"
          checked={look.stretched}
          onChange={(e) => onChange({ stretched: e.currentTarget.checked })}
        />{' '}
        Stretch to this lake
      </label>
      <p className={spread ? 'map-stretched' : 'quiet'}>
        {spread
          ? 'Classes spread over this lake’s range: not the colours of other lakes, years or figures.'
          : 'The same classes for all lakes and years.'}
      </p>
    </div>
  );
}

function Chance({
  threshold: { perM2, inAnalysis, set },
  result,
  units,
}: {
  threshold: Threshold;
  result: ResultView;
  units: UnitSystem;
}) {
  const id = useId();
  const written = formatThreshold(perM2);
  const [typed, setTyped] = useState(written);
  const [wrong, setWrong] = useState(false);
  useEffect(() => {
    setTyped(written);
    setWrong(false);
  }, [written]);
  const area = useAreaAbove(perM2, true);
  const words = area && areaAboveWords(area, result, units);
  const take = (): void => {
    const read = readThreshold(typed);
    setWrong(read === null);
    if (read !== null && read !== perM2) set(read);
  };
  const onKey = (e: KeyboardEvent): void => {
    if (e.key === 'Enter') take();
    if (e.key !== 'ArrowUp' && e.key !== 'ArrowDown') return;
    e.preventDefault();
    set(steppedThreshold(perM2, e.key === 'ArrowUp' ? 1 : -1));
  };
  return (
    <div className="map-chance">
      <p className="no-print">
        <label htmlFor={id}>More than </label>
        <input
          id={id}
          inputMode="decimal"
          autoComplete="off"
          value={typed}
          aria-invalid={wrong}
          aria-describedby={`${id}n`}
          onChange={(e) => setTyped(e.currentTarget.value)}
          onBlur={take}
          onKeyDown={onKey}
        />{' '}
        {labels('mussel').toLowerCase()} per m²
      </p>
      <p id={`${id}n`} className="visually-hidden">
        Arrow up and down step through 1, 2, 5, 10 and so on. Nothing is estimated anew.
      </p>
      {wrong && <p role="alert">A number above 0 is expected.</p>}
      <p aria-live="polite">
        {words ? (
          <>
            On <b>{words.area}</b>
            {words.interval !== null && ` (${words.interval})`}
          </>
        ) : (
          '…'
        )}
      </p>
      {inAnalysis !== null && inAnalysis !== perM2 && (
        <p className="quiet">The report has {formatThreshold(inAnalysis)} per m².</p>
      )}
    </div>
  );
}

/** Inside the surveyed habitat, and no CV: nothing was detected on the class. */
export function noValueColour(dark: boolean): string {
  return NO_VALUE[dark ? 'dark' : 'light'];
}
