/** The area in hand: its name, its numbers, and what can be done with its shape without a pointer. */

import { type KeyboardEvent, useId, useState } from 'react';
import type { AreaNumbers } from '../../../../shared/areas.ts';
import { KEEP_OUT_FILE } from '../../../../shared/survey-files.ts';
import { areaFacts, outsideLines } from '../../../present/area-facts.ts';
import { movedBy } from '../../map/areas/corners.ts';
import { stepped } from '../../map/features/geo.ts';
import { unitSystem } from '../../shell/ui.tsx';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';
import { type ChosenArea as Chosen, chooseArea, setDesk, useDesk } from '../../state/area-desk.ts';
import { type PlacedArea, removeArea, renameArea } from '../../state/area-edits.ts';
import { type Areas, keepShape, textOfFile, useChosenArea } from '../../state/use-areas.ts';
import { Corners } from './Corners.tsx';
import { Reshape } from './Reshape.tsx';

export function ChosenArea({ areas }: { areas: Areas }) {
  const own = useChosenArea(areas);
  const id = useId();
  if (own === null)
    return areas.candidates.length === 0 ? null : (
      <p className="small quiet no-print">
        Choose an area here or on the map to move it, reshape it, and see all its numbers.
      </p>
    );
  const { chosen, area } = own;
  const key = `${chosen.file} ${chosen.place}`;
  return (
    <section className="area-chosen" aria-labelledby={id}>
      <h2 id={id}>{area.name}</h2>
      {chosen.file !== KEEP_OUT_FILE && <Facts areas={areas} area={area} />}
      <div className="area-tools no-print">
        <Name key={`${key} ${area.name}`} chosen={chosen} area={area} />
        <Move chosen={chosen} area={area} />
        <Reshape key={key} areas={areas} chosen={chosen} area={area} />
        <Corners chosen={chosen} area={area} />
      </div>
    </section>
  );
}

function Facts({ areas, area }: { areas: Areas; area: PlacedArea }) {
  const units = unitSystem(useApp().state.units);
  const layerM = useDesk((d) => d.layerM);
  const numbers = useNumbers(areas, area);
  if (numbers === null) return null;
  const outside = outsideLines(numbers, units);
  return (
    <>
      <dl className="area-facts">
        {areaFacts(numbers, layerM, units).map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{keptTogether(value)}</dd>
          </div>
        ))}
      </dl>
      {outside.length > 0 && (
        <p className="small quiet">
          {keptTogether(`Of its water not in the number of mussels: ${outside.join('; ')}.`)}
        </p>
      )}
    </>
  );
}

function useNumbers(areas: Areas, { place }: PlacedArea): AreaNumbers | null {
  const held = useDesk((d) => d.held);
  const live = useDesk((d) => d.live);
  const moving = useDesk((d) => d.moving !== null);
  if (live?.ok && (moving || held?.of !== areas.candidates)) return live.numbers;
  if (!held?.made.ok) return null;
  return held.made.held.candidates[held.of.findIndex((a) => a.place === place)] ?? null;
}

function Name({ chosen, area }: { chosen: Chosen; area: PlacedArea }) {
  const { state, actions } = useApp();
  const id = useId();
  const [typed, setTyped] = useState(area.name);
  const name = typed.trim();
  const keep = (): void => {
    if (name === '' || name === area.name) return;
    actions.edit(renameArea(chosen.file, textOfFile(state.work, chosen.file), area, name));
  };
  return (
    <form
      className="area-line"
      onSubmit={(e) => {
        e.preventDefault();
        keep();
      }}
    >
      <label htmlFor={id}>Name</label>
      <input
        id={id}
        className="field"
        value={typed}
        maxLength={80}
        autoComplete="off"
        onChange={(e) => setTyped(e.target.value)}
        onBlur={keep}
      />
      <button
        type="button"
        className="button small"
        onClick={() => {
          chooseArea(null);
          actions.edit(removeArea(chosen.file, area));
        }}
      >
        Delete<span className="visually-hidden"> {area.name}</span>
      </button>
    </form>
  );
}

const STEP_M = 5;
const LONG_STEP_M = 50;
const BEARINGS: Record<string, number> = {
  ArrowUp: 0,
  ArrowRight: 90,
  ArrowDown: 180,
  ArrowLeft: 270,
};

/** Each press of an arrow key moves the area; it is kept when the key is let go of. */
function Move({ chosen, area }: { chosen: Chosen; area: PlacedArea }) {
  const { state, actions } = useApp();
  const moving = useDesk((d) => d.moving);
  const onKeyDown = (e: KeyboardEvent): void => {
    const bearing = BEARINGS[e.key];
    if (bearing === undefined) return;
    e.preventDefault();
    const from = moving ?? area.polygons;
    const start = from[0]?.[0]?.[0];
    if (start === undefined) return;
    const to = stepped(start, bearing, e.shiftKey ? LONG_STEP_M : STEP_M);
    setDesk({ moving: movedBy(from, [to[0] - start[0], to[1] - start[1]]), problem: null });
  };
  const keep = (): void => {
    if (moving === null) return;
    keepShape(state.work, actions, chosen, moving, 'moved');
    setDesk({ moving: null });
  };
  return (
    <p className="area-line">
      <button
        type="button"
        className="button small"
        aria-keyshortcuts="ArrowUp ArrowDown ArrowLeft ArrowRight"
        onKeyDown={onKeyDown}
        onKeyUp={keep}
        onBlur={keep}
      >
        Move with arrow keys
      </button>
      <span className="small quiet">
        {STEP_M} m a press, {LONG_STEP_M} m with Shift; or drag it on the map
      </span>
    </p>
  );
}
