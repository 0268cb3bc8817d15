/** What may stand in a cell: buttons where nothing else may, else a list that a field offers while one types. */

import type { Values } from './columns.ts';

/** A list of this many is read at a glance. */
const MOST_BUTTONS = 12;

export function PickList({
  id,
  values: { list, closed },
  chosen,
  onPick,
}: {
  /** that the field names as its list */
  id: string;
  values: Values;
  chosen: string;
  onPick(value: string): void;
}) {
  if (!closed || list.length > MOST_BUTTONS) return <ValueList id={id} list={list} />;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out in a row everywhere
    <div className="pick-list" role="group" aria-label="Allowed values">
      {list.map((value) => (
        <button
          key={value}
          type="button"
          className="button small"
          aria-pressed={value === chosen.trim()}
          onClick={() => onPick(value)}
        >
          {value}
        </button>
      ))}
    </div>
  );
}

export function ValueList({ id, list }: { id: string; list: readonly string[] }) {
  return (
    <datalist id={id}>
      {list.map((value) => (
        <option key={value} value={value} />
      ))}
    </datalist>
  );
}
