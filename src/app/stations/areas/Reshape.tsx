/** Shapes made from others: wider by so many metres, joined with another area, another one cut out of it. */

import { useId, useState } from 'react';
import { M_PER_FOOT } from '../../../../shared/units.ts';
import type { Reshape as Change } from '../../area-contract.ts';
import { useApp } from '../../state/app-context.tsx';
import { type ChosenArea, chooseArea, setDesk } from '../../state/area-desk.ts';
import { AREA_FILES, joinAreas, type PlacedArea } from '../../state/area-edits.ts';
import { type Areas, keepShape, listOf, textOfFile } from '../../state/use-areas.ts';

const USUAL_WIDTH = '10';

export function Reshape({
  areas,
  chosen,
  area,
}: {
  areas: Areas;
  chosen: ChosenArea;
  area: PlacedArea;
}) {
  const { state, actions, core } = useApp();
  const [problem, setProblem] = useState<string | null>(null);
  const others: Other[] = AREA_FILES.flatMap((file) =>
    listOf(areas, file)
      .filter((other) => file !== chosen.file || other.place !== area.place)
      .map((other) => ({ file, area: other })),
  );
  const own = others.filter(({ file }) => file === chosen.file);

  const reshape = async (
    change: Change,
    kept: (polygons: PlacedArea['polygons']) => void,
  ): Promise<void> => {
    try {
      const made = await core.reshape(change);
      setProblem(made.ok ? null : made.why);
      if (made.ok) kept(made.polygons);
    } catch (error) {
      setProblem((error as Error).message);
    }
    setDesk({ corner: null });
  };
  const keep = (how: string) => (polygons: PlacedArea['polygons']) =>
    keepShape(state.work, actions, chosen, polygons, how);

  return (
    <>
      <Width
        imperial={state.units === 'us'}
        onWidth={(widthM, words) =>
          void reshape({ by: 'width', area: area.polygons, widthM }, keep(words))
        }
      />
      {own.length > 0 && (
        <WithOther
          label="Join with"
          others={own}
          onOther={({ area: other }) =>
            void reshape({ by: 'join', area: area.polygons, other: other.polygons }, (polygons) => {
              const text = textOfFile(state.work, chosen.file);
              actions.edit(joinAreas(chosen.file, text, area, other, polygons));
              const place = other.place < area.place ? area.place - 1 : area.place;
              chooseArea({ file: chosen.file, place });
            })
          }
        />
      )}
      {others.length > 0 && (
        <WithOther
          label="Cut out of it"
          others={others}
          onOther={({ area: other }) =>
            void reshape(
              { by: 'cut', area: area.polygons, other: other.polygons },
              keep(`without ${other.name}`),
            )
          }
        />
      )}
      {problem !== null && (
        <p role="alert" className="small area-problem">
          The area stays as it was: {problem}.
        </p>
      )}
    </>
  );
}

interface Other {
  file: string;
  area: PlacedArea;
}

function Width({
  imperial,
  onWidth,
}: {
  imperial: boolean;
  onWidth(widthM: number, words: string): void;
}) {
  const id = useId();
  const [typed, setTyped] = useState(USUAL_WIDTH);
  const width = Number(typed.trim());
  const isNumber = typed.trim() !== '' && Number.isFinite(width) && width > 0;
  const unit = imperial ? 'ft' : 'm';
  const widen = (sign: 1 | -1): void =>
    onWidth(
      sign * width * (imperial ? M_PER_FOOT : 1),
      `${sign > 0 ? 'wider' : 'narrower'} by ${width} ${unit}`,
    );
  return (
    <p className="area-line">
      <label htmlFor={id}>All round by</label>
      <span>
        <input
          id={id}
          className="field"
          inputMode="decimal"
          value={typed}
          aria-invalid={!isNumber}
          autoComplete="off"
          onChange={(e) => setTyped(e.target.value)}
        />{' '}
        {unit}
      </span>
      <button type="button" className="button small" disabled={!isNumber} onClick={() => widen(1)}>
        Wider
      </button>
      <button type="button" className="button small" disabled={!isNumber} onClick={() => widen(-1)}>
        Narrower
      </button>
    </p>
  );
}

function WithOther({
  label,
  others,
  onOther,
}: {
  label: string;
  others: readonly Other[];
  onOther(other: Other): void;
}) {
  const id = useId();
  const [at, setAt] = useState(0);
  const other = others[Math.min(at, others.length - 1)];
  return (
    <p className="area-line">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        className="field"
        value={Math.min(at, others.length - 1)}
        onChange={(e) => setAt(Number(e.target.value))}
      >
        {others.map(({ file, area }, i) => (
          <option key={`${file} ${area.place}`} value={i}>
            {area.name}
          </option>
        ))}
      </select>
      <button
        type="button"
        className="button small"
        onClick={() => other !== undefined && onOther(other)}
      >
        Do it<span className="visually-hidden">: {label.toLowerCase()}</span>
      </button>
    </p>
  );
}
