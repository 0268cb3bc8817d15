/** Where a survey is opened and corrected: what it holds, its errors and notices, its tables, and what was changed. */

import { useEffect, useState } from 'react';
import { surveyOpening } from '../../../present/survey-opening.ts';
import type { JudgedView } from '../../contract.ts';
import { ChangeList } from '../../shell/ChangeList.tsx';
import { CHANGES_AT_SURVEY } from '../../shell/LakeName.tsx';
import { Moved } from '../../shell/Moved.tsx';
import { PrintSheets } from '../../shell/PrintSheets.tsx';
import { Lead, Said, Sentence, unitSystem } from '../../shell/ui.tsx';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';
import { Copies } from './Copies.tsx';
import type { CellPlace } from './columns.ts';
import { FindingList } from './FindingList.tsx';
import { MapFiles } from './MapFiles.tsx';
import { Sheets } from './Sheets.tsx';
import './survey.css';

export function SurveyStation() {
  const { state } = useApp();
  const { judged, focus } = state;
  const [place, setPlace] = useState<CellPlace | null>(null);
  const [editing, setEditing] = useState(false);

  // an error or notice that was pointed at, here or on the map, shows its cell
  useEffect(() => {
    const finding = focus.finding === null ? null : judged?.findings[focus.finding];
    if (!finding || finding.row === null || !judged) return;
    const sheet = judged.sheets.find((s) => s.file === finding.table);
    if (sheet === undefined) return;
    const column = finding.column ?? sheet.header[0] ?? '';
    setPlace({ file: finding.table, row: finding.row, column: column.split(', ')[0] ?? column });
    setEditing(finding.severity === 'error' && finding.column !== null);
  }, [focus.finding, judged]);

  if (judged === null)
    return (
      <div className="station">
        <Sentence>Reading the survey …</Sentence>
      </div>
    );
  return (
    <div className="station">
      <Opening judged={judged} />
      <Moved />
      <FindingList judged={judged} />
      <Sheets
        judged={judged}
        place={place}
        editing={editing}
        onPlace={(next, edit) => {
          setPlace(next);
          setEditing(edit);
        }}
      />
      <ToTheBoat />
      <PrintSheets />
      <MapFiles judged={judged} />
      <Copies key={judged.name} judged={judged} />
      <ChangeList id={CHANGES_AT_SURVEY} />
    </div>
  );
}

function ToTheBoat() {
  const { actions } = useApp();
  return (
    <section className="to-the-boat no-print" aria-labelledby="boat-title">
      <h2 id="boat-title">In the boat</h2>
      <p className="small quiet">
        The Field log takes entries by thumb on a phone, without a network, and keeps each at once.
      </p>
      <button type="button" className="button small" onClick={actions.openLog}>
        Open the Field log
      </button>
    </section>
  );
}

function Opening({ judged }: { judged: JudgedView }) {
  const units = unitSystem(useApp().state.units);
  const { sentence, lead } = surveyOpening(judged, units);
  return (
    <>
      <Sentence>
        <Said text={sentence} />
      </Sentence>
      <Lead>{keptTogether(lead)}</Lead>
    </>
  );
}
