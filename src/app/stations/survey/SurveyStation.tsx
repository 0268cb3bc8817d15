/** Where a survey is opened and mended: what it holds, what is wrong with it, its tables, and what was changed. */

import { useEffect, useState } from 'react';
import { formatArea, formatCount } from '../../../../shared/units.ts';
import type { JudgedView } from '../../contract.ts';
import { Moved } from '../../shell/Moved.tsx';
import { Lead, Sentence, unitSystem } from '../../shell/ui.tsx';
import { useApp } from '../../state/app-context.tsx';
import { ChangeList } from './ChangeList.tsx';
import { FindingList } from './FindingList.tsx';
import { counted, faultWords } from './fault-words.ts';
import { MapFiles } from './MapFiles.tsx';
import { Sheets } from './Sheets.tsx';
import './survey.css';

/** Where the reader is in the tables; `editing` opens the cell to be corrected. */
export interface CellPlace {
  file: string;
  row: number;
  column: string;
}

export function SurveyStation() {
  const { state } = useApp();
  const { judged, focus } = state;
  const [place, setPlace] = useState<CellPlace | null>(null);
  const [editing, setEditing] = useState(false);

  // a fault that was pointed at, here or on the map, shows its cell
  useEffect(() => {
    const finding = focus.finding === null ? null : judged?.findings[focus.finding];
    if (!finding || finding.row === null || !judged) return;
    const sheet = judged.sheets.find((s) => s.file === finding.table);
    if (sheet === undefined) return;
    const column = finding.column ?? sheet.header[0] ?? '';
    setPlace({ file: finding.table, row: finding.row, column: column.split(', ')[0]! });
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
      <MapFiles judged={judged} />
      <ChangeList />
    </div>
  );
}

function Opening({ judged }: { judged: JudgedView }) {
  const { state } = useApp();
  const { survey, findings, ok } = judged;
  const errors = findings.filter((f) => f.severity === 'error');
  const notices = findings.length - errors.length;
  const ropes = (
    <>
      <b>{counted(survey.transects.length, 'rope')}</b>,{' '}
      <b>{counted(survey.detections.length, 'cluster')}</b>
    </>
  );
  if (!ok)
    return (
      <>
        <Sentence>
          <b>{counted(errors.length, 'fault')}</b>{' '}
          {errors.length === 1 ? 'stops the estimate.' : 'stop the estimate.'}
        </Sentence>
        <Lead>{faultWords(errors)}</Lead>
      </>
    );
  const area =
    survey.transects.length === 0 ? 0 : judged.segments.reduce((m, s) => m + s.areaM2, 0);
  const counts = survey.detections.reduce((n, d) => n + d.count, 0);
  const lead = (
    <Lead>
      Divers counted {formatCount(counts)} mussels on {formatArea(area, unitSystem(state.units))} of
      bed.{' '}
      {notices === 0 ? 'There is nothing to mind.' : `${counted(notices, 'notice')} to read below.`}
    </Lead>
  );
  if (survey.detections.length === 0)
    return (
      <>
        <Sentence>
          <b>{counted(survey.transects.length, 'rope')}</b> searched, and <b>not one mussel</b>{' '}
          found.
        </Sentence>
        <Lead>
          Not found is not the same as not there: the Lake station says how many could have been
          missed.
        </Lead>
      </>
    );
  return (
    <>
      <Sentence>{ropes}: nothing stands in the way of the estimate.</Sentence>
      {lead}
    </>
  );
}
