/** A number that is kept in m or m² and shown in the reader's unit. */

import { NumberField } from './NumberField.tsx';

/** Of what is shown; what was typed is kept in full. */
const DIGITS = 4;

export function Scaled({
  label,
  of: { unit, size },
  value,
  above = false,
  blank = null,
  onChange,
}: {
  label: string;
  /** `size` is one of the unit in m or m² */
  of: { unit: string; size: number };
  value: number | null;
  above?: boolean;
  /** what a blank means, in words; null: a number is expected */
  blank?: string | null;
  onChange(value: number | null): void;
}) {
  return (
    <NumberField
      label={label}
      unit={unit}
      value={value === null ? null : Number((value / size).toPrecision(DIGITS))}
      least={above ? { above: 0 } : { from: 0 }}
      blank={blank}
      onChange={(x) => onChange(x === null ? null : x * size)}
    />
  );
}
