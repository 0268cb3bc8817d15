/** Least, likely and most of one thing, side by side; what is no number is told, and changes nothing. */

import { useId, useState } from 'react';
import type { Three } from '../../state/stated-fields.ts';

const NAMES = ['least', 'likely', 'most'] as const;

export function RangeField({
  label,
  value,
  onChange,
}: {
  label: string;
  value: Three;
  onChange(value: Three): void;
}) {
  const id = useId();
  return (
    // biome-ignore lint/a11y/useSemanticElements: a row of a grid, which a fieldset cannot be
    <div className="range-row" role="group" aria-labelledby={id}>
      <span id={id}>{label}</span>
      {NAMES.map((name, i) => (
        <Part
          key={name}
          name={`${label}, ${name}`}
          value={value[i] ?? null}
          onChange={(x) => {
            const own: Three = [...value];
            own[i] = x;
            onChange(own);
          }}
        />
      ))}
    </div>
  );
}

function Part({
  name,
  value,
  onChange,
}: {
  name: string;
  value: number | null;
  onChange(value: number | null): void;
}) {
  const [typed, setTyped] = useState<string | null>(null);
  const text = typed ?? (value === null ? '' : String(value));
  return (
    <input
      className="field"
      aria-label={name}
      inputMode="decimal"
      autoComplete="off"
      value={text}
      aria-invalid={!isSound(text)}
      onChange={(e) => {
        const now = e.target.value;
        setTyped(now);
        if (isSound(now)) onChange(now.trim() === '' ? null : Number(now));
      }}
      onBlur={() => isSound(text) && setTyped(null)}
    />
  );
}

/** Blank, or a number above 0; a decimal comma is not guessed at. */
function isSound(typed: string): boolean {
  const text = typed.trim();
  return text === '' || (/^(\d+\.?\d*|\.\d+)$/.test(text) && Number(text) > 0);
}

/** What stands above rows of them. */
export function RangeHead({ of }: { of: string }) {
  return (
    <div className="range-row range-head" aria-hidden="true">
      <span>{of}</span>
      {NAMES.map((name) => (
        <span key={name}>{name}</span>
      ))}
    </div>
  );
}
