/** A number that is typed, with its unit; what is no number is told, and changes nothing. */

import { useId, useState } from 'react';

export function NumberField({
  label,
  unit,
  value,
  least,
  blank = null,
  onChange,
}: {
  label: string;
  unit: string;
  /** null: blank */
  value: number | null;
  /** values from here on are taken; "above" where the limit itself is not */
  least: { above: number } | { from: number };
  /** what a blank means, in words; null: a number is expected */
  blank?: string | null;
  onChange(value: number | null): void;
}) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const text = typed ?? (value === null ? '' : String(value));
  const problem = problemOf(text, least, blank !== null);
  return (
    <div className="area-number no-print">
      <label htmlFor={id}>{label}</label>
      <span>
        <input
          id={id}
          className="field"
          inputMode="decimal"
          autoComplete="off"
          value={text}
          placeholder={blank ?? undefined}
          aria-invalid={problem !== null}
          aria-describedby={problem === null ? undefined : `${id}p`}
          onChange={(e) => {
            const now = e.target.value;
            setTyped(now);
            if (problemOf(now, least, blank !== null) === null)
              onChange(now.trim() === '' ? null : Number(now));
          }}
          onBlur={() => setTyped(null)}
        />{' '}
        {unit}
      </span>
      {problem !== null && (
        <p id={`${id}p`} role="alert" className="small area-problem">
          {problem}
        </p>
      )}
    </div>
  );
}

/** A decimal comma is not guessed at. */
function problemOf(
  typed: string,
  least: { above: number } | { from: number },
  blankAllowed: boolean,
): string | null {
  const text = typed.trim();
  if (text === '') return blankAllowed ? null : 'A number is expected.';
  if (!/^-?(\d+\.?\d*|\.\d+)$/.test(text)) return `"${text}" is not a number.`;
  const value = Number(text);
  if ('above' in least) return value > least.above ? null : `Above ${least.above} expected.`;
  return value >= least.from ? null : `${least.from} or more expected.`;
}
