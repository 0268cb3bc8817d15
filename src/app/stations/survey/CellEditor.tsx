/** A value to be corrected, with the reason that is kept beside it. */

import { type FormEvent, useEffect, useId, useRef, useState } from 'react';
import { CHOICES } from '../../../../shared/analysis.ts';
import type { Edit } from '../../contract.ts';
import { useApp } from '../../state/app-context.tsx';
import { currentValue, WHOLE_ROW } from '../../state/edits.ts';
import { carrying, carryingTold } from '../../state/label-edits.ts';
import { columnOf, valuesOf } from './columns.ts';
import { PickList } from './PickList.tsx';
import { REASON_WANTED, ReasonField } from './ReasonField.tsx';

export function CellEditor({
  place,
  onDone,
}: {
  place: Pick<Edit, 'file' | 'row' | 'column'>;
  onDone: () => void;
}) {
  const { state, actions } = useApp();
  const id = useId();
  const first = useRef<HTMLInputElement>(null);
  const before = state.work === null ? '' : valueOrBlank(() => currentValue(state.work!, place));
  const [value, setValue] = useState(before);
  const [reason, setReason] = useState('');
  const [wanting, setWanting] = useState<string | null>(null);

  useEffect(() => {
    first.current?.focus({ preventScroll: true });
    first.current?.select();
    first.current?.form?.scrollIntoView({ block: 'nearest' });
  }, []);

  const followers = state.work === null ? [] : carrying(state.work.files, place);
  const told = carryingTold(followers);
  const keep = (column: string, after: string) => {
    if (reason.trim() === '') {
      setWanting(REASON_WANTED);
      return;
    }
    const change = { ...place, column, after, reason: reason.trim() };
    const along = column === place.column && after.trim() !== '' ? followers : [];
    if (along.length === 0) actions.edit(change);
    else actions.enter([change, ...along.map((one) => ({ ...change, ...one }))]);
    onDone();
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (value === before) setWanting('This is the value that stands there.');
    else keep(place.column, value);
  };
  const values = state.judged === null ? null : valuesOf(place.file, place.column, state.judged);
  const where = place.row === null ? place.file : `${place.file} row ${place.row}`;
  return (
    <form
      className="cell-editor"
      aria-label={`Correct ${where}, ${place.column}`}
      onSubmit={submit}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        onDone();
      }}
    >
      <p className="small quiet">{meaningOf(place)}</p>
      {told !== null && (
        <p className="small quiet">Carried by {told}: they follow, and one undo takes all back.</p>
      )}
      <label htmlFor={`${id}-value`}>
        {place.row === null ? place.column : `Row ${place.row}, ${place.column}`}
      </label>
      <input
        ref={first}
        id={`${id}-value`}
        className="field"
        value={value}
        list={values?.closed === false ? `${id}-values` : undefined}
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => setValue(event.target.value)}
      />
      {values !== null && (
        <PickList id={`${id}-values`} values={values} chosen={value} onPick={setValue} />
      )}
      <ReasonField value={reason} wanting={wanting} onChange={setReason} />
      <p className="cell-editor-buttons">
        <button type="submit" className="button small primary">
          Keep the change
        </button>
        <button type="button" className="button small" onClick={onDone}>
          Cancel
        </button>
        {place.row !== null && place.row > 1 && (
          <button type="button" className="link small" onClick={() => keep(WHOLE_ROW, '')}>
            Leave this row out
          </button>
        )}
      </p>
    </form>
  );
}

function meaningOf({ file, column }: Pick<Edit, 'file' | 'column'>): string {
  const known = columnOf(file, column);
  if (known === undefined)
    return CHOICES.find((c) => c.path === column)?.meaning ?? 'A column of your own.';
  const blank = known.blankMeans === null ? '' : ` Blank: ${known.blankMeans}.`;
  return `${known.meaning}${blank} Example: ${known.example}`;
}

function valueOrBlank(read: () => string): string {
  try {
    return read();
  } catch {
    return ''; // a row that is no more; keeping a change then says so
  }
}
