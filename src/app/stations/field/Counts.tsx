/**
 * One observer's counts: a tap says who found it and how many, and adds it. For more, a tap opens a tally that is counted up by ones and
 * fives, or typed, and added.
 */

import { useState } from 'react';
import { capital, terms } from '../../../../shared/glossary.ts';

/** One tap each. */
const COUNTS = [1, 2, 3, 4];
/** Where the tally begins. */
const MORE = COUNTS.length + 1;
const STEPS = [-1, 1, 5];

export function Counts({
  who,
  role,
  onCount,
}: {
  who: string;
  role: string;
  onCount(count: string): void;
}) {
  const [tally, setTally] = useState<string | null>(null);
  const title = `Add, found by ${who} (${role})`;
  if (tally !== null)
    return (
      <form
        className="log-counts"
        aria-label={title}
        onSubmit={(event) => {
          event.preventDefault();
          if (tally !== '') onCount(tally);
          setTally(null);
        }}
      >
        <input
          aria-label={`${capital(terms('mussel'))}, found by ${who}`}
          inputMode="numeric"
          autoComplete="off"
          value={tally}
          onChange={(event) => setTally(event.target.value.trim())}
        />
        {STEPS.map((step) => (
          <button
            key={step}
            type="button"
            aria-label={step < 0 ? `${-step} less` : `${step} more`}
            // what was pressed to come here is gone: keys go on with the next
            ref={step === 1 ? focusOnce : undefined}
            onClick={() => setTally(counted(tally, step))}
          >
            {step < 0 ? `−${-step}` : `+${step}`}
          </button>
        ))}
        <button type="submit">
          Add <small>{who}</small>
        </button>
      </form>
    );
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out in a row everywhere
    <div className="log-counts" role="group" aria-label={title}>
      <span>
        {who} <small>{role}</small>
      </span>
      {COUNTS.map((count) => (
        <button key={count} type="button" onClick={() => onCount(String(count))}>
          {count}
        </button>
      ))}
      <button type="button" aria-label={`${MORE} or more`} onClick={() => setTally(String(MORE))}>
        {MORE} …
      </button>
    </div>
  );
}

function focusOnce(button: HTMLButtonElement | null): void {
  button?.focus({ preventScroll: true });
}

/** Below the first of the tally there is the row of single taps: null. What is no number begins anew. */
export function counted(tally: string, by: number): string | null {
  const now = /^\d+$/.test(tally) ? Number(tally) : MORE - by;
  const next = now + by;
  return next < MORE ? null : String(next);
}
