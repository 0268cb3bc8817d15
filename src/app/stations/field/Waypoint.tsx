/** One end of the transect: coordinates from a GPS, or the device's own position averaged over some seconds. */

import { TRANSECTS } from '../../../../shared/tables.ts';
import { formatLength } from '../../../../shared/units.ts';
import { AVERAGED_OVER_S, COARSE_M } from '../../state/averaging.ts';
import { withAccuracy } from '../../state/log-entry.ts';
import { cellChanged, type LogRow } from '../../state/log-tables.ts';
import { usePosition } from '../../state/use-position.ts';
import type { AveragedFix } from '../../state/waypoint.ts';
import { TextField, Told } from './parts.tsx';
import { type Log, toldAt } from './use-log.ts';

/** A tenth of a metre, which no such device resolves. */
const DIGITS = 6;

export function Waypoint({
  log,
  transect: { row, cells },
  end,
}: {
  log: Log;
  transect: LogRow;
  end: 'start' | 'end';
}) {
  const { positioning, take, enough, giveUp } = usePosition();
  const name = end === 'start' ? 'Start' : 'End';
  const keep = (fix: AveragedFix): void =>
    log.enter([
      cellChanged(TRANSECTS, row, `${end}_lat`, fix.lat.toFixed(DIGITS)),
      cellChanged(TRANSECTS, row, `${end}_lon`, fix.lon.toFixed(DIGITS)),
      cellChanged(TRANSECTS, row, 'notes', withAccuracy(cells.notes ?? '', end, fixWords(fix))),
    ]);
  const field = (column: string, label: string) => (
    <TextField
      label={label}
      kind="decimal"
      value={cells[column] ?? ''}
      onChange={(text) => log.set(TRANSECTS, row, column, text)}
    >
      <Told findings={toldAt(log.findings, TRANSECTS, row, column)} />
    </TextField>
  );
  return (
    <div className="log-waypoint">
      <div className="log-pair">
        {field(`${end}_lat`, `${name}, latitude`)}
        {field(`${end}_lon`, `${name}, longitude`)}
      </div>
      {positioning.state === 'taking' ? (
        <div className="log-position" role="status">
          <p>
            {positioning.so_far === null
              ? 'Waiting for a first position …'
              : `${positioning.coarse ? positioning.seconds : `${positioning.seconds} of ${AVERAGED_OVER_S}`} s: ${fixWords(positioning.so_far)}`}
          </p>
          {positioning.coarse && (
            <p className="log-told">
              Coarser than {formatLength(COARSE_M, 2)}: wait for an open sky, type the coordinates
              of a GPS, or take it now as it is; the notes keep how exact it was.
            </p>
          )}
          <div className="log-pair">
            <button
              type="button"
              className="log-button"
              disabled={positioning.so_far === null}
              onClick={enough}
            >
              Take it now
            </button>
            <button type="button" className="log-button" onClick={giveUp}>
              Stop
            </button>
          </div>
        </div>
      ) : (
        <button type="button" className="log-button" onClick={() => take(keep)}>
          {name}: take the position here
        </button>
      )}
      {positioning.state === 'refused' && (
        <p className="log-told" role="alert">
          {positioning.why}
        </p>
      )}
    </div>
  );
}

/** `±4 m, 12 positions, spread 1.2 m` */
export function fixWords({ accuracyM, spreadM, count }: AveragedFix): string {
  const several =
    count === 1 ? '1 position' : `${count} positions, spread ${formatLength(spreadM, 2)}`;
  return `±${formatLength(accuracyM, 2)}, ${several}`;
}
