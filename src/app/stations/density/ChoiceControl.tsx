/** One choice of the analysis: its control, what it means, its default, and the way back to it. */

import { useEffect, useId, useState } from 'react';
import type { Choice } from '../../../../shared/analysis.ts';
import { type ChoiceValue, isSame } from '../../../../shared/choice-values.ts';
import { capital } from '../../../../shared/glossary.ts';
import {
  choiceName,
  choiceOf,
  defaultOf,
  unitOf,
  valueGloss,
  valueWords,
} from '../../../present/choices.ts';
import { rangeWords, readLimits, readNumber } from './typed-number.ts';

export function ChoiceControl({
  path,
  value,
  idle,
  onChange,
}: {
  path: string;
  value: ChoiceValue;
  /** why the choice plays no part now; null when it does */
  idle: string | null;
  /** text as in an edit of analysis.json; blank = back to the default */
  onChange(text: string): void;
}) {
  const id = useId();
  const choice = choiceOf(path);
  const standard = defaultOf(path);
  const changed = !isSame(value, standard);
  const meaning = valueGloss(path, value);
  const shared = { id, choice, value, onChange, describedBy: `${id}m`, disabled: idle !== null };
  return (
    <div className={changed ? 'choice choice-changed' : 'choice'}>
      <div className="choice-line">
        <label htmlFor={id}>{choiceName(path)}</label>
        {choice.type === 'flag' && <Flag {...shared} />}
        {choice.type === 'choice' && <Listed {...shared} path={path} />}
        {(choice.type === 'number' || choice.type === 'whole' || choice.type === 'limits') && (
          <NumberField key={String(value)} {...shared} unit={unitOf(path)} />
        )}
      </div>
      <p id={`${id}m`} className="choice-meaning">
        {choice.meaning} {meaning !== null && `${capital(valueWords(path, value))}: ${meaning}. `}
        {idle !== null && `Now idle: ${idle}. `}
        {changed ? (
          <>
            Default: {valueWords(path, standard)}.{' '}
            <button type="button" className="link" onClick={() => onChange('')}>
              Back to the default<span className="visually-hidden"> of {choiceName(path)}</span>
            </button>
          </>
        ) : (
          'This is the default.'
        )}
      </p>
    </div>
  );
}

interface ControlProps {
  id: string;
  choice: Choice;
  value: ChoiceValue;
  onChange(text: string): void;
  describedBy: string;
  disabled: boolean;
}

function Flag({ id, value, onChange, describedBy, disabled }: ControlProps) {
  return (
    <input
      id={id}
      type="checkbox"
      checked={value === true}
      disabled={disabled}
      aria-describedby={describedBy}
      onChange={(event) => onChange(String(event.target.checked))}
    />
  );
}

function Listed({
  id,
  path,
  choice,
  value,
  onChange,
  describedBy,
  disabled,
}: ControlProps & { path: string }) {
  return (
    <select
      id={id}
      className="field"
      value={String(value)}
      disabled={disabled}
      aria-describedby={describedBy}
      onChange={(event) => onChange(event.target.value)}
    >
      {(choice.choices ?? []).map((option) => (
        <option key={String(option)} value={String(option)}>
          {valueWords(path, option)}
        </option>
      ))}
    </select>
  );
}

/** Takes effect on Enter or when left; what is off the limits is told and not taken. Blank = null, where that is allowed. */
function NumberField({
  id,
  choice,
  unit,
  value,
  onChange,
  describedBy,
  disabled,
}: ControlProps & { unit: string | null }) {
  const shown = value === null ? '' : Array.isArray(value) ? value.join(', ') : String(value);
  const [typed, setTyped] = useState(shown);
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => setTyped(shown), [shown]);
  const commit = () => {
    if (typed.trim() === shown) {
      setProblem(null);
      return;
    }
    if (typed.trim() === '' && choice.nullMeans !== undefined) {
      onChange('null');
      return;
    }
    const read = choice.type === 'limits' ? readLimits(choice, typed) : readNumber(choice, typed);
    setProblem(read.ok ? null : read.problem);
    if (read.ok) onChange(read.text);
  };
  return (
    <span className="choice-number">
      <input
        id={id}
        className="field"
        type="text"
        inputMode="decimal"
        autoComplete="off"
        value={typed}
        placeholder={choice.nullMeans}
        disabled={disabled}
        aria-describedby={`${describedBy} ${id}p`}
        aria-invalid={problem !== null}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === 'Enter') commit();
        }}
      />
      {unit !== null && <span className="quiet small"> {unit}</span>}
      <span id={`${id}p`} role="status" className="choice-problem">
        {problem ?? ''}
      </span>
      <span className="visually-hidden">{rangeWords(choice)}</span>
    </span>
  );
}
