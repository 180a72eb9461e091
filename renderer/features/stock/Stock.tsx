import { type ReactNode, useMemo, useRef, useState } from 'react';
import type { StockBoard } from '#core/shared/views/stock.ts';
import { useMay } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Column, Foot, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { useReader } from '../../ui/reader.ts';
import { go } from '../../ui/router.ts';
import { Caution, Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { useShortcuts } from '../../ui/shortcuts.ts';
import { ItemList } from './ItemList.tsx';
import { Missing } from './Missing.tsx';
import { OrderToday } from './OrderToday.tsx';
import { PadList } from './PadList.tsx';
import { PadsPlace } from './PadsPlace.tsx';
import css from './stock.module.css';
import { CountsToDo, OnItsWay } from './ToDo.tsx';
import { ToThrow } from './ToThrow.tsx';
import { ToWash } from './ToWash.tsx';
import { useCode } from './useCode.ts';

/** Stock as far as the person at this window has to do with it. */
export function Stock(): ReactNode {
  return useMay('desk') ? <Shelf /> : <PadsPlace />;
}

/** What needs a hand on the left; items looking forward and pads on the right. */
function Shelf(): ReactNode {
  const t = useText();
  const board = useQuery('stock.showBoard', {});
  return (
    <Place label={t('stock.ui.title')} columns="left">
      <Column label={t('stock.ui.needs')}>
        <Refusal refusal={board.error} />
        {board.loading ? <Waiting /> : null}
        {board.data ? (
          <>
            <Stack gap={4}>
              <OrderToday board={board.data} asking={board.asking} />
              <CountsToDo board={board.data} />
              <ToWash board={board.data} />
              <ToThrow board={board.data} />
              <OnItsWay board={board.data} />
              <Missing board={board.data} />
            </Stack>
            <Foot>
              <Caution>{t('stock.ui.caution')}</Caution>
            </Foot>
          </>
        ) : null}
      </Column>
      <Column label={t('stock.ui.title')}>{board.data ? <Shelves board={board.data} /> : null}</Column>
    </Place>
  );
}

function openNew(): void {
  go('/stock/new');
}

/** Items in the order they need somebody, then by name; a filter that a barcode reader can type into. */
function Shelves(props: { readonly board: StockBoard }): ReactNode {
  const t = useText();
  const { board } = props;
  const [search, setSearch] = useState('');
  const box = useRef<HTMLDivElement>(null);
  useShortcuts({ '/': () => box.current?.querySelector('input')?.focus(), N: openNew });
  const wanted = search.trim().toLowerCase();
  const items = useMemo(() => {
    return board.items
      .filter((i) => !i.reusable && i.name.toLowerCase().includes(wanted))
      .sort(
        (a, b) =>
          Number(b.needsHand) - Number(a.needsHand) ||
          (a.runOutDay ?? '9').localeCompare(b.runOutDay ?? '9') ||
          a.name.localeCompare(b.name),
      );
  }, [board.items, wanted]);
  const pads = board.pads.filter((p) => p.itemName.toLowerCase().includes(wanted));
  return (
    <>
      <Head
        title={t('stock.ui.ahead', { weeks: Math.round(board.horizonDays / 7) })}
        note={t('stock.ui.aheadNote')}
      />
      {board.items.length === 0 ? (
        <Empty title={t('stock.ui.empty')} text={t('stock.ui.emptyText')}>
          <Ways />
        </Empty>
      ) : (
        <>
          <div className={css['find']}>
            <div ref={box} className={css['search']}>
              <Scan value={search} onChange={setSearch} fits={items.length + pads.length > 0} />
            </div>
            <Ways />
          </div>
          <ItemList board={board} items={items} />
          <PadList pads={pads} />
        </>
      )}
    </>
  );
}

/** A name filters; what fits none is a barcode: it ends with Enter, as readers send it, and opens its item. */
function Scan(props: {
  readonly value: string;
  readonly onChange: (value: string) => void;
  /** Some item has it in its name. */
  readonly fits: boolean;
}): ReactNode {
  const t = useText();
  const { unknown, look } = useCode();
  useReader(look);
  return (
    <TextField
      label={t('stock.ui.find')}
      kind="search"
      value={props.value}
      onChange={(value) => {
        look('');
        props.onChange(value);
      }}
      onDone={(value) =>
        !props.fits && /^[0-9A-Za-z-]{6,}$/.test(value.trim()) ? look(value.trim()) : undefined
      }
      note={unknown === null ? undefined : t('stock.ui.codeUnknown', { code: unknown })}
      maxLength={60}
    />
  );
}

const WAYS = [
  ['/stock/count', 'stock.ui.countList'],
  ['/stock/lists', 'stock.ui.lists'],
  ['/stock/arrived', 'stock.ui.arrived'],
  ['/stock/suppliers', 'stock.ui.suppliers'],
  ['/stock/new', 'stock.ui.newItem'],
] as const;

/** What else is done with stock. */
function Ways(): ReactNode {
  const t = useText();
  return (
    <Row>
      {WAYS.map(([to, name]) => (
        <LinkTo quiet key={to} to={to}>
          {t(name)}
        </LinkTo>
      ))}
    </Row>
  );
}
