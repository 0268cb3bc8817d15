/** The depths at which dives begin, as a list in the reader's unit; kept in metres. */

import { useId, useState } from 'react';
import { depthsIn, depthsTyped, type LengthUnit } from './length-unit.ts';

export function StartDepths({
  unit,
  value,
  onChange,
}: {
  unit: LengthUnit;
  /** m; null or none: as usual */
  value: readonly number[] | null;
  /** null: the list was emptied */
  onChange(depthsM: number[] | null): void;
}) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const text = typed ?? depthsIn(value ?? [], unit);
  return (
    <div className="plan-line">
      <label htmlFor={id}>Begin at these depths, {unit.unit}</label>
      <input
        id={id}
        className="field"
        inputMode="decimal"
        aria-invalid={depthsTyped(text, unit) === 'wrong'}
        value={text}
        onChange={(e) => {
          setTyped(e.target.value);
          const depthsM = depthsTyped(e.target.value, unit);
          if (depthsM !== 'wrong') onChange(depthsM);
        }}
      />
    </div>
  );
}
