/** One detection that was entered: every value of it can be corrected here, its size added, or the whole deleted. */

import { capital } from '../../../../shared/glossary.ts';
import { DETECTIONS } from '../../../../shared/tables.ts';
import { type LogRow, rowLeftOut } from '../../state/log-tables.ts';
import { Stepper, Taps } from './parts.tsx';
import type { Log } from './use-log.ts';

export function DetectionCorrected({
  log,
  transect,
  found: { row, cells },
  onDone,
}: {
  log: Log;
  transect: LogRow;
  found: LogRow;
  onDone(): void;
}) {
  const stepper = (column: string, unit: string | null, by: number, from = 0) => (
    <Stepper
      label={labelOf(column)}
      unit={unit}
      by={by}
      from={from}
      value={cells[column] ?? ''}
      onChange={(value) => log.set(DETECTIONS, row, column, value)}
    />
  );
  const { primary, secondary, design } = transect.cells;
  return (
    <section className="log-next" aria-label="Entry corrected">
      <Taps
        name={labelOf('role')}
        options={[
          { value: 'primary', text: primary || 'primary' },
          { value: 'secondary', text: secondary || 'secondary' },
        ]}
        isOn={(role) => role === cells.role}
        onTap={(role) => log.set(DETECTIONS, row, 'role', role)}
      />
      <div className="log-pair">
        {stepper('distance_m', 'm', 0.5)}
        {stepper('count', null, 1, 1)}
      </div>
      {design === 'distance' && stepper('offset_m', 'm', 0.05)}
      <div className="log-pair">
        {stepper('cluster_length_cm', 'cm', 0.5, 1)}
        {stepper('cluster_width_cm', 'cm', 0.5, 1)}
      </div>
      <div className="log-pair">
        <button
          type="button"
          className="log-button"
          onClick={() => {
            log.enter([rowLeftOut(DETECTIONS, row)]);
            onDone();
          }}
        >
          Delete
        </button>
        <button type="button" className="log-button main" onClick={onDone}>
          Done
        </button>
      </div>
    </section>
  );
}

function labelOf(column: string): string {
  return capital(DETECTIONS.columns.find((c) => c.name === column)!.label);
}
