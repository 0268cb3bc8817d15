/** Controls for thumbs and wet hands: large, few, and each says what is wrong beside itself. */

import { type ReactNode, useId } from 'react';
import type { Finding } from '../../../../shared/findings.ts';
import type { LogRow } from '../../state/log-tables.ts';

/** What the rules say of a field or a row; nothing is held up by it. */
export function Told({ findings }: { findings: readonly Finding[] }) {
  if (findings.length === 0) return null;
  return (
    <ul className="plain-list log-told">
      {findings.map((f) => (
        <li key={`${f.code} ${f.column} ${f.message}`}>
          {f.column === null ? '' : `${f.column}: `}
          {f.message}
        </li>
      ))}
    </ul>
  );
}

/** A few words of which one is pressed, or several. */
export function Taps({
  name,
  options,
  isOn,
  onTap,
}: {
  name: string;
  options: readonly { value: string; text: string }[];
  isOn(value: string): boolean;
  onTap(value: string): void;
}) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out as a grid everywhere
    <div className="log-taps" role="group" aria-label={name}>
      {options.map(({ value, text }) => (
        <button key={value} type="button" aria-pressed={isOn(value)} onClick={() => onTap(value)}>
          {text}
        </button>
      ))}
    </div>
  );
}

/** A number with a step down and a step up; it can be typed as well. */
export function Stepper({
  label,
  unit,
  value,
  by,
  from = 0,
  quiet = false,
  onChange,
  children,
}: {
  label: string;
  unit: string | null;
  value: string;
  by: number;
  /** where stepping begins from a blank */
  from?: number;
  /** its label is not seen: there is no room */
  quiet?: boolean;
  onChange(value: string): void;
  children?: ReactNode;
}) {
  const id = useId();
  const step = (way: 1 | -1): void => onChange(stepped(value, way * by, from));
  return (
    <div className="log-stepper">
      <label htmlFor={id} className={quiet ? 'visually-hidden' : undefined}>
        {label}
        {unit === null ? '' : ` (${unit})`}
      </label>
      <div>
        <button type="button" aria-label={`${label}: ${by} less`} onClick={() => step(-1)}>
          −{by}
        </button>
        <input
          id={id}
          value={value}
          inputMode="decimal"
          autoComplete="off"
          onChange={(event) => onChange(event.target.value.replace(',', '.'))}
        />
        <button type="button" aria-label={`${label}: ${by} more`} onClick={() => step(1)}>
          +{by}
        </button>
      </div>
      {children}
    </div>
  );
}

/** Not below 0. Hundredths are the finest that is written. */
export function stepped(value: string, by: number, from: number): string {
  const now = value.trim() === '' || !Number.isFinite(Number(value)) ? null : Number(value);
  const next = now === null ? from : now + by;
  return String(Math.max(0, Math.round(next * 100) / 100));
}

/** A line of text, or some. */
export function TextField({
  label,
  value,
  onChange,
  kind = 'text',
  lines = 1,
  readOnly = false,
  children,
}: {
  label: string;
  value: string;
  onChange(value: string): void;
  kind?: 'text' | 'date' | 'decimal';
  lines?: number;
  readOnly?: boolean;
  children?: ReactNode;
}) {
  const id = useId();
  const change = (text: string): void =>
    onChange(kind === 'decimal' ? text.replace(',', '.') : text);
  return (
    <div className="log-text">
      <label htmlFor={id}>{label}</label>
      {lines > 1 ? (
        <textarea
          id={id}
          rows={lines}
          value={value}
          onChange={(event) => change(event.target.value.replace(/\s*\n\s*/g, ' '))}
        />
      ) : (
        <input
          id={id}
          type={kind === 'date' ? 'date' : 'text'}
          inputMode={kind === 'decimal' ? 'decimal' : undefined}
          autoComplete="off"
          spellCheck={false}
          readOnly={readOnly}
          value={value}
          onChange={(event) => change(event.target.value)}
        />
      )}
      {children}
    </div>
  );
}

/** What was entered, the latest first; a tap opens one to be corrected. */
export function Entries({
  name,
  empty,
  rows,
  chosen,
  words,
  told,
  onChoose,
}: {
  name: string;
  /** said where there is none; null = nothing is */
  empty: string | null;
  rows: readonly LogRow[];
  chosen: number | null;
  words(row: LogRow): string;
  told(row: number): readonly Finding[];
  onChoose(row: number): void;
}) {
  if (rows.length === 0) return empty === null ? null : <p className="log-hint">{empty}</p>;
  return (
    <ol className="plain-list log-entries" aria-label={name} reversed>
      {[...rows].reverse().map((row) => (
        <li key={row.row}>
          <button type="button" aria-pressed={row.row === chosen} onClick={() => onChoose(row.row)}>
            {words(row)}
          </button>
          <Told findings={told(row.row)} />
        </li>
      ))}
    </ol>
  );
}
