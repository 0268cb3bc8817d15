/** What was changed, why, and the way back. */

import { useId } from 'react';
import type { Change as Kept } from '../../../shared/history.ts';
import { LONGEST_LABEL } from '../../../shared/tables.ts';
import type { Edit } from '../contract.ts';
import { useApp } from '../state/app-context.tsx';
import { editWords } from '../state/edit-words.ts';

/** `id` names the heading, which can be gone to. */
export function ChangeList({ id }: { id: string }) {
  const { state, actions } = useApp();
  const edits = state.work?.edits ?? [];
  const past = state.judged?.past ?? NO_PAST;
  if (edits.length === 0 && state.undone.length === 0 && past.count === 0) return null;
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
      <WhoField />
      <ol className="plain-list changes" {...REACHABLE}>
        {numbered(edits).map(({ edit, number }) => (
          <Change key={number} edit={edit} />
        ))}
      </ol>
      {past.count > 0 && <Past count={past.count} last={past.last} />}
      <p className="small quiet">
        The files that you opened stay as they are; the saved zip holds the changed tables and
        history.csv with every old value, who changed it and why.
      </p>
    </section>
  );
}

const NO_PAST = { count: 0, last: [] };

/** Asked once and kept in this browser; a history says more with a name in it. */
function WhoField() {
  const { state, actions } = useApp();
  const id = useId();
  return (
    <p className="change-who small">
      <label htmlFor={id}>Your name, kept with each change (may stay blank)</label>
      <input
        id={id}
        className="field"
        value={state.who}
        maxLength={LONGEST_LABEL}
        autoComplete="name"
        spellCheck={false}
        onChange={(event) => actions.setWho(event.target.value)}
      />
    </p>
  );
}

/** What the survey brought along in its history.csv; it cannot be taken back here, but corrected like any cell. */
function Past({ count, last }: { count: number; last: readonly Kept[] }) {
  const shown = numbered(last);
  return (
    <details className="small changes-past">
      <summary>Before it was opened here: {count === 1 ? '1 change' : `${count} changes`}</summary>
      <ol className="plain-list changes" {...REACHABLE}>
        {shown.map(({ edit: { when, who, table, row, column, old, new: after, why }, number }) => (
          <Change
            key={number}
            edit={{ file: table, row, column, before: old, after, reason: why, at: when, who }}
          />
        ))}
      </ol>
      {count > shown.length && <p className="quiet">The others stand in history.csv.</p>}
    </details>
  );
}

/** A long list scrolls within itself, by keyboard too. */
const REACHABLE = { tabIndex: 0 };

function Change({ edit }: { edit: Edit }) {
  const words = editWords(edit);
  const day = new Date(edit.at).toLocaleString();
  const when = edit.who ? `${edit.who}, ${day}` : day;
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
function numbered<T>(edits: readonly T[]): { edit: T; number: number }[] {
  return edits.map((edit, number) => ({ edit, number })).reverse();
}
