/** Transects that were left without a detection, and without the word that none was found: asked for, nothing is held up. */

import { TRANSECTS } from '../../../../shared/tables.ts';
import { draftFor } from '../../state/log-draft.ts';
import { unsaid, withNoneFound } from '../../state/log-entry.ts';
import { cellChanged } from '../../state/log-tables.ts';
import type { Log } from './use-log.ts';

export function Unsaid({ log }: { log: Log }) {
  const left = unsaid(log.work).filter(({ row }) => row !== log.transect?.row);
  const [first] = left;
  if (first === undefined) return null;
  const { row, cells } = first;
  const more = left.length > 1 ? ` (${left.length - 1} more like it)` : '';
  return (
    <div className="log-unsaid" role="status">
      <p>
        {cells.transect}: nothing was entered{more}. Searched to the end, none found?
      </p>
      <div className="log-pair">
        <button
          type="button"
          className="log-button"
          onClick={() => log.note(draftFor(row, 'detections'))}
        >
          Open {cells.transect}
        </button>
        <button
          type="button"
          className="log-button"
          onClick={() =>
            log.enter([
              cellChanged(TRANSECTS, row, 'notes', withNoneFound(cells.notes ?? '', true)),
            ])
          }
        >
          Yes, none found
        </button>
      </div>
    </div>
  );
}
