/** Begins a survey that is typed in here, under the lake's name. */

import { type FormEvent, useId, useState } from 'react';
import { useApp } from '../state/app-context.tsx';

export function NewSurvey() {
  const { actions } = useApp();
  const id = useId();
  const [asked, setAsked] = useState(false);
  const [lake, setLake] = useState('');
  if (!asked)
    return (
      <button type="button" className="button" onClick={() => setAsked(true)}>
        Begin a new survey
      </button>
    );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (lake.trim() !== '') actions.begin(lake);
  };
  return (
    <form className="new-survey" onSubmit={submit}>
      <label htmlFor={id}>Name of the lake, and the year if there are several surveys</label>
      <span className="new-survey-line">
        <input
          id={id}
          className="field"
          value={lake}
          maxLength={200}
          autoComplete="off"
          // biome-ignore lint/a11y/noAutofocus: the field replaces the button that was pressed
          autoFocus
          onChange={(event) => setLake(event.target.value)}
        />
        <button type="submit" className="button primary" disabled={lake.trim() === ''}>
          Begin
        </button>
      </span>
      <button
        type="button"
        className="button"
        disabled={lake.trim() === ''}
        onClick={() => {
          actions.openLog();
          actions.begin(lake);
        }}
      >
        Begin in the Field log, on a phone in the boat
      </button>
      <span className="small quiet">
        Three empty tables to type the sheets into; the lake’s maps can be dropped on the page. A
        survey begun under this name before is opened again.
      </span>
    </form>
  );
}
