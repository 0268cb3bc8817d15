/**
 * One table as a grid of cells that is moved through with the arrow keys. Only the rows in sight are in the page, so that
 * thousands of rows cost no more than twenty.
 */

import {
  type CSSProperties,
  type KeyboardEvent,
  useEffect,
  useLayoutEffect,
  useRef,
  useState,
} from 'react';
import type { Finding } from '../../../../shared/findings.ts';
import type { SheetView } from '../../contract.ts';
import { useApp } from '../../state/app-context.tsx';
import { CellEditor } from './CellEditor.tsx';
import { type CellPlace, cellKey, columnOf } from './columns.ts';

const ROW_PX = 31;
/** Rows above and below those in sight, so that scrolling shows no gap. */
const SPARE_ROWS = 8;
const VIEW_PX = 420;

export function SheetGrid({
  sheet,
  marked,
  place,
  editing,
  onPlace,
}: {
  sheet: SheetView;
  marked: Map<string, Finding[]>;
  place: CellPlace | null;
  editing: boolean;
  onPlace: (place: CellPlace | null, editing: boolean) => void;
}) {
  const { state, actions } = useApp();
  const box = useRef<HTMLDivElement>(null);
  const [top, setTop] = useState(0);
  const [wantsFocus, setWantsFocus] = useState(false);
  const { header, rows } = sheet;
  const transectAt = header.findIndex((name) => name.toLowerCase() === 'transect');

  // the header is row 1 and stays in sight; index −1
  const atRow =
    place === null ? 0 : place.row === 1 ? -1 : rows.findIndex((r) => r.row === place.row);
  const atColumn = Math.max(
    0,
    header.findIndex((name) => name.toLowerCase() === place?.column.toLowerCase()),
  );
  const active = { row: atRow < -1 ? 0 : atRow, column: atColumn };
  const from = Math.max(0, Math.floor(top / ROW_PX) - SPARE_ROWS);
  const to = Math.min(rows.length, Math.ceil((top + VIEW_PX) / ROW_PX) + SPARE_ROWS);

  useLayoutEffect(() => {
    const view = box.current;
    if (view === null || place === null || atRow < 0) return;
    const y = atRow * ROW_PX;
    if (y < view.scrollTop) view.scrollTop = y;
    else if (y + 2 * ROW_PX > view.scrollTop + VIEW_PX) view.scrollTop = y - VIEW_PX / 2;
    setTop(view.scrollTop);
    view
      .querySelector<HTMLElement>(`[data-cell="${atRow}-${atColumn}"]`)
      ?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }, [place, atRow, atColumn]);

  useEffect(() => {
    if (!wantsFocus || editing) return;
    box.current
      ?.querySelector<HTMLElement>(`[data-cell="${active.row}-${active.column}"]`)
      ?.focus({ preventScroll: true });
    setWantsFocus(false);
  });

  const goTo = (row: number, column: number, edit = false): void => {
    const r = Math.min(rows.length - 1, Math.max(0, row));
    const c = Math.min(header.length - 1, Math.max(0, column));
    if (rows[r] === undefined) return;
    setWantsFocus(true);
    onPlace({ file: sheet.file, row: rows[r].row, column: header[c] }, edit);
    actions.setFocus({ transect: rows[r].cells[transectAt] ?? null });
  };
  const onKey = (event: KeyboardEvent): void => {
    const move = keyMove(event.key, event.ctrlKey, active);
    if (move === null) return;
    event.preventDefault();
    goTo(move.row, move.column, move.edit);
  };
  const close = (): void => {
    setWantsFocus(true);
    onPlace(place, false);
  };

  return (
    <div className="sheet-place">
      <div
        ref={box}
        className="sheet"
        style={{ maxHeight: VIEW_PX }}
        onScroll={(event) => setTop(event.currentTarget.scrollTop)}
      >
        <table
          // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a table whose cells are walked through
          role="grid"
          aria-label={sheet.file}
          aria-rowcount={rows.length + 1}
          aria-colcount={header.length + 1}
          style={{ '--row-number': `${String(rows.at(-1)?.row ?? 1).length}ch` } as CSSProperties}
        >
          <thead>
            <tr aria-rowindex={1}>
              <th scope="col">
                <span className="visually-hidden">Row</span>
              </th>
              {header.map((name, c) => (
                <th
                  // biome-ignore lint/suspicious/noArrayIndexKey: names may repeat, columns do not move
                  key={c}
                  scope="col"
                  title={columnOf(sheet.file, name)?.meaning}
                  className={classes(
                    marked.has(cellKey(sheet.file, 1, name)) && 'has-error',
                    c === transectAt && 'frozen',
                  )}
                >
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody onKeyDown={onKey}>
            <Gap rows={from} />
            {rows.slice(from, to).map(({ row, cells }, k) => {
              const r = from + k;
              const transect = cells[transectAt] ?? null;
              return (
                <tr
                  key={row}
                  aria-rowindex={row}
                  className={
                    transect !== null && transect === state.focus.transect ? 'chosen' : undefined
                  }
                >
                  <th scope="row" className={markOf(marked.get(cellKey(sheet.file, row, '')))}>
                    {row}
                  </th>
                  {header.map((name, c) => (
                    <Cell
                      // biome-ignore lint/suspicious/noArrayIndexKey: as above
                      key={c}
                      at={`${r}-${c}`}
                      text={cells[c] ?? ''}
                      isFrozen={c === transectAt}
                      findings={marked.get(cellKey(sheet.file, row, name))}
                      isActive={r === active.row && c === active.column}
                      onPress={() => goTo(r, c)}
                      onOpen={() => goTo(r, c, true)}
                    />
                  ))}
                </tr>
              );
            })}
            <Gap rows={rows.length - to} />
          </tbody>
        </table>
        {rows.length === 0 && <p className="quiet sheet-empty">The header alone: no rows.</p>}
      </div>
      {editing && place !== null && (
        <div className="cell-editor-place" style={{ top: editorTop(active.row, top) }}>
          <CellEditor key={`${place.row} ${place.column}`} place={place} onDone={close} />
        </div>
      )}
    </div>
  );
}

function Cell({
  at,
  text,
  findings,
  isFrozen,
  isActive,
  onPress,
  onOpen,
}: {
  at: string;
  text: string;
  findings: Finding[] | undefined;
  /** stays in sight when the grid is scrolled sideways */
  isFrozen: boolean;
  isActive: boolean;
  onPress: () => void;
  onOpen: () => void;
}) {
  const hasError = findings?.some((f) => f.severity === 'error') ?? false;
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the body's key handler serves all cells
    <td
      data-cell={at}
      tabIndex={isActive ? 0 : -1}
      className={classes(markOf(findings), isFrozen && 'frozen')}
      aria-invalid={hasError || undefined}
      title={findings?.map((f) => f.message).join('\n')}
      onClick={hasError ? onOpen : onPress}
      onDoubleClick={onOpen}
    >
      {text}
      {hasError && text === '' && <span className="blank-mark">blank</span>}
    </td>
  );
}

/** Under the row that is corrected, as long as that is in sight; the header is row −1. */
function editorTop(row: number, scrolled: number): number {
  const y = (row + 2) * ROW_PX - (row < 0 ? 0 : scrolled);
  return Math.min(VIEW_PX, Math.max(ROW_PX, y)) + 4;
}

/** Where a key leads from a cell; the caller keeps it within the table. Null for other keys. */
export function keyMove(
  key: string,
  ctrl: boolean,
  { row, column }: { row: number; column: number },
): { row: number; column: number; edit?: boolean } | null {
  const page = Math.floor(VIEW_PX / ROW_PX) - 1;
  switch (key) {
    case 'ArrowUp':
      return { row: row - 1, column };
    case 'ArrowDown':
      return { row: row + 1, column };
    case 'ArrowLeft':
      return { row, column: column - 1 };
    case 'ArrowRight':
      return { row, column: column + 1 };
    case 'PageUp':
      return { row: row - page, column };
    case 'PageDown':
      return { row: row + page, column };
    case 'Home':
      return { row: ctrl ? 0 : row, column: 0 };
    case 'End':
      return { row: ctrl ? Number.MAX_SAFE_INTEGER : row, column: Number.MAX_SAFE_INTEGER };
    case 'Enter':
    case 'F2':
      return { row, column, edit: true };
    default:
      return null;
  }
}

/** The height of rows that are not in the page. */
function Gap({ rows }: { rows: number }) {
  if (rows <= 0) return null;
  // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a row cannot be focused
  return <tr aria-hidden="true" style={{ height: rows * ROW_PX }} />;
}

function markOf(findings: Finding[] | undefined): string | undefined {
  if (findings === undefined) return undefined;
  return findings.some((f) => f.severity === 'error') ? 'has-error' : 'has-notice';
}

function classes(...names: (string | false | undefined)[]): string | undefined {
  return names.filter(Boolean).join(' ') || undefined;
}
