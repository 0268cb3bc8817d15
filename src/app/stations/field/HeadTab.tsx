/** The head of one transect: label, day, design, observers, where it lies, how long and wide it is. */

import { capital, label } from '../../../../shared/glossary.ts';
import { en as words } from '../../../../shared/strings/report/en.ts';
import { DEFAULT_WIDTH_M, TRANSECTS } from '../../../../shared/tables.ts';
import { hasRows, knownObservers } from '../../state/log-entry.ts';
import { cellChanged, type LogRow } from '../../state/log-tables.ts';
import { Stepper, Taps, TextField, Told } from './parts.tsx';
import { type Log, toldAt } from './use-log.ts';
import { Waypoint } from './Waypoint.tsx';

const NOBODY = '';

export function HeadTab({ log, transect }: { log: Log; transect: LogRow }) {
  const { row, cells } = transect;
  const { files } = log.work;
  const value = (column: string): string => cells[column] ?? '';
  const set = (column: string) => (text: string) => log.set(TRANSECTS, row, column, text);
  // what is still missing of the habitat is told there
  const findings = log.findings.filter((f) => f.code !== 'no-habitat');
  const told = (column: string) => <Told findings={toldAt(findings, TRANSECTS, row, column)} />;
  const named = (column: string): string => labelOf(column);
  const text = (column: string, kind: 'text' | 'date' | 'decimal' = 'text') => (
    <TextField label={named(column)} value={value(column)} onChange={set(column)} kind={kind}>
      {told(column)}
    </TextField>
  );
  const held = hasRows(files, value('transect'));
  const usualM = DEFAULT_WIDTH_M[value('design') === 'distance' ? 'distance' : 'belt'];
  const stepper = (column: string, unit: string, by: number, from = 0, more = '') => (
    <Stepper
      label={`${named(column)}${more}`}
      unit={unit}
      by={by}
      from={from}
      value={value(column)}
      onChange={set(column)}
    >
      {told(column)}
    </Stepper>
  );
  return (
    <div className="log-form">
      <div className="log-pair">
        <TextField
          label={named('transect')}
          value={value('transect')}
          onChange={set('transect')}
          readOnly={held}
        >
          {told('transect')}
        </TextField>
        {text('date', 'date')}
      </div>
      {held && (
        <p className="log-hint">
          Its entries carry this label; it is changed at the Survey station.
        </p>
      )}
      <Choice column="design" value={value('design')} onChange={set('design')} />
      {told('design')}
      <Observer log={log} transect={transect} column="primary" known={knownObservers(files, row)} />
      <Observer
        log={log}
        transect={transect}
        column="secondary"
        known={knownObservers(files, row)}
      />
      <button
        type="button"
        className="log-button"
        onClick={() =>
          log.enter([
            cellChanged(TRANSECTS, row, 'primary', value('secondary')),
            cellChanged(TRANSECTS, row, 'secondary', value('primary')),
          ])
        }
      >
        Swap the two
      </button>
      <Waypoint log={log} transect={transect} end="start" />
      {stepper('bearing_deg', '°', 1)}
      <Choice column="bearing_ref" value={value('bearing_ref')} onChange={set('bearing_ref')} />
      {stepper('clarity_m', 'm', 0.5, 3)}
      {stepper('length_m', 'm', 1, 30)}
      {stepper('width_m', 'm', 0.5, usualM, `; blank: ${usualM}`)}
      <Choice column="stop" value={value('stop')} onChange={set('stop')} />
      {told('stop')}
      <details>
        <summary>End waypoint, times</summary>
        <div className="log-form">
          <Waypoint log={log} transect={transect} end="end" />
          {text('setup_min')}
          {text('habitat_min')}
          {text('search_min')}
        </div>
      </details>
      <TextField label={named('notes')} value={value('notes')} onChange={set('notes')} lines={3}>
        {told('notes')}
      </TextField>
      <p className="caution">{words.cautionDiving}</p>
    </div>
  );
}

/** One of the choices of a column; pressed again it is blank. */
function Choice({
  column,
  value,
  onChange,
}: {
  column: string;
  value: string;
  onChange(value: string): void;
}) {
  const { choices = [], blankMeans } = columnNamed(column);
  const chosen = value === '' ? (blankMeans ?? '') : value;
  return (
    <div className="log-choice">
      <span aria-hidden="true">{labelOf(column)}</span>
      <Taps
        name={labelOf(column)}
        options={choices.map((c) => ({ value: c, text: c.replaceAll('_', ' ') }))}
        isOn={(c) => c === chosen.toLowerCase()}
        onTap={(c) => onChange(c === value ? '' : c)}
      />
    </div>
  );
}

function Observer({
  log,
  transect: { row, cells },
  column,
  known,
}: {
  log: Log;
  transect: LogRow;
  column: 'primary' | 'secondary';
  known: readonly string[];
}) {
  const value = cells[column] ?? '';
  const name = label(column === 'primary' ? 'primaryObserver' : 'secondaryObserver');
  const set = (text: string): void => log.set(TRANSECTS, row, column, text);
  const options = known.map((one) => ({ value: one, text: one }));
  return (
    <div className="log-choice">
      <TextField label={name} value={value} onChange={set}>
        <Told findings={toldAt(log.findings, TRANSECTS, row, column)} />
      </TextField>
      <Taps
        name={`${name}: those known`}
        options={column === 'secondary' ? [...options, { value: NOBODY, text: 'nobody' }] : options}
        isOn={(one) => one === value}
        onTap={set}
      />
    </div>
  );
}

function columnNamed(name: string) {
  return TRANSECTS.columns.find((c) => c.name === name)!;
}

export function labelOf(column: string): string {
  return capital(columnNamed(column).label);
}
