/** The Areas station: what treatment areas hold, drawn by hand or proposed for a budget, and what is left outside. */

import './areas.css';
import { KEEP_OUT_FILE, TREATMENTS_FILE } from '../../../../shared/survey-files.ts';
import { areasOpening, readHeld } from '../../../present/areas.ts';
import { TREATMENT_CAUTION } from '../../../present/treatment-caution.ts';
import { Caution, Lead, Said, Sentence, unitSystem } from '../../shell/ui.tsx';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';
import { beginDrawing, useDesk } from '../../state/area-desk.ts';
import { useAreas } from '../../state/use-areas.ts';
import { NoEstimate } from '../NoEstimate.tsx';
import { AreaTable } from './AreaTable.tsx';
import { ChosenArea } from './ChosenArea.tsx';
import { Compare } from './Compare.tsx';
import { KeepOut } from './KeepOut.tsx';
import { Proposals } from './Proposals.tsx';
import { SaveAreas } from './SaveAreas.tsx';
import { useAreaNumbers } from './use-area-numbers.ts';

export function AreasStation() {
  const { state } = useApp();
  return (
    <div className="station areas-station">
      {state.result === null ? <NoEstimate subject="lake" /> : <Drawn />}
    </div>
  );
}

function Drawn() {
  const { state } = useApp();
  const units = unitSystem(state.units);
  const areas = useAreas();
  useAreaNumbers(areas.candidates);
  const made = useDesk((d) => d.held)?.made ?? null;
  if (made === null) return <Sentence>Measuring the areas …</Sentence>;
  if (!made.ok)
    return (
      <>
        <Sentence>Areas have no numbers on this lake.</Sentence>
        <Caution>{made.why}.</Caution>
      </>
    );
  const { held } = made;
  const opening = areasOpening(held, units);
  const [before, strong, after] = opening.sentence;
  const read = readHeld(held, units);
  return (
    <>
      <Sentence>
        <Said text={before} />
        <b>{keptTogether(strong)}</b>
        <Said text={after} />
      </Sentence>
      <Lead>{keptTogether(opening.lead)}</Lead>
      <Caution>{TREATMENT_CAUTION}</Caution>
      <p className="area-begin no-print">
        <button
          type="button"
          className="button primary"
          onClick={() => beginDrawing(TREATMENTS_FILE)}
        >
          Draw an area
        </button>
        <button type="button" className="button" onClick={() => beginDrawing(KEEP_OUT_FILE)}>
          Draw a place to keep out of
        </button>
      </p>
      {areas.candidates.length > 0 && <AreaTable areas={areas} held={held} read={read} />}
      <ChosenArea areas={areas} />
      {read.leftOut !== null && <p className="small quiet">{keptTogether(read.leftOut)}</p>}
      <Compare areas={areas} held={held} />
      <KeepOut areas={areas} />
      <Proposals areas={areas} />
      <p className="small quiet">{keptTogether(read.opening)}</p>
      <SaveAreas areas={areas} />
    </>
  );
}
