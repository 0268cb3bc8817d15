/** The slate on the map: what the area in hand holds, as it is drawn or moved. */

import type { AreaNumbers } from '../../../../shared/areas.ts';
import { KEEP_OUT_FILE } from '../../../../shared/survey-files.ts';
import { areaInShort } from '../../../present/area-facts.ts';
import { unitSystem } from '../../shell/ui.tsx';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';
import { type Desk, useDesk } from '../../state/area-desk.ts';
import { type Areas, useChosenArea } from '../../state/use-areas.ts';
import { isArea } from './corners.ts';
import type { AreaHand } from './hand.ts';

const HOW =
  'Press at each corner, on the first one again to close. Backspace takes a corner back, Escape drops it.';

export function Slate({ areas, hand }: { areas: Areas; hand: AreaHand }) {
  const drawing = useDesk((d) => d.drawing);
  const problem = useDesk((d) => d.problem);
  const chosen = useChosenArea(areas);
  if (drawing === null && chosen === null) return null;
  const keptOut = (drawing?.file ?? chosen?.chosen.file) === KEEP_OUT_FILE;
  return (
    <div className="area-slate no-print">
      <p className="area-slate-title">
        {drawing === null ? chosen?.area.name : keptOut ? 'New place to keep out of' : 'New area'}
      </p>
      <Numbers areas={areas} />
      {problem !== null && (
        <p role="alert" className="area-slate-problem">
          It cannot be kept so: {problem}.
        </p>
      )}
      {drawing !== null && (
        <>
          {drawing.corners.length < 2 && <p className="quiet">{HOW}</p>}
          <p className="area-slate-buttons">
            <button
              type="button"
              className="button small"
              disabled={!isArea(drawing.corners)}
              onClick={hand.finish}
            >
              Close the line
            </button>
            <button type="button" className="button small" onClick={hand.drop}>
              Drop it
            </button>
          </p>
        </>
      )}
    </div>
  );
}

function Numbers({ areas }: { areas: Areas }) {
  const units = unitSystem(useApp().state.units);
  const numbers = useNumbersInHand(areas);
  if (numbers === null) return null;
  return areaInShort(numbers, units).map((line, i) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: lines do not move
    <p key={i} className={i === 1 ? 'area-slate-number' : ''}>
      {keptTogether(line)}
    </p>
  ));
}

/** Of what is drawn or moved, else of the chosen area as it was measured last; null where there are none. */
function useNumbersInHand(areas: Areas): AreaNumbers | null {
  const live = useDesk((d) => d.live);
  const inHand = useDesk((d) => d.moving !== null || d.drawing !== null);
  const held = useDesk((d) => d.held);
  const chosen = useChosenArea(areas);
  if (live?.ok && (inHand || held?.of !== areas.candidates)) return live.numbers;
  if (inHand || chosen === null || chosen.chosen.file === KEEP_OUT_FILE) return null;
  return numbersIn(held, chosen.area.place);
}

function numbersIn(held: Desk['held'], place: number): AreaNumbers | null {
  if (!held?.made.ok) return null;
  const at = held.of.findIndex((area) => area.place === place);
  return held.made.held.candidates[at] ?? null;
}
