/** The pieces that every station is made of: the sentence, figures with their alternative, tables, cautions. */

import { Fragment, type ReactNode, useId, useRef } from 'react';
import type { UnitSystem } from '../../../shared/units.ts';
import type { Units } from '../contract.ts';
import { SaveFigure } from './SaveFigure.tsx';
import { keptTogether } from './words.ts';

export { type DataColumn, DataTable, TableScroll } from './DataTable.tsx';

/** A station's opening sentence, in the serif; put its numbers in <b>, or let <Said> do it. */
export function Sentence({ children }: { children: ReactNode }) {
  return <h1 className="sentence">{children}</h1>;
}

/** What follows the sentence, in a quieter tone. */
export function Lead({ children }: { children: ReactNode }) {
  return <p className="lead">{children}</p>;
}

/** Text as it is, its numbers in bold (percentages of an interval stay plain); a number and its unit stay on one line. */
export function Said({ text }: { text: string }) {
  return keptTogether(text)
    .split(/(\d(?:[\d,.]*\d)?(?![\d,.]*\s%))/)
    .map((part, i) =>
      // biome-ignore lint/suspicious/noArrayIndexKey: the parts of one fixed text
      i % 2 === 1 ? <b key={i}>{part}</b> : <Fragment key={i}>{part}</Fragment>,
    );
}

/** Something to mind before the number is used. */
export function Caution({ children }: { children: ReactNode }) {
  return (
    <div className="caution" role="note">
      {children}
    </div>
  );
}

/**
 * A picture with its title. `alt` says in a sentence what the picture shows; `table` holds the same in numbers.
 * A picture with controls of its own (a slider, buttons) passes `interactive`, and names its parts itself.
 */
export function Figure({
  title,
  alt,
  children,
  note,
  table,
  interactive = false,
}: {
  title: ReactNode;
  /** null where a picture with controls of its own says it itself */
  alt: string | null;
  children: ReactNode;
  note?: ReactNode;
  table?: ReactNode;
  interactive?: boolean;
}) {
  const id = useId();
  const figure = useRef<HTMLElement>(null);
  const body = useRef<HTMLDivElement>(null);
  return (
    <figure ref={figure} className="figure" aria-labelledby={id}>
      <figcaption id={id} className="figure-title">
        {title}
      </figcaption>
      {interactive ? (
        <>
          {alt !== null && <p className="visually-hidden">{alt}</p>}
          <div ref={body}>{children}</div>
        </>
      ) : (
        <div ref={body} role="img" aria-label={alt ?? undefined}>
          {children}
        </div>
      )}
      {note !== undefined && <p className="small quiet figure-note">{note}</p>}
      {table !== undefined && (
        <details>
          <summary>The same in numbers</summary>
          {table}
        </details>
      )}
      <SaveFigure figure={figure} body={body} />
    </figure>
  );
}

/** The page's switch in the words of shared/units.ts. */
export function unitSystem(units: Units): UnitSystem {
  return units === 'us' ? 'imperial' : 'metric';
}

/** A row of buttons of which one is pressed: a switch between few words. */
export function Switch<T extends string>({
  label,
  value,
  options,
  onChange,
}: {
  label: string;
  value: T;
  options: readonly { value: T; text: string }[];
  onChange(value: T): void;
}) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out in a row everywhere
    <div className="choice-row" role="group" aria-label={label}>
      {options.map((option) => (
        <button
          key={option.value}
          type="button"
          aria-pressed={option.value === value}
          onClick={() => onChange(option.value)}
        >
          {option.text}
        </button>
      ))}
    </div>
  );
}
