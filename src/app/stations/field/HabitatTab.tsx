/** Where habitats begin along the transect: the next break by taps, those entered below, each of which can be corrected. */

import { useState } from 'react';
import { capital, gloss, label, term } from '../../../../shared/glossary.ts';
import { HABITAT } from '../../../../shared/tables.ts';
import { useApp } from '../../state/app-context.tsx';
import { type LogRow, rowAdded, rowLeftOut, rowsOf } from '../../state/log-tables.ts';
import { Entries, Stepper, Taps, Told } from './parts.tsx';
import { type Log, toldAt } from './use-log.ts';

const COVERS = ['0', '1', '2', '3', '4'].map((value) => ({ value, text: value }));
const USUAL_CLASSES = ['mud', 'silt', 'sand', 'gravel', 'pebble', 'rock', 'other'];

export function HabitatTab({ log, transect }: { log: Log; transect: LogRow }) {
  const classes = useApp().state.judged?.analysis.substrates ?? USUAL_CLASSES;
  const [correcting, setCorrecting] = useState<number | null>(null);
  const name = transect.cells.transect ?? '';
  const rows = rowsOf(log.work.files, HABITAT, name);
  const chosen = rows.find(({ row }) => row === correcting) ?? null;
  const { draft, work } = log;
  const values =
    chosen === null
      ? {
          distance_m: draft.breakM,
          depth_m: draft.depthM,
          substrate: draft.substrate,
          plant_cover: draft.plantCover,
        }
      : chosen.cells;
  const set = (column: keyof typeof DRAFT, value: string): void => {
    if (chosen === null) log.note({ [DRAFT[column]]: value });
    else log.set(HABITAT, chosen.row, column, value);
  };
  const lengthM = transect.cells.length_m ?? '';
  const isEnd = lengthM !== '' && Number(values.distance_m) === Number(lengthM);
  const add = (): void => {
    const own = { ...values, transect: name };
    log.enter(
      rowAdded(work, HABITAT, isEnd ? { ...own, substrate: '', plant_cover: '' } : own).edits,
    );
    log.note({ substrate: '', plantCover: '' });
  };
  const missing = log.findings.filter(
    (f) => f.code === 'no-habitat' && f.row === transect.row && rows.length === 0,
  );
  return (
    <div className="log-work">
      <div className="log-list">
        <Told findings={missing} />
        <Entries
          name="Breaks entered"
          empty={`No break yet: the first is at 0 m, the last at the end of the ${term('transect')}, with its ${term('depth')}.`}
          rows={rows}
          chosen={correcting}
          words={breakWords}
          told={(row) => toldAt(log.findings, HABITAT, row)}
          onChoose={(row) => setCorrecting(row === correcting ? null : row)}
        />
      </div>
      <section className="log-next" aria-label={chosen === null ? 'Next break' : 'Break corrected'}>
        <div className="log-pair">
          <Stepper
            label={capital(COLUMN.distance_m)}
            unit="m"
            by={0.5}
            value={values.distance_m ?? ''}
            onChange={(value) => set('distance_m', value)}
          />
          <Stepper
            label={label('depth')}
            unit="m"
            by={0.1}
            from={1}
            value={values.depth_m ?? ''}
            onChange={(value) => set('depth_m', value)}
          />
        </div>
        {isEnd ? (
          <p className="log-hint">The end: its {term('depth')} alone is written down there.</p>
        ) : (
          <>
            <Taps
              name={label('substrate')}
              options={classes.map((value) => ({ value, text: value }))}
              isOn={(value) => parts(values.substrate).includes(value)}
              onTap={(value) => set('substrate', toggled(values.substrate, value))}
            />
            <div className="log-row">
              <span aria-hidden="true">
                {label('plantCover')} <small>{gloss('plantCover')}</small>
              </span>
              <Taps
                name={label('plantCover')}
                options={COVERS}
                isOn={(value) => value === values.plant_cover}
                onTap={(value) => set('plant_cover', value)}
              />
            </div>
          </>
        )}
        {chosen === null ? (
          <div className="log-pair">
            <button
              type="button"
              className="log-button"
              onClick={() => log.note({ breakM: lengthM })}
            >
              Go to the end
            </button>
            <button type="button" className="log-button main" onClick={add}>
              Add at {values.distance_m || '…'} m
            </button>
          </div>
        ) : (
          <div className="log-pair">
            <button
              type="button"
              className="log-button"
              onClick={() => {
                log.enter([rowLeftOut(HABITAT, chosen.row)]);
                setCorrecting(null);
              }}
            >
              Delete
            </button>
            <button type="button" className="log-button main" onClick={() => setCorrecting(null)}>
              Done
            </button>
          </div>
        )}
      </section>
    </div>
  );
}

/** Where a column's value is kept until the row is added. */
const DRAFT = {
  distance_m: 'breakM',
  depth_m: 'depthM',
  substrate: 'substrate',
  plant_cover: 'plantCover',
} as const;

const COLUMN = Object.fromEntries(HABITAT.columns.map((c) => [c.name, c.label]));

/** `12.5 m: sand+gravel, plants 2, 3.4 m deep` */
export function breakWords({ cells }: LogRow): string {
  const { distance_m, substrate, plant_cover, depth_m } = cells;
  const bed = substrate === '' ? 'end' : substrate;
  const plants = plant_cover === '' ? '' : `, ${term('plantCover')} ${plant_cover}`;
  return `${distance_m} m: ${bed}${plants}, ${depth_m || '?'} m deep`;
}

function parts(substrate = ''): string[] {
  return substrate.split('+').filter((part) => part !== '');
}

/** The first one tapped is the dominant one. */
function toggled(substrate: string | undefined, value: string): string {
  const now = parts(substrate);
  return (now.includes(value) ? now.filter((part) => part !== value) : [...now, value]).join('+');
}
