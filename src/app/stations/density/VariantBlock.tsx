/** One of the analyses that stand side by side: its total on the common axis, what it rests on, and what can be done with it. */

import { useId, useState } from 'react';
import { term } from '../../../../shared/glossary.ts';
import { LONGEST_NAME } from '../../../../shared/variants.ts';
import { NONE } from '../../../present/quantity.ts';
import type { VariantLine } from '../../../present/variants.ts';

interface Doing {
  /** missing for choices that are kept under no name */
  onAdopt?(): void;
  onRename?(name: string): void;
  onRemove?(): void;
  /** why it cannot be called so; null when it can */
  problemOf?(name: string): string | null;
}

export function VariantBlock({
  line,
  axis,
  ...doing
}: {
  line: VariantLine;
  /** the bar's end, the same for all; null = nothing is drawn */
  axis: number | null;
} & Doing) {
  const { name, isAnalysis, choices, remark, delta, change, checks, model } = line;
  const against = delta === NONE ? NONE : `${delta} against the analysis`;
  const facts: [string, string][] = [
    ['Model', model],
    ...(isAnalysis ? [] : [[term('deltaAicc'), against] as [string, string]]),
    ['Checks', checks],
  ];
  return (
    <li className={isAnalysis ? 'variant the-analysis' : 'variant'}>
      <h3>
        {name}
        {isAnalysis && <span className="quiet"> · the analysis</span>}
      </h3>
      <p className="variant-total">
        <b>{line.total}</b>
        {line.interval !== NONE && (
          <>
            {' '}
            <span className="quiet">
              {line.ciName} {line.interval}
            </span>
          </>
        )}
        {change !== NONE && <span className="variant-change">{change}</span>}
      </p>
      {axis !== null && <Bar value={line.value} axis={axis} />}
      {choices !== null && <p className="small">Otherwise: {choices}</p>}
      {remark !== null && <p className="small variant-remark">{remark}</p>}
      <dl className="variant-facts">
        {facts.map(([fact, value]) => (
          <div key={fact}>
            <dt>{fact}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <Buttons name={name} isAnalysis={isAnalysis} {...doing} />
    </li>
  );
}

/** Estimate and interval from 0 to the end that all share. Said in words above. */
function Bar({ value, axis }: { value: VariantLine['value']; axis: number }) {
  if (value === null) return null;
  const x = (total: number): string => `${(100 * Math.min(1, total / axis)).toFixed(2)}%`;
  const { estimate, lower, upper } = value;
  return (
    <svg className="variant-bar" width="100%" height="14" aria-hidden="true">
      <line x1="0" x2="100%" y1="7" y2="7" className="variant-axis" />
      {upper !== null && (
        <line x1={x(lower ?? 0)} x2={x(upper)} y1="7" y2="7" className="variant-interval" />
      )}
      <circle cx={x(estimate)} cy="7" r="5" className="variant-dot" />
    </svg>
  );
}

function Buttons({
  name,
  isAnalysis,
  onAdopt,
  onRename,
  onRemove,
  problemOf,
}: Doing & { name: string; isAnalysis: boolean }) {
  const [renaming, setRenaming] = useState(false);
  if (onAdopt === undefined || onRename === undefined || onRemove === undefined) return null;
  const of = <span className="visually-hidden"> {name}</span>;
  if (renaming)
    return (
      <Rename
        name={name}
        problemOf={problemOf ?? (() => null)}
        onDone={(to) => {
          setRenaming(false);
          if (to !== null) onRename(to);
        }}
      />
    );
  return (
    <p className="variant-buttons no-print">
      {!isAnalysis && (
        <button type="button" className="button small" onClick={onAdopt}>
          Make it the analysis{of}
        </button>
      )}
      <button type="button" className="button small" onClick={() => setRenaming(true)}>
        Rename{of}
      </button>
      <button type="button" className="button small" onClick={onRemove}>
        Remove{of}
      </button>
    </p>
  );
}

/** Escape leaves the name as it was. */
function Rename({
  name,
  problemOf,
  onDone,
}: {
  name: string;
  problemOf(name: string): string | null;
  onDone(to: string | null): void;
}) {
  const id = useId();
  const [typed, setTyped] = useState(name);
  const to = typed.trim();
  const problem = problemOf(to);
  return (
    <form
      className="variant-keep"
      onSubmit={(event) => {
        event.preventDefault();
        if (to !== '' && problem === null) onDone(to === name ? null : to);
      }}
    >
      <label htmlFor={id}>New name of {name}</label>
      <span className="variant-name-line">
        <input
          id={id}
          className="field"
          value={typed}
          maxLength={LONGEST_NAME}
          autoComplete="off"
          // biome-ignore lint/a11y/noAutofocus: the form opens where the button was pressed
          autoFocus
          aria-invalid={problem !== null}
          aria-describedby={`${id}p`}
          onChange={(event) => setTyped(event.target.value)}
          onKeyDown={(event) => {
            if (event.key !== 'Escape') return;
            event.stopPropagation();
            onDone(null);
          }}
        />
        <button type="submit" className="button small" disabled={to === '' || problem !== null}>
          Rename
        </button>
        <button type="button" className="button small" onClick={() => onDone(null)}>
          Cancel
        </button>
      </span>
      <span id={`${id}p`} role="status" className="small variant-remark">
        {problem ?? ''}
      </span>
    </form>
  );
}
