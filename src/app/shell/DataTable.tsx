/** Tables of the stations: a first column that names the row, rows that can be chosen, room to scroll sideways. */

import { type ReactNode, useEffect, useId, useRef, useState } from 'react';

export interface DataColumn<Row> {
  title: ReactNode;
  /** numbers to the right */
  align?: 'left' | 'right';
  cell(row: Row): ReactNode;
}

/** A table; its first column names the row. With `onRow` the rows can be chosen by pointer and keyboard. */
export function DataTable<Row>({
  caption,
  columns,
  rows,
  keyOf,
  onRow,
  onPoint,
  isChosen,
  captionHidden = false,
  empty = 'None.',
}: {
  caption: ReactNode;
  columns: DataColumn<Row>[];
  rows: readonly Row[];
  keyOf(row: Row, index: number): string;
  onRow?: (row: Row) => void;
  /** the pointer is over a row, or has left (null) */
  onPoint?: (row: Row | null) => void;
  isChosen?: (row: Row) => boolean;
  captionHidden?: boolean;
  empty?: ReactNode;
}) {
  const id = useId();
  return (
    <TableScroll labelledBy={id}>
      <table className="data-table">
        <caption id={id}>
          {captionHidden ? <span className="visually-hidden">{caption}</span> : caption}
        </caption>
        <thead>
          <tr>
            {columns.map((column, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: columns do not move
              <th key={i} scope="col" className={column.align}>
                {column.title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody onPointerLeave={() => onPoint?.(null)}>
          {rows.length === 0 && (
            <tr>
              <td colSpan={columns.length} className="quiet">
                {empty}
              </td>
            </tr>
          )}
          {rows.map((row, index) => (
            <Row
              key={keyOf(row, index)}
              row={row}
              columns={columns}
              chosen={isChosen?.(row) ?? false}
              {...(onRow ? { onRow } : {})}
              {...(onPoint ? { onPoint } : {})}
            />
          ))}
        </tbody>
      </table>
    </TableScroll>
  );
}

function Row<R>({
  row,
  columns: [name, ...others],
  chosen,
  onRow,
  onPoint,
}: {
  row: R;
  columns: DataColumn<R>[];
  chosen: boolean;
  onRow?: (row: R) => void;
  onPoint?: (row: R) => void;
}) {
  const names = [chosen ? 'chosen' : '', onRow ? 'pressable' : ''].join(' ').trim();
  return (
    // the button in the first cell is the keyboard's way
    <tr
      className={names || undefined}
      onClick={onRow && (() => onRow(row))}
      onPointerEnter={onPoint && (() => onPoint(row))}
    >
      <th scope="row" className={name!.align}>
        {onRow ? (
          <button type="button" className="row-button" aria-pressed={chosen}>
            {name!.cell(row)}
          </button>
        ) : (
          name!.cell(row)
        )}
      </th>
      {others.map((column, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: columns do not move
        <td key={i} className={column.align}>
          {column.cell(row)}
        </td>
      ))}
    </tr>
  );
}

/**
 * Room for a table that may be wider than the column: it scrolls within itself, by keyboard too, its first column stays, and
 * a shadow lies on the side where there is more.
 */
export function TableScroll({
  labelledBy,
  children,
}: {
  /** id of the table's caption */
  labelledBy: string;
  children: ReactNode;
}) {
  const box = useRef<HTMLDivElement>(null);
  const [more, setMore] = useState<string | undefined>();
  useEffect(() => {
    const watched = box.current;
    if (watched === null) return;
    const look = () => setMore(hiddenSides(watched));
    const watch = new ResizeObserver(look);
    watch.observe(watched);
    if (watched.firstElementChild !== null) watch.observe(watched.firstElementChild);
    watched.addEventListener('scroll', look, { passive: true });
    return () => {
      watch.disconnect();
      watched.removeEventListener('scroll', look);
    };
  }, []);
  const reachable =
    more === undefined ? {} : { tabIndex: 0, role: 'region', 'aria-labelledby': labelledBy };
  return (
    <div ref={box} className="table-scroll" data-more={more} {...reachable}>
      {children}
    </div>
  );
}

/** On which sides there is more than is seen: `before`, `after` or both; undefined where all is seen. */
function hiddenSides({
  scrollLeft,
  scrollWidth,
  clientWidth,
}: Pick<HTMLElement, 'scrollLeft' | 'scrollWidth' | 'clientWidth'>): string | undefined {
  const sides = [
    scrollLeft > 1 ? 'before' : '',
    scrollWidth - clientWidth - scrollLeft > 1 ? 'after' : '',
  ];
  return sides.join(' ').trim() || undefined;
}
