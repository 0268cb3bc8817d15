/** The corners of an area as degrees that can be typed; a corner more behind one, or one less. */

import { useState } from 'react';
import type { LngLat, LngLatPolygon } from '../../../../shared/survey.ts';
import {
  cornersOf,
  type PlacedCorner,
  withCorner,
  withCornerAfter,
  withoutCorner,
} from '../../map/areas/corners.ts';
import { TableScroll } from '../../shell/ui.tsx';
import { useApp } from '../../state/app-context.tsx';
import { type ChosenArea, setDesk, useDesk } from '../../state/area-desk.ts';
import type { PlacedArea } from '../../state/area-edits.ts';
import { keepShape } from '../../state/use-areas.ts';

/** A corner to some 0.1 m. */
const DECIMALS = 6;
/** More corners are better moved on the map. */
const MOST_ROWS = 100;
const CAPTION = 'area-corner-caption';

export function Corners({ chosen, area }: { chosen: ChosenArea; area: PlacedArea }) {
  const { state, actions, core } = useApp();
  const marked = useDesk((d) => d.corner);
  const corners = cornersOf(area.polygons);
  const keep = async (polygons: LngLatPolygon[] | null): Promise<void> => {
    if (polygons === null) {
      setDesk({ problem: 'three corners at least enclose an area' });
      return;
    }
    const made = await core.measureArea(polygons, null);
    if (made.ok) keepShape(state.work, actions, chosen, polygons, 'reshaped');
    setDesk({ problem: made.ok ? null : made.why });
  };
  return (
    <details>
      <summary>Corners</summary>
      <Problem />
      <TableScroll labelledBy={CAPTION}>
        <table className="data-table area-corners">
          <caption id={CAPTION} className="visually-hidden">
            Corners of {area.name}, WGS 84
          </caption>
          <thead>
            <tr>
              <th scope="col">Corner</th>
              <th scope="col">Latitude</th>
              <th scope="col">Longitude</th>
              <th scope="col">
                <span className="visually-hidden">One more, one less</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {corners.slice(0, MOST_ROWS).map((corner, i) => (
              <Row
                key={`${corner.path.join()} ${corner.at.join()}`}
                number={i + 1}
                corner={corner}
                isMarked={marked?.join() === corner.path.join()}
                onMove={(at) => void keep(withCorner(area.polygons, corner.path, at))}
                onAdd={() => void keep(withCornerAfter(area.polygons, corner.path, corner.middle))}
                onTake={() => void keep(withoutCorner(area.polygons, corner.path))}
              />
            ))}
          </tbody>
        </table>
      </TableScroll>
      {corners.length > MOST_ROWS && (
        <p className="small quiet">{corners.length - MOST_ROWS} more can be moved on the map.</p>
      )}
    </details>
  );
}

function Problem() {
  const problem = useDesk((d) => d.problem);
  return (
    problem && (
      <p role="alert" className="small area-problem">
        It cannot be kept so: {problem}.
      </p>
    )
  );
}

function Row({
  number,
  corner: { path, at },
  isMarked,
  onMove,
  onAdd,
  onTake,
}: {
  number: number;
  corner: PlacedCorner;
  isMarked: boolean;
  onMove(at: LngLat): void;
  onAdd(): void;
  onTake(): void;
}) {
  return (
    <tr className={isMarked ? 'chosen' : undefined} onFocus={() => setDesk({ corner: path })}>
      <th scope="row">{number}</th>
      <td>
        <Degrees
          label={`Latitude of corner ${number}`}
          value={at[1]}
          most={90}
          onChange={(lat) => onMove([at[0], lat])}
        />
      </td>
      <td>
        <Degrees
          label={`Longitude of corner ${number}`}
          value={at[0]}
          most={180}
          onChange={(lon) => onMove([lon, at[1]])}
        />
      </td>
      <td className="area-corner-buttons">
        <button
          type="button"
          className="button small"
          aria-label={`A corner behind corner ${number}`}
          title="A corner behind it"
          onClick={onAdd}
        >
          +
        </button>
        <button
          type="button"
          className="button small"
          aria-label={`Without corner ${number}`}
          title="Without it"
          onClick={onTake}
        >
          −
        </button>
      </td>
    </tr>
  );
}

/** Taken over with Enter, or when the field is left. */
function Degrees({
  label,
  value,
  most,
  onChange,
}: {
  label: string;
  value: number;
  most: number;
  onChange(value: number): void;
}) {
  const shown = value.toFixed(DECIMALS);
  const [typed, setTyped] = useState(shown);
  const now = Number(typed);
  const ok = /^-?\d+(\.\d*)?$/.test(typed.trim()) && Math.abs(now) <= most;
  const take = (): void => {
    if (ok && typed.trim() !== shown) onChange(now);
  };
  return (
    <input
      className="field"
      inputMode="decimal"
      aria-label={label}
      aria-invalid={!ok}
      value={typed}
      autoComplete="off"
      onChange={(e) => setTyped(e.target.value)}
      onBlur={take}
      onKeyDown={(e) => {
        if (e.key === 'Enter') take();
      }}
    />
  );
}
