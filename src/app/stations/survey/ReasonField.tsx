/** Why something is changed: asked with every change, kept beside it. */

import { useId, useMemo } from 'react';
import { term } from '../../../../shared/glossary.ts';
import type { Edit } from '../../contract.ts';
import { useApp } from '../../state/app-context.tsx';

/** Offered, not imposed. */
const REASONS = [
  'typing error, checked on the sheet',
  `${term('observer')} asked`,
  'unit or decimal point mistaken',
  'written down twice',
  'on the sheet, not typed in',
];
export const REASON_WANTED = 'A reason is kept with every change: say in a few words why.';

export function ReasonField({
  value,
  wanting,
  onChange,
}: {
  value: string;
  /** what is still missing, in a sentence; null = nothing */
  wanting: string | null;
  onChange(value: string): void;
}) {
  const id = useId();
  const edits = useApp().state.work?.edits;
  const offered = useMemo(() => reasonsOffered(edits ?? []), [edits]);
  return (
    <>
      <label htmlFor={id}>Reason</label>
      <input
        id={id}
        className="field"
        value={value}
        list={`${id}-reasons`}
        aria-describedby={wanting === null ? undefined : `${id}-wanting`}
        onChange={(event) => onChange(event.target.value)}
      />
      <datalist id={`${id}-reasons`}>
        {offered.map((text) => (
          <option key={text} value={text} />
        ))}
      </datalist>
      {wanting !== null && (
        <p id={`${id}-wanting`} className="small caution" role="alert">
          {wanting}
        </p>
      )}
    </>
  );
}

/** Those given for earlier corrections of this survey, the latest first; then the usual ones. Each once. */
export function reasonsOffered(edits: readonly Pick<Edit, 'row' | 'reason'>[]): string[] {
  const given = edits.filter(({ row }) => row !== null).map(({ reason }) => reason);
  return [...new Set([...given.reverse(), ...REASONS])];
}
