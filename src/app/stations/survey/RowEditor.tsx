/** A row that stands on the sheet and was not typed in: a value for each column, and the reason that is kept with it. */

import { type FormEvent, useEffect, useId, useRef, useState } from 'react';
import type { Edit, JudgedView, SheetView } from '../../contract.ts';
import { useApp } from '../../state/app-context.tsx';
import { nextRow, WHOLE_ROW } from '../../state/edits.ts';
import { columnOf, valuesOf } from './columns.ts';
import { ValueList } from './PickList.tsx';
import { REASON_WANTED, ReasonField } from './ReasonField.tsx';

export function RowEditor({
  sheet,
  judged,
  onDone,
}: {
  sheet: SheetView;
  judged: JudgedView;
  /** with the number of the row that was added; null when none was */
  onDone: (row: number | null) => void;
}) {
  const { state, actions } = useApp();
  const id = useId();
  const form = useRef<HTMLFormElement>(null);
  const isTransect = (name: string) => name.toLowerCase() === 'transect';
  const [values, setValues] = useState(() =>
    sheet.header.map((name) => (isTransect(name) ? (state.focus.transect ?? '') : '')),
  );
  // rows are typed in one after the other, for one reason
  const [reason, setReason] = useState(() => lastReason(state.work?.edits ?? []));
  const [wanting, setWanting] = useState<string | null>(null);

  useEffect(() => {
    form.current?.querySelector('input')?.focus({ preventScroll: true });
    form.current?.scrollIntoView({ block: 'nearest' });
  }, []);

  const add = (another: boolean) => {
    if (state.work === null) return;
    if (values.every((value) => value.trim() === '')) setWanting('The row is blank.');
    else if (reason.trim() === '') setWanting(REASON_WANTED);
    else {
      const row = nextRow(state.work, sheet.file);
      const after = JSON.stringify(values.map((value) => value.trim()));
      actions.edit({ file: sheet.file, row, column: WHOLE_ROW, after, reason: reason.trim() });
      if (!another) {
        onDone(row);
        return;
      }
      setWanting(null);
      setValues(values.map((value, i) => (isTransect(sheet.header[i] ?? '') ? value : '')));
      form.current?.querySelector('input')?.focus({ preventScroll: true });
    }
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    add(false);
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
          <Field
            // biome-ignore lint/suspicious/noArrayIndexKey: names may repeat, columns do not move
            key={i}
            id={`${id}-${i}`}
            file={sheet.file}
            name={name}
            judged={judged}
            value={values[i] ?? ''}
            onChange={(value) => setValues(values.with(i, value))}
          />
        ))}
      </div>
      <ReasonField value={reason} wanting={wanting} onChange={setReason} />
      <p className="cell-editor-buttons">
        <button type="submit" className="button small primary">
          Add the row
        </button>
        <button type="button" className="button small" onClick={() => add(true)}>
          Add, then another
        </button>
        <button type="button" className="button small" onClick={() => onDone(null)}>
          Cancel
        </button>
      </p>
    </form>
  );
}

function Field({
  id,
  file,
  name,
  judged,
  value,
  onChange,
}: {
  id: string;
  file: string;
  name: string;
  judged: JudgedView;
  value: string;
  onChange(value: string): void;
}) {
  const column = columnOf(file, name);
  const allowed = valuesOf(file, name, judged);
  return (
    <div>
      <label htmlFor={id}>{name}</label>
      <input
        id={id}
        className="field"
        value={value}
        placeholder={column?.example}
        title={column?.meaning}
        list={allowed === null ? undefined : `${id}-values`}
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => onChange(event.target.value)}
      />
      {allowed !== null && <ValueList id={`${id}-values`} list={allowed.list} />}
    </div>
  );
}

/** Why the last row was added; blank before the first. */
function lastReason(edits: readonly Edit[]): string {
  return edits.findLast((e) => e.column === WHOLE_ROW && e.before === '')?.reason ?? '';
}
