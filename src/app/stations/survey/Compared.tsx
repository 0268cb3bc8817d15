/** What differs between this survey and another copy of it, side by side, taken or kept by a press. Loaded when a copy was chosen. */

import { type FormEvent, useEffect, useId, useState } from 'react';
import type { Difference, Differences } from '../../../../shared/differences.ts';
import { WHOLE_ROW } from '../../../../shared/repairs.ts';
import { differencesSentence, differenceWords } from '../../../present/differences.ts';
import type { JudgedView } from '../../contract.ts';
import { useApp } from '../../state/app-context.tsx';
import type { OtherCopy } from '../../state/other-copy.ts';
import {
  type Choice,
  editFor,
  editsForAll,
  isResolved,
  laterChanges,
  type Names,
} from '../../state/resolutions.ts';

/** So many are shown at first. */
const SHOWN = 50;

export function Compared({
  judged,
  other,
  onLeft,
}: {
  judged: JudgedView;
  other: OtherCopy;
  onLeft(copy: OtherCopy): void;
}) {
  const { state, actions, core } = useApp();
  const { work, who } = state;
  const [found, setFound] = useState<Differences | null>(null);
  const [all, setAll] = useState(false);
  useEffect(() => {
    if (work === null) return;
    let current = true;
    void core
      .differences(work.files, laterChanges(work.edits), other.files)
      .then((differences) => current && setFound(differences));
    return () => {
      current = false;
    };
  }, [work, other, core]);
  if (work === null || found === null) return <p className="quiet">Comparing …</p>;
  const names = namesOf(found, other, who);
  const open = found.differences.filter(
    (d) => !isResolved(d, work.edits, names) && !other.left.has(keyOf(d)),
  );
  const theirs = open.filter(({ changedBy }) => changedBy === 'there');
  const ours = open.filter(({ changedBy }) => changedBy === 'here');
  const asked = open.filter(({ changedBy }) => changedBy === null);
  const shown = all ? asked : asked.slice(0, SHOWN);
  const decide = (d: Difference, choice: Choice): void => {
    const edit = editFor(work, judged.sheets, d, choice, names);
    if (edit === null) onLeft({ ...other, left: new Set([...other.left, keyOf(d)]) });
    else actions.repair([edit]);
  };
  return (
    <>
      <p>{differencesSentence(found)}</p>
      {theirs.length > 0 && (
        <>
          <p>
            <button
              type="button"
              className="button small"
              onClick={() => actions.repair(editsForAll(work, judged.sheets, theirs, names))}
            >
              Take all {theirs.length} changed in {names.there} alone
            </button>
          </p>
          <Listed differences={theirs} names={names} />
        </>
      )}
      {ours.length > 0 && (
        <details className="small">
          <summary>
            {ours.length} changed in {names.here} alone: they stay
          </summary>
          <Listed differences={ours} names={names} />
        </details>
      )}
      {open.length === 0 && found.differences.length > 0 && <p>All of them are decided.</p>}
      <ul className="plain-list differences">
        {shown.map((d) => (
          <Asked key={keyOf(d)} d={d} names={names} onDecide={decide} />
        ))}
      </ul>
      {asked.length > shown.length && (
        <button type="button" className="link" onClick={() => setAll(true)}>
          Show all {asked.length}
        </button>
      )}
    </>
  );
}

function Listed({ differences, names }: { differences: readonly Difference[]; names: Names }) {
  return (
    <ul className="plain-list small">
      {differences.slice(0, SHOWN).map((d) => {
        const { place, here, there } = differenceWords(d, names);
        return (
          <li key={keyOf(d)}>
            {place}: {here} here, {there} there
          </li>
        );
      })}
    </ul>
  );
}

function Asked({
  d,
  names,
  onDecide,
}: {
  d: Difference;
  names: Names;
  onDecide(d: Difference, choice: Choice): void;
}) {
  const { place, here, there } = differenceWords(d, names);
  return (
    <li className="difference">
      <b>{place}</b>
      <span className="difference-sides">
        <Side value={here} of={names.here} onTake={() => onDecide(d, 'here')} />
        <Side value={there} of={names.there} onTake={() => onDecide(d, 'there')} />
      </span>
      {d.column !== WHOLE_ROW && <Typed onTyped={(typed) => onDecide(d, { typed })} />}
    </li>
  );
}

function Side({ value, of, onTake }: { value: string; of: string; onTake(): void }) {
  return (
    <button type="button" className="button small" onClick={onTake}>
      {value}
      <span className="quiet"> in {of}</span>
    </button>
  );
}

function Typed({ onTyped }: { onTyped(value: string): void }) {
  const id = useId();
  const [value, setValue] = useState('');
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    onTyped(value.trim());
  };
  return (
    <details className="small">
      <summary>Neither</summary>
      <form className="difference-typed" onSubmit={submit}>
        <label htmlFor={id}>Another value</label>
        <input
          id={id}
          className="field"
          value={value}
          autoComplete="off"
          onChange={(event) => setValue(event.target.value)}
        />
        <button type="submit" className="button small">
          Keep this value
        </button>
      </form>
    </details>
  );
}

function namesOf({ by }: Differences, other: OtherCopy, who: string): Names {
  const named = (copy: string, person: string) => (person === '' ? copy : `${copy} (${person})`);
  return { here: named('this copy', who || by.here), there: named(other.name, by.there) };
}

function keyOf({ table, here, there, column }: Difference): string {
  return `${table} ${here} ${there} ${column}`;
}
