/** A row that stands on the sheet and was not typed in: a value for each column, and the reason that is kept with it. */

import { type FormEvent, useEffect, useId, useRef, useState } from 'react';
import type { SheetView } from '../../contract.ts';
import { useApp } from '../../state/app-context.tsx';
import { nextRow, WHOLE_ROW } from '../../state/edits.ts';
import { columnOf } from './columns.ts';
import { REASON_WANTED, ReasonField } from './ReasonField.tsx';

export function RowEditor({
  sheet,
  onDone,
}: {
  sheet: SheetView;
  /** with the number of the row that was added; null when none was */
  onDone: (row: number | null) => void;
}) {
  const { state, actions } = useApp();
  const id = useId();
  const form = useRef<HTMLFormElement>(null);
  const [values, setValues] = useState(() =>
    sheet.header.map((name) =>
      name.toLowerCase() === 'transect' ? (state.focus.transect ?? '') : '',
    ),
  );
  const [reason, setReason] = useState('');
  const [wanting, setWanting] = useState<string | null>(null);

  useEffect(() => {
    form.current?.querySelector('input')?.focus({ preventScroll: true });
    form.current?.scrollIntoView({ block: 'nearest' });
  }, []);

  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (state.work === null) return;
    if (values.every((value) => value.trim() === '')) setWanting('The row is blank.');
    else if (reason.trim() === '') setWanting(REASON_WANTED);
    else {
      const row = nextRow(state.work, sheet.file);
      const after = JSON.stringify(values.map((value) => value.trim()));
      actions.edit({ file: sheet.file, row, column: WHOLE_ROW, after, reason: reason.trim() });
      onDone(row);
    }
  };
  return (
    <form
      ref={form}
      className="cell-editor row-editor"
      aria-label={`Add a row to ${sheet.file}`}
      onSubmit={submit}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        onDone(null);
      }}
    >
      <div className="row-editor-fields">
        {sheet.header.map((name, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: names may repeat, columns do not move
          <div key={i}>
            <label htmlFor={`${id}-${i}`}>{name}</label>
            <input
              id={`${id}-${i}`}
              className="field"
              value={values[i]}
              placeholder={columnOf(sheet.file, name)?.example.toString()}
              title={columnOf(sheet.file, name)?.meaning}
              autoComplete="off"
              spellCheck={false}
              onChange={(event) => setValues(values.with(i, event.target.value))}
            />
          </div>
        ))}
      </div>
      <ReasonField value={reason} wanting={wanting} onChange={setReason} />
      <p className="cell-editor-buttons">
        <button type="submit" className="button small primary">
          Add the row
        </button>
        <button type="button" className="button small" onClick={() => onDone(null)}>
          Cancel
        </button>
      </p>
    </form>
  );
}
