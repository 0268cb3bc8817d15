/** What was changed, why, and the way back. */

import type { Edit } from '../contract.ts';
import { useApp } from '../state/app-context.tsx';
import { editWords } from '../state/edit-words.ts';

/** `id` names the heading, which can be gone to. */
export function ChangeList({ id }: { id: string }) {
  const { state, actions } = useApp();
  const edits = state.work?.edits ?? [];
  if (edits.length === 0 && state.undone.length === 0) return null;
  return (
    <section className="change-list" aria-labelledby={id}>
      <h2 id={id} tabIndex={-1}>
        Changes
      </h2>
      <p className="change-buttons">
        <button
          type="button"
          className="button small"
          disabled={edits.length === 0}
          aria-keyshortcuts="Control+Z Meta+Z"
          title="Ctrl+Z"
          onClick={actions.undo}
        >
          Undo
        </button>
        <button
          type="button"
          className="button small"
          disabled={state.undone.length === 0}
          aria-keyshortcuts="Control+Shift+Z Meta+Shift+Z"
          title="Ctrl+Shift+Z"
          onClick={actions.redo}
        >
          Redo
        </button>
      </p>
      <ol className="plain-list changes" {...REACHABLE}>
        {numbered(edits).map(({ edit, number }) => (
          <Change key={number} edit={edit} />
        ))}
      </ol>
      <p className="small quiet">
        The files that you opened stay as they are; the saved zip holds the changed tables and
        changes.csv with every old value and reason.
      </p>
    </section>
  );
}

/** A long list scrolls within itself, by keyboard too. */
const REACHABLE = { tabIndex: 0 };

function Change({ edit }: { edit: Edit }) {
  const words = editWords(edit);
  const when = new Date(edit.at).toLocaleString();
  return (
    <li>
      <span>{words}</span>
      <span className="small quiet">
        {words.endsWith(edit.reason) ? when : `${edit.reason} · ${when}`}
      </span>
    </li>
  );
}

/** The latest first; a change keeps its number. */
function numbered(edits: readonly Edit[]): { edit: Edit; number: number }[] {
  return edits.map((edit, number) => ({ edit, number })).reverse();
}
