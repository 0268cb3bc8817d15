/** What was changed, why, and the way back. */

import type { Edit } from '../../contract.ts';
import { useApp } from '../../state/app-context.tsx';
import { editWords } from '../../state/reducer.ts';

export function ChangeList() {
  const { state, actions } = useApp();
  const edits = state.work?.edits ?? [];
  if (edits.length === 0 && state.undone.length === 0) return null;
  return (
    <section aria-labelledby="changes-title">
      <h2 id="changes-title">Changes</h2>
      <p className="change-buttons">
        <button
          type="button"
          className="button small"
          disabled={edits.length === 0}
          onClick={actions.undo}
        >
          Undo
        </button>
        <button
          type="button"
          className="button small"
          disabled={state.undone.length === 0}
          onClick={actions.redo}
        >
          Redo
        </button>
      </p>
      <ol className="plain-list changes">
        {numbered(edits).map(({ edit, number }) => (
          <li key={number}>
            <span>{editWords(edit)}</span>
            <span className="small quiet">
              {edit.reason} · {new Date(edit.at).toLocaleString()}
            </span>
          </li>
        ))}
      </ol>
      <p className="small quiet">
        The files that you opened stay as they are; the saved zip holds the changed tables and
        changes.csv with every old value and reason.
      </p>
    </section>
  );
}

/** The latest first; a change keeps its number. */
function numbered(edits: readonly Edit[]): { edit: Edit; number: number }[] {
  return edits.map((edit, number) => ({ edit, number })).reverse();
}
