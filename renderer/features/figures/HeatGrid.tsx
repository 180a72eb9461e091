import { scaleQuantize } from 'd3-scale';
import { type KeyboardEvent, type ReactNode, useRef, useState } from 'react';
import { hoursMinutes } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { PeriodKind, UtilizationCell } from '#core/shared/views/figures.ts';
import { type Say, useManner, useText, useToday } from '../../bridge/texts.tsx';
import { headLines } from '../../ui/charts/heads.ts';
import css from './heat.module.css';
import { busyShare, type HeatRow, minutesOf, type OpenCell, PARTS } from './parts.ts';
import { periodHead, periodText } from './periods.ts';

/** How full a cell is in five steps: told by how much of it is filled, so that it needs no colour. */
const STEPS = [0, 1, 2, 3, 4] as const;
const stepOf = scaleQuantize<(typeof STEPS)[number]>().domain([0, 1]).range(STEPS);
/** Share of a cell that waited on people from which it is lit. */
const LIT_SHARE = 0.25;

/** What a cell says to somebody who does not see it. */
function said(t: Say, manner: Manner, row: HeatRow, cell: UtilizationCell, today: LocalDay): string {
  const when = periodText(manner, cell, today);
  if (cell.availableMin === 0) return t('figures.cellClosed', { name: row.name, when });
  const parts = PARTS.map((p) => `${t(`figures.part.${p}`)} ${hoursMinutes(manner, minutesOf(cell, p))}`);
  const percent = Math.round(busyShare(cell) * 100);
  return `${row.name}, ${when}: ${t('figures.inUse', { percent })}; ${parts.join(', ')}`;
}

/** A heat over the periods: one cell in the tab order, arrows walk the grid, Enter opens. */
export function HeatGrid(props: {
  readonly rows: readonly HeatRow[];
  readonly by: PeriodKind;
  readonly open: OpenCell | null;
  /** A cell, and what opened it. */
  readonly onOpen: (cell: OpenCell, from: HTMLElement) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { rows, by } = props;
  const cells = rows[0]?.cells ?? [];
  const heads = headLines(cells.map((cell) => periodHead(manner, cell, by)));
  const grid = useRef<HTMLTableElement>(null);
  const columns = cells.length;
  const [at, setAt] = useState({ row: 0, column: columns - 1 });
  const home = { row: Math.min(at.row, rows.length - 1), column: Math.min(at.column, columns - 1) };
  function walk(event: KeyboardEvent): void {
    const to = stepped(event.key, home, { rows: rows.length, columns });
    if (!to) return;
    event.preventDefault();
    setAt(to);
    grid.current?.querySelector<HTMLElement>(`[data-at="${to.row}/${to.column}"]`)?.focus();
  }
  return (
    <div className={css['scroll']}>
      <table ref={grid} className={css['grid']} aria-label={t('figures.heat')} onKeyDown={walk}>
        <thead>
          <tr>
            <td>{t(`figures.period.${by}`)}</td>
            {cells.map((cell, i) => (
              <th key={cell.day} scope="col">
                {heads[i]}
              </th>
            ))}
            <th scope="col">{t('figures.inAll')}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row, r) => (
            <HeatLine key={row.key} {...props} row={row} place={r} home={home} onAt={setAt} />
          ))}
        </tbody>
      </table>
      <HeatKey />
    </div>
  );
}

type At = { readonly row: number; readonly column: number };

function stepped(key: string, at: At, size: { readonly rows: number; readonly columns: number }): At | null {
  const [across, down] =
    { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[key] ?? [];
  if (across !== undefined && down !== undefined)
    return {
      row: Math.max(0, Math.min(size.rows - 1, at.row + down)),
      column: Math.max(0, Math.min(size.columns - 1, at.column + across)),
    };
  if (key === 'Home') return { ...at, column: 0 };
  return key === 'End' ? { ...at, column: size.columns - 1 } : null;
}

function HeatLine(props: {
  readonly row: HeatRow;
  readonly rows: readonly HeatRow[];
  readonly place: number;
  readonly home: At;
  readonly open: OpenCell | null;
  readonly onOpen: (cell: OpenCell, from: HTMLElement) => void;
  readonly onAt: (at: At) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const today = useToday();
  const { row, place, home } = props;
  const first = props.rows[place - 1]?.kind !== row.kind;
  return (
    <tr data-first={first && place > 0}>
      <th scope="row" title={row.name}>
        {row.name}
      </th>
      {row.cells.map((cell, c) => {
        const label = said(t, manner, row, cell, today);
        const isOpen = props.open?.cell === cell;
        return (
          <td key={cell.day}>
            <button
              type="button"
              className={css['cell']}
              data-at={`${place}/${c}`}
              data-step={cell.availableMin === 0 ? 'closed' : stepOf(busyShare(cell))}
              data-lit={cell.waitingMin > cell.availableMin * LIT_SHARE}
              aria-expanded={isOpen}
              aria-label={label}
              title={label}
              tabIndex={home.row === place && home.column === c ? 0 : -1}
              onClick={(event) => {
                props.onAt({ row: place, column: c });
                props.onOpen({ row, cell }, event.currentTarget);
              }}
            >
              <i aria-hidden="true" />
            </button>
          </td>
        );
      })}
      <td className={css['all']}>
        {t('figures.percent', { percent: Math.round(busyShare(row.total) * 100) })}
      </td>
    </tr>
  );
}

function HeatKey(): ReactNode {
  const t = useText();
  return (
    <p className={css['key']}>
      <span>{t('figures.heatKey')}</span>
      {STEPS.map((step) => (
        <span key={step}>
          <span className={css['cell']} data-step={step}>
            <i aria-hidden="true" />
          </span>
          {t('figures.heatStep', { from: step * 20, to: step * 20 + 20 })}
        </span>
      ))}
      <span>
        <span className={css['cell']} data-step="2" data-lit="true">
          <i aria-hidden="true" />
        </span>
        {t('figures.heatLit')}
      </span>
      <span>
        <span className={css['cell']} data-step="closed">
          <i aria-hidden="true" />
        </span>
        {t('figures.part.closed')}
      </span>
    </p>
  );
}
