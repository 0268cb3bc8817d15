/** What could be done about an error or notice: the evidence, what it changes, a small picture, and one press that does it. */

import { lazy } from 'react';
import type { CellEdit, Repair } from '../../../../shared/repairs.ts';
import { WHOLE_ROW } from '../../../../shared/repairs.ts';
import { visible } from '../../../../shared/words.ts';
import { Unfolded } from '../../shell/Unfolded.tsx';
import { useApp } from '../../state/app-context.tsx';
import './repairs.css';

const RepairPicture = lazy(() =>
  import('./RepairPicture.tsx').then((m) => ({ default: m.RepairPicture })),
);

/** Of many cells the first ones are shown side by side. */
const MOST_CELLS = 8;

export function Repairs({ repairs }: { repairs: readonly Repair[] }) {
  if (repairs.length === 0) return null;
  return (
    <ul className="plain-list repairs no-print">
      {repairs.map((repair) => (
        <li key={repair.id} className="repair">
          {repair.edits.length === 0 ? <Unknown repair={repair} /> : <Known repair={repair} />}
        </li>
      ))}
    </ul>
  );
}

function Unknown({ repair: { title, why } }: { repair: Repair }) {
  return (
    <p className="small">
      <b>{title}:</b> {visible(why)}.
    </p>
  );
}

function Known({ repair: { title, why, edits, certain, picture } }: { repair: Repair }) {
  const { actions } = useApp();
  const make = (): void =>
    actions.repair(
      edits.map(({ table, row, column, new: after }) => ({
        file: table,
        row,
        column,
        after,
        reason: visible(`${title}: ${why}`),
      })),
    );
  return (
    <>
      <p>
        <button type="button" className="button small" onClick={make}>
          {visible(title)}
        </button>
      </p>
      <p className="small">
        {certain ? '' : 'To be judged: '}
        {visible(why)}.
      </p>
      <Unfolded className="small" summary="Before and after">
        <RepairPicture picture={picture} />
        <Cells edits={edits} />
      </Unfolded>
    </>
  );
}

function Cells({ edits }: { edits: readonly CellEdit[] }) {
  const shown = edits.slice(0, MOST_CELLS);
  return (
    <>
      <table className="repair-cells">
        <thead>
          <tr>
            <th scope="col">Cell</th>
            <th scope="col">Before</th>
            <th scope="col">After</th>
          </tr>
        </thead>
        <tbody>
          {shown.map(({ table, row, column, old, new: after }) => (
            <tr key={`${table} ${row} ${column}`}>
              <th scope="row">
                {table.replace('.csv', '')} row {row}
                {column === WHOLE_ROW ? '' : `, ${column}`}
              </th>
              <td>{shownText(column, old)}</td>
              <td>{shownText(column, after)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {edits.length > shown.length && (
        <p className="quiet">and {edits.length - shown.length} more cells</p>
      )}
    </>
  );
}

/** A whole row as its cells; what is blank is said. */
function shownText(column: string, text: string): string {
  if (column === WHOLE_ROW) return text === '' ? 'left out' : visible(JSON.parse(text).join(', '));
  return text === '' ? 'blank' : visible(text);
}
