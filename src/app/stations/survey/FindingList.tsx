/** Every fault and notice; choosing one shows its cell in the table and its place on the map. */

import { useState } from 'react';
import { type Finding, formatFinding } from '../../../../shared/findings.ts';
import type { JudgedView } from '../../contract.ts';
import { useApp } from '../../state/app-context.tsx';
import { ANALYSIS_FILE } from '../../state/edits.ts';
import { CellEditor } from './CellEditor.tsx';
import { counted } from './fault-words.ts';

/** More than this stand behind a button. */
const SHOWN = 12;

interface Indexed {
  finding: Finding;
  index: number;
}

export function FindingList({ judged }: { judged: JudgedView }) {
  const all = judged.findings.map((finding, index) => ({ finding, index }));
  const errors = all.filter(({ finding }) => finding.severity === 'error');
  const notices = all.filter(({ finding }) => finding.severity === 'notice');
  return (
    <>
      {errors.length > 0 && (
        <section aria-labelledby="faults-title">
          <h2 id="faults-title">Faults to mend</h2>
          <Items items={errors} judged={judged} />
        </section>
      )}
      {notices.length > 0 && (
        <details className="notices" open={errors.length === 0 && notices.length <= 3}>
          <summary>
            <h2 className="inline-title">{counted(notices.length, 'notice')}</h2>
          </summary>
          <Items items={notices} judged={judged} />
        </details>
      )}
    </>
  );
}

function Items({ items, judged }: { items: Indexed[]; judged: JudgedView }) {
  const [all, setAll] = useState(false);
  const shown = all ? items : items.slice(0, SHOWN);
  return (
    <>
      <ul className="plain-list findings">
        {shown.map((item) => (
          <Item key={item.index} {...item} judged={judged} />
        ))}
      </ul>
      {items.length > shown.length && (
        <button type="button" className="link" onClick={() => setAll(true)}>
          Show all {items.length}
        </button>
      )}
    </>
  );
}

function Item({ finding, index, judged }: Indexed & { judged: JudgedView }) {
  const { state, actions } = useApp();
  const chosen = state.focus.finding === index;
  const line = formatFinding({ ...finding, severity: 'error' });
  const place = line.slice(0, line.length - finding.message.length - 2);
  const asChoice = finding.table === ANALYSIS_FILE && finding.column !== null;
  return (
    <li className={`finding ${finding.severity}`}>
      <button
        type="button"
        className="finding-button"
        aria-pressed={chosen}
        onClick={() =>
          actions.setFocus({
            finding: chosen ? null : index,
            transect: chosen ? null : transectOf(finding, judged),
          })
        }
      >
        <b>{place}</b>
        <span>{finding.message}</span>
      </button>
      {chosen && asChoice && (
        <CellEditor
          place={{ file: ANALYSIS_FILE, row: null, column: finding.column! }}
          onDone={() => actions.setFocus({ finding: null })}
        />
      )}
    </li>
  );
}

/** The transect that a row of a table belongs to. */
export function transectOf({ table, row }: Finding, { sheets }: JudgedView): string | null {
  const sheet = sheets.find((s) => s.file === table);
  const column = sheet?.header.findIndex((name) => name.toLowerCase() === 'transect') ?? -1;
  return sheet?.rows.find((r) => r.row === row)?.cells[column] ?? null;
}
