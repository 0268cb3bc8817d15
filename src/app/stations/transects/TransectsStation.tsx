/** The transects: what was searched, each in section, and how well its position is known. */

import { useMemo, useRef } from 'react';
import {
  NONE_PLACED,
  NONE_SEARCHED,
  transectsOpening,
  transectTable,
  unplacedSentence,
} from '../../../present/transects.ts';
import type { JudgedView } from '../../contract.ts';
import { Caution, Lead, Said, Sentence, unitSystem } from '../../shell/ui.tsx';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';
import { transectInSection } from '../../state/transect-in-section.ts';
import { Planned } from './Planned.tsx';
import { TransectCard } from './TransectCard.tsx';
import { TransectTable } from './TransectTable.tsx';
import { writtenTransects } from './written-transects.ts';
import './transects.css';

export function TransectsStation() {
  const { state } = useApp();
  const { judged } = state;
  if (judged === null) return <p className="quiet">Reading the survey …</p>;
  return <Transects judged={judged} />;
}

function Transects({ judged }: { judged: JudgedView }) {
  const { state, actions } = useApp();
  const { survey, segments, placed } = judged;
  const units = unitSystem(state.units);
  const opening = useMemo(
    () => transectsOpening(survey, segments, units),
    [survey, segments, units],
  );
  const table = useMemo(
    () => transectTable(placed, segments, survey, units),
    [placed, segments, survey, units],
  );
  const section = useRef<HTMLDivElement>(null);
  const inSection = transectInSection(placed, state.focus.transect);
  if (inSection === null) return <NonePlaced judged={judged} />;
  const choose = (transect: string | null) => actions.setFocus({ transect });
  const lookAt = (transect: string): void => {
    actions.setFocus({ transect, lookAt: { transect } });
    section.current?.scrollIntoView({ block: 'start' });
  };
  const searched = writtenTransects(judged.sheets) - judged.planned.length;
  const unplaced = unplacedSentence(searched, placed.length);
  return (
    <div className="station">
      <Sentence>
        <Said text={opening.sentence} />
      </Sentence>
      <Lead>{keptTogether(opening.lead)}</Lead>
      {unplaced !== null && <Caution>{unplaced}</Caution>}
      <div ref={section} className="transect-section">
        <TransectCard
          judged={judged}
          placed={inSection}
          labels={table.rows.map((r) => r.transect)}
          onChoose={choose}
          units={state.units}
        />
      </div>
      <TransectTable table={table} chosen={inSection.transect.transect} onChoose={lookAt} />
      <Planned planned={judged.planned} units={units} />
    </div>
  );
}

function NonePlaced({ judged: { sheets, planned } }: { judged: JudgedView }) {
  const { state, actions } = useApp();
  if (planned.length > 0 && writtenTransects(sheets) === planned.length)
    return (
      <div className="station">
        <Sentence>{NONE_SEARCHED}</Sentence>
        <Planned planned={planned} units={unitSystem(state.units)} />
      </div>
    );
  return (
    <div className="station">
      <Sentence>{NONE_PLACED.sentence}</Sentence>
      <p>
        {NONE_PLACED.why}{' '}
        <button type="button" className="link" onClick={() => actions.go('survey')}>
          {NONE_PLACED.way}
        </button>
        .
      </p>
    </div>
  );
}
