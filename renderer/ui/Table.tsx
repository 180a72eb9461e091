import { type KeyboardEvent, type ReactNode, useRef } from 'react';
import css from './Table.module.css';

export type Column<Row> = {
  readonly key: string;
  readonly head: ReactNode;
  readonly cell: (row: Row) => ReactNode;
  readonly align?: 'right';
  /** CSS width; with any width given the table is laid out by the head. */
  readonly width?: string;
};

type TableProps<Row> = {
  readonly label: string;
  readonly columns: readonly Column<Row>[];
  readonly rows: readonly Row[];
  readonly rowKey: (row: Row) => string;
  readonly selected?: string | null;
  readonly onSelect?: (key: string) => void;
  /** Enter or double click. */
  readonly onOpen?: (key: string) => void;
  /** True where the row needs somebody: its left edge is lit. Say in a cell what is wanted. */
  readonly lit?: (row: Row) => boolean;
  /** A sum under the last row, one cell for each column. */
  readonly sum?: readonly ReactNode[];
  readonly headless?: boolean;
};

/** A dense table (32 px rows). With `onSelect` one row is in the tab order and arrows, Home and End walk it. */
export function Table<Row>(props: TableProps<Row>): ReactNode {
  const live = props.onSelect !== undefined || props.onOpen !== undefined;
  return (
    <table
      className={css['table']}
      aria-label={props.label}
      role={live ? 'grid' : undefined}
      data-fixed={props.columns.some((c) => c.width !== undefined)}
    >
      <TableHead columns={props.columns} unseen={props.headless === true} />
      <TableBody {...props} live={live} />
      {props.sum ? <TableSum columns={props.columns} sum={props.sum} /> : null}
    </table>
  );
}

function TableHead<Row>(props: {
  readonly columns: readonly Column<Row>[];
  readonly unseen: boolean;
}): ReactNode {
  return (
    <thead className={props.unseen ? 'unseen' : undefined}>
      <tr>
        {props.columns.map((c) => {
          const look = { 'data-align': c.align, style: c.width ? { width: c.width } : undefined };
          // A column of marks or acts has no word above it: an empty cell, not an empty heading.
          return c.head === '' || c.head === null ? (
            <td key={c.key} {...look} />
          ) : (
            <th key={c.key} scope="col" {...look}>
              {c.head}
            </th>
          );
        })}
      </tr>
    </thead>
  );
}

function TableBody<Row>(props: TableProps<Row> & { readonly live: boolean }): ReactNode {
  const body = useRef<HTMLTableSectionElement>(null);
  const keys = props.rows.map(props.rowKey);
  const home = props.selected && keys.includes(props.selected) ? props.selected : keys[0];
  function walk(event: KeyboardEvent, key: string): void {
    // What stands in a row has keys of its own.
    if (event.target !== event.currentTarget) return;
    const to = nextIndex(event.key, keys.indexOf(key), keys.length);
    if (event.key === 'Enter') props.onOpen?.(key);
    if (event.key === ' ') props.onSelect?.(key);
    if (to === null && event.key !== ' ') return;
    event.preventDefault();
    const next = to === null ? undefined : keys[to];
    if (next === undefined || to === null || next === key) return;
    (body.current?.rows[to] as HTMLTableRowElement | undefined)?.focus();
    props.onSelect?.(next);
  }
  return (
    <tbody ref={body}>
      {props.rows.map((row, i) => {
        const key = keys[i] ?? '';
        return (
          <tr
            key={key}
            className={css['row']}
            tabIndex={props.live ? (key === home ? 0 : -1) : undefined}
            aria-selected={props.onSelect ? key === props.selected : undefined}
            data-lit={props.lit?.(row) ?? false}
            data-open={props.live}
            onClick={() => props.onSelect?.(key)}
            onDoubleClick={() => props.onOpen?.(key)}
            onKeyDown={props.live ? (e) => walk(e, key) : undefined}
          >
            {props.columns.map((c) => (
              <td key={c.key} data-align={c.align}>
                {c.cell(row)}
              </td>
            ))}
          </tr>
        );
      })}
    </tbody>
  );
}

function TableSum<Row>(props: {
  readonly columns: readonly Column<Row>[];
  readonly sum: readonly ReactNode[];
}): ReactNode {
  return (
    <tfoot>
      <tr className={css['sum']}>
        {props.columns.map((c, i) => (
          <td key={c.key} data-align={c.align}>
            {props.sum[i]}
          </td>
        ))}
      </tr>
    </tfoot>
  );
}

function nextIndex(key: string, at: number, length: number): number | null {
  switch (key) {
    case 'ArrowDown':
      return Math.min(length - 1, at + 1);
    case 'ArrowUp':
      return Math.max(0, at - 1);
    case 'Home':
      return 0;
    case 'End':
      return length - 1;
    default:
      return null;
  }
}
