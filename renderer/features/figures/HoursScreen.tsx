import { type ReactNode, useRef, useState } from 'react';
import { addLocalDays, isoWeekday } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { PeriodKind } from '#core/shared/views/figures.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText, useToday } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Words } from '../../ui/Choice.tsx';
import { Head, Place } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { useShortcuts } from '../../ui/shortcuts.ts';
import { CellJobs } from './CellJobs.tsx';
import { FiguresNav } from './FiguresNav.tsx';
import { HeatGrid } from './HeatGrid.tsx';
import { HeatTable } from './HeatTable.tsx';
import css from './heat.module.css';
import type { HeatRow, OpenCell } from './parts.ts';

/** How far back each is told: as many columns as can be read side by side. */
const BACK_DAYS = { day: 28, week: 26 * 7, month: 730 } as const satisfies Record<PeriodKind, number>;
const PERIODS = ['day', 'week', 'month'] as const;

/** Up to today: days to come have no hours yet, and would be told as closed. */
function rangeOf(today: LocalDay, by: PeriodKind): { readonly fromDay: LocalDay; readonly toDay: LocalDay } {
  if (by === 'month') {
    const first = addLocalDays(today, -BACK_DAYS.month).slice(0, 7);
    return { fromDay: `${first}-01` as LocalDay, toDay: today };
  }
  const last = by === 'week' ? addLocalDays(today, 7 - isoWeekday(today)) : today;
  return { fromDay: addLocalDays(last, 1 - BACK_DAYS[by]), toDay: today };
}

/** Bays and technicians over weeks as a heat: every cell opens into its parts and its jobs. */
export function HoursScreen(): ReactNode {
  const t = useText();
  const today = useToday();
  const [by, setBy] = useState<PeriodKind>('week');
  const [asTable, setAsTable] = useState(false);
  const range = rangeOf(today, by);
  const view = useQuery('figures.utilization', { ...range, by }, { keep: true });
  const file = useDocument('figures.hoursFile');
  const rows = view.data ? rowsOf(view.data) : [];
  const { shown, open, close, drop } = useOpenCell(rows);
  const empty = view.data?.total.availableMin === 0;
  return (
    <Place label={t('figures.page.hours')} columns="one">
      <div className={css['page']}>
        <FiguresNav />
        <Head title={t('figures.heat')} note={t('figures.heatNote')}>
          <Words
            label={t('figures.period')}
            value={by}
            onChange={(next) => {
              setBy(next);
              drop();
            }}
            options={PERIODS.map((value) => ({ value, label: t(`figures.period.${value}`) }))}
          />
          <LinkButton quiet onPress={() => setAsTable(!asTable)}>
            {asTable ? t('figures.asHeat') : t('figures.asTable')}
          </LinkButton>
          <LinkButton quiet busy={file.busy} onPress={() => void file.save({ ...range, by })}>
            {t('figures.csv')}
          </LinkButton>
        </Head>
        <Refusal refusal={view.error ?? file.refusal} />
        {view.loading ? <Waiting /> : null}
        {empty ? (
          <Empty title={t('figures.none')}>
            <LinkTo to="/shop">{t('ui.place.shop')}</LinkTo>
          </Empty>
        ) : null}
        {view.data && !empty ? (
          asTable ? (
            <HeatTable rows={rows} />
          ) : (
            <HeatGrid rows={rows} by={view.data.by} open={shown} onOpen={open} />
          )
        ) : null}
        {shown ? <CellJobs open={shown} onClose={close} /> : null}
      </div>
    </Place>
  );
}

/** The cell that is open; who closes it, by Esc too, goes on from that cell. */
function useOpenCell(rows: readonly HeatRow[]) {
  const [opened, setOpened] = useState<OpenCell | null>(null);
  const opener = useRef<HTMLElement | null>(null);
  const shown = opened && sameOf(rows, opened);
  function close(): void {
    setOpened(null);
    opener.current?.focus();
  }
  useShortcuts(shown ? { Escape: close } : {});
  return {
    shown,
    open: (cell: OpenCell, from: HTMLElement) => {
      opener.current = from;
      setOpened(cell);
    },
    drop: () => setOpened(null),
    close,
  };
}

/** The cell that was opened as it is told now; null once it is out of sight. */
function sameOf(rows: readonly HeatRow[], open: OpenCell): OpenCell | null {
  const row = rows.find((r) => r.key === open.row.key);
  const cell = row?.cells.find((c) => c.day === open.cell.day);
  return row && cell ? { row, cell } : null;
}

function rowsOf(
  view: NonNullable<ReturnType<typeof useQuery<'figures.utilization'>>['data']>,
): readonly HeatRow[] {
  const rest = { bayId: null, personId: null };
  return [
    ...view.bays.map((b) => ({ ...rest, key: b.bayId, kind: 'bay' as const, bayId: b.bayId, ...plain(b) })),
    ...view.people.map((p) => ({
      ...{ ...rest, key: p.personId, kind: 'person' as const, personId: p.personId },
      ...plain(p),
    })),
  ];
}

function plain(row: Pick<HeatRow, 'name' | 'total' | 'cells'>): Pick<HeatRow, 'name' | 'total' | 'cells'> {
  return { name: row.name, total: row.total, cells: row.cells };
}
