/**
 * Detections by taps, four at most each: the metre, half a metre more, the perpendicular distance where the design has one, and the
 * count beside the observer who found it, which adds it. What was entered stands above and can be corrected.
 */

import { useState } from 'react';
import { capital, label, term, terms } from '../../../../shared/glossary.ts';
import { DETECTIONS, TRANSECTS } from '../../../../shared/tables.ts';
import { reachM, saysNoneFound, withNoneFound } from '../../state/log-entry.ts';
import { cellChanged, type LogRow, rowAdded, rowsOf } from '../../state/log-tables.ts';
import { Counts } from './Counts.tsx';
import { DetectionCorrected } from './DetectionCorrected.tsx';
import { Metres } from './Metres.tsx';
import { Entries, Stepper, Taps } from './parts.tsx';
import { type Log, toldAt } from './use-log.ts';

const ROLES = ['primary', 'secondary'] as const;
const OFFSET_STEPS = 10;

export function DetectionsTab({ log, transect }: { log: Log; transect: LogRow }) {
  const [correcting, setCorrecting] = useState<number | null>(null);
  const { cells } = transect;
  const name = cells.transect ?? '';
  const rows = rowsOf(log.work.files, DETECTIONS, name);
  const chosen = rows.find(({ row }) => row === correcting) ?? null;
  return (
    <div className="log-work">
      <div className="log-list">
        <Entries
          name={`${capital(terms('detection'))} entered`}
          empty={null}
          rows={rows}
          chosen={correcting}
          words={(row) => foundWords(row, cells)}
          told={(row) => toldAt(log.findings, DETECTIONS, row)}
          onChoose={(row) => setCorrecting(row === correcting ? null : row)}
        />
        {rows.length === 0 && <NoneFound log={log} transect={transect} />}
      </div>
      {chosen === null ? (
        <Next log={log} transect={transect} />
      ) : (
        <DetectionCorrected
          log={log}
          transect={transect}
          found={chosen}
          onDone={() => setCorrecting(null)}
        />
      )}
    </div>
  );
}

/** Nothing found is said, not left to be guessed from an empty list. */
function NoneFound({ log, transect: { row, cells } }: { log: Log; transect: LogRow }) {
  const notes = cells.notes ?? '';
  const said = saysNoneFound(notes);
  return (
    <div className="log-none">
      <p>
        {said
          ? 'Searched to the end, none found: so it is noted.'
          : `No ${term('detection')} yet. Where there was none, say so:`}
      </p>
      <button
        type="button"
        className="log-button"
        aria-pressed={said}
        onClick={() =>
          log.enter([cellChanged(TRANSECTS, row, 'notes', withNoneFound(notes, !said))])
        }
      >
        Searched, none found
      </button>
    </div>
  );
}

function Next({ log, transect }: { log: Log; transect: LogRow }) {
  const { cells, row } = transect;
  const { draft, work } = log;
  const far = cells.design === 'distance';
  const add = (role: string, count: string): void => {
    const { edits } = rowAdded(work, DETECTIONS, {
      transect: cells.transect ?? '',
      role,
      distance_m: draft.foundM,
      offset_m: far ? draft.offsetM : '',
      count,
    });
    const notes = cells.notes ?? '';
    const taken = saysNoneFound(notes)
      ? [cellChanged(TRANSECTS, row, 'notes', withNoneFound(notes, false))]
      : [];
    log.enter([...edits, ...taken]);
    log.note({ offsetM: '' });
  };
  const roles = cells.secondary === '' ? ROLES.slice(0, 1) : ROLES;
  return (
    <section className="log-next" aria-label={`Next ${term('detection')}`}>
      <Stepper
        label={`${capital(COLUMN.distance_m)} (m)`}
        unit={null}
        quiet
        by={0.5}
        value={draft.foundM}
        onChange={(foundM) => log.note({ foundM })}
      />
      <Metres
        lengthM={Number(cells.length_m) || 0}
        atM={Number(draft.foundM) || 0}
        onTap={(metre) => log.note({ foundM: String(metre) })}
      />
      {far && (
        <div className="log-offsets">
          <Taps
            name={`${label('perpendicularDistance')} (m)`}
            options={offsets(reachM(cells)).map((value) => ({ value, text: value }))}
            isOn={(value) => value === draft.offsetM}
            onTap={(offsetM) => log.note({ offsetM })}
          />
          <span aria-hidden="true">m to the side</span>
        </div>
      )}
      {roles.map((role) => (
        <Counts
          key={role}
          who={cells[role] || role}
          role={role}
          onCount={(count) => add(role, count)}
        />
      ))}
    </section>
  );
}

/** In tenths of the half width, from the rope outward. */
function offsets(reach: number): string[] {
  return Array.from({ length: OFFSET_STEPS + 1 }, (_, i) =>
    String(Math.round((100 * reach * i) / OFFSET_STEPS) / 100),
  );
}

const COLUMN = Object.fromEntries(DETECTIONS.columns.map((c) => [c.name, c.label]));

/** `14.5 m: 2 by Ann, 0.3 m off` */
function foundWords({ cells }: LogRow, transect: LogRow['cells']): string {
  const { role = '', distance_m, count, offset_m } = cells;
  const who = (role === 'secondary' ? transect.secondary : transect.primary) || role || '?';
  return `${distance_m} m: ${count || '?'} by ${who}${offset_m === '' || offset_m === undefined ? '' : `, ${offset_m} m off`}`;
}
