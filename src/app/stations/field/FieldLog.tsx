/**
 * The Field log: a survey entered in the boat, on a phone, with thumbs and wet hands. It fills the screen; every tap is a change of
 * the survey like any other, kept at once. The rules are looked at meanwhile, the estimate is made when the log is left.
 */

import './field.css';
import { label, labels, term, terms } from '../../../../shared/glossary.ts';
import { DETECTIONS, HABITAT, TRANSECTS } from '../../../../shared/tables.ts';
import type { LogDraft, Work } from '../../contract.ts';
import { NewVersion } from '../../shell/NewVersion.tsx';
import { PrintSheets } from '../../shell/PrintSheets.tsx';
import { Standing } from '../../shell/Standing.tsx';
import { Trouble } from '../../shell/Trouble.tsx';
import { useApp } from '../../state/app-context.tsx';
import { draftFor } from '../../state/log-draft.ts';
import { begunFromPlan, leftOffAt, newTransect, transectsIn } from '../../state/log-entry.ts';
import { cellChanged, type LogRow, rowAdded, rowsOf } from '../../state/log-tables.ts';
import { DetectionsTab } from './DetectionsTab.tsx';
import { HabitatTab } from './HabitatTab.tsx';
import { HeadTab } from './HeadTab.tsx';
import { MoreToday } from './MoreToday.tsx';
import { today } from './today.ts';
import { Unsaid } from './Unsaid.tsx';
import { type Log, useLog } from './use-log.ts';

export function FieldLog({ work }: { work: Work }) {
  const log = useLog(work);
  const { transect, draft } = log;
  return (
    <main className="field-log" data-tab={draft.tab} data-run={useApp().state.run.state}>
      <Bar log={log} />
      <div className="log-notices">
        <Trouble />
        <NewVersion />
        <Standing />
        <Unsaid log={log} />
      </div>
      {transect === null ? (
        <Begin log={log} />
      ) : (
        <div className="log-tab" key={`${transect.row} ${draft.tab}`}>
          {draft.tab === 'transect' && <HeadTab log={log} transect={transect} />}
          {draft.tab === 'habitat' && <HabitatTab log={log} transect={transect} />}
          {draft.tab === 'detections' && <DetectionsTab log={log} transect={transect} />}
        </div>
      )}
      {transect !== null && <Tabs log={log} transect={transect} />}
    </main>
  );
}

/** The way back, which transect, the last entry taken back, a new transect; and whether all is kept. */
function Bar({ log }: { log: Log }) {
  const { state, actions } = useApp();
  const { searched } = transectsIn(log.work.files);
  const edits = log.work.edits.length;
  return (
    <header className="log-bar">
      <button type="button" onClick={actions.closeLog} aria-label="Leave the Field log">
        ←
      </button>
      <h1 className="visually-hidden">Field log</h1>
      <select
        aria-label={label('transect')}
        value={log.transect?.row ?? ''}
        onChange={(event) => openRow(log, Number(event.target.value) || null)}
      >
        <option value="">{labels('transect')} …</option>
        {searched.map(({ row, cells }) => (
          <option key={row} value={row}>
            {cells.transect || '(no label)'} · {cells.date}
          </option>
        ))}
      </select>
      <button type="button" disabled={edits === 0} onClick={actions.undo}>
        Undo
      </button>
      <p className="log-kept" data-kept={state.kept === log.work}>
        {state.kept === log.work ? 'kept' : 'keeping …'}
      </p>
    </header>
  );
}

/** Another transect, where its entries were left off; or none. */
function openRow(log: Log, row: number | null): void {
  const { files } = log.work;
  const chosen = transectsIn(files).searched.find((one) => one.row === row);
  const begun = chosen === undefined ? {} : leftOffAt(files, chosen.cells.transect ?? '');
  log.note(draftFor(row, 'transect', begun));
}

/** Where no transect is open: a new one, those that are planned, those that were entered. */
function Begin({ log }: { log: Log }) {
  const { files } = log.work;
  const { searched, planned } = transectsIn(files);
  const day = today();
  const begin = (): void => {
    const { row, edits } = rowAdded(log.work, TRANSECTS, newTransect(files, day));
    log.enter(edits);
    openRow(log, row);
  };
  const beginPlanned = (plan: LogRow): void => {
    const values = Object.entries(begunFromPlan(files, plan, day));
    log.enter(values.map(([column, value]) => cellChanged(TRANSECTS, plan.row, column, value)));
    openRow(log, plan.row);
  };
  return (
    <div className="log-tab log-begin">
      <button type="button" className="log-button main" onClick={begin}>
        New {term('transect')}: {newTransect(files, day).transect}
      </button>
      {planned.length > 0 && (
        <section aria-label={labels('plannedTransect')}>
          <h2>{labels('plannedTransect')}</h2>
          {planned.map((plan) => (
            <button
              key={plan.row}
              type="button"
              className="log-button"
              onClick={() => beginPlanned(plan)}
            >
              {plan.cells.transect || '(no label)'}
            </button>
          ))}
        </section>
      )}
      <MoreToday log={log} />
      {searched.length > 0 && (
        <section aria-label={labels('transect')}>
          <h2>Entered</h2>
          {[...searched].reverse().map(({ row, cells }) => (
            <button
              key={row}
              type="button"
              className="log-button"
              onClick={() => openRow(log, row)}
            >
              {cells.transect || '(no label)'}, {cells.date}: {rowsWords(log, cells.transect ?? '')}
            </button>
          ))}
        </section>
      )}
      <PrintSheets />
    </div>
  );
}

/** `4 breaks, 12 detections` */
function rowsWords({ work: { files } }: Log, transect: string): string {
  const breaks = rowsOf(files, HABITAT, transect).length;
  const found = rowsOf(files, DETECTIONS, transect).length;
  return `${breaks} ${breaks === 1 ? 'break' : 'breaks'}, ${found} ${found === 1 ? term('detection') : terms('detection')}`;
}

function Tabs({ log, transect }: { log: Log; transect: LogRow }) {
  const { files } = log.work;
  const name = transect.cells.transect ?? '';
  const tab = (to: LogDraft['tab'], words: string, count: number | null) => (
    <button
      type="button"
      aria-current={log.draft.tab === to ? 'page' : undefined}
      onClick={() => log.note({ tab: to })}
    >
      {words}
      {count !== null && <b> {count}</b>}
    </button>
  );
  return (
    <nav className="log-tabs" aria-label="Parts of the log">
      {tab('transect', label('transect'), null)}
      {tab('habitat', 'Habitat', rowsOf(files, HABITAT, name).length)}
      {tab('detections', labels('detection'), rowsOf(files, DETECTIONS, name).length)}
      <button type="button" onClick={() => openRow(log, null)}>
        Next
      </button>
    </nav>
  );
}
