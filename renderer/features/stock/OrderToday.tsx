import { type ReactNode, useState } from 'react';
import { isOut, isUnsold } from '#core/shared/stockList.ts';
import { money } from '#core/shared/text/format.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { StockBoard, SuggestionView, SupplierSuggestions } from '#core/shared/views/stock.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { Empty, Refusal } from '../../ui/States.tsx';
import { PutOff } from './PutOff.tsx';
import { Reasoning, Said } from './Said.tsx';
import css from './stock.module.css';

/** What to order today and why, by supplier. */
export function OrderToday(props: {
  readonly board: StockBoard;
  /** It is asked again: what is said here may be ordered already. */
  readonly asking: boolean;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { suggestions, items, chases, putOff } = props.board;
  const total = suggestions.reduce((sum, s) => sum + s.totalMinor, 0);
  const unsold = items.filter(isUnsold);
  const note = t('stock.ui.orderNote', { suppliers: suggestions.length, total: money(manner, total) });
  return (
    <section aria-label={t('stock.ui.orderToday')}>
      <Head title={t('stock.ui.orderToday')} note={suggestions.length > 0 ? note : undefined} />
      {suggestions.length + unsold.length + chases.length + putOff.length === 0 && items.length > 0 ? (
        <Empty title={t('stock.ui.nothingToOrder')} text={t('stock.ui.nothingToOrderText')} />
      ) : null}
      <Stack gap={3}>
        {suggestions.map((s) => (
          <FromSupplier key={s.supplierId} of={s} asking={props.asking} />
        ))}
        {chases.map((c) => (
          <p key={c.itemId} className="lit" data-chase={c.itemId}>
            <Said sentence={c.sentence} />{' '}
            <LinkTo to={`/stock/orders/${c.orderId}`}>
              {t('stock.ui.orderNumber', { number: c.orderNumber })}
            </LinkTo>
          </p>
        ))}
        {putOff.map((p) => (
          <PutOff key={p.itemId} of={p} />
        ))}
        {unsold.map((i) => (
          <p key={i.id} className="lit">
            <LinkTo to={`/stock/items/${i.id}`}>{i.name}</LinkTo>{' '}
            {t('stock.ui.noSellerRunsOut', {
              out: isOut(i) ? 'yes' : 'no',
              day: dayText(manner, i.runOutDay ?? props.board.today),
            })}
          </p>
        ))}
      </Stack>
    </section>
  );
}

function FromSupplier(props: { readonly of: SupplierSuggestions; readonly asking: boolean }): ReactNode {
  const t = useText();
  const manner = useManner();
  const order = useCommand('stock.makeOrders');
  const { of } = props;
  const lines = of.lines.map(({ supplierId, itemId, packs }) => ({ supplierId, itemId, packs }));
  return (
    <section>
      <Head level={3} title={of.supplierName} note={t('stock.ui.leadDays', { days: of.leadDays })}>
        <span className="t1 quiet num">{money(manner, of.totalMinor)}</span>
      </Head>
      <Refusal refusal={order.refusal} />
      {of.belowMinimumMinor > 0 ? (
        <p className="t1 quiet">
          {t('stock.conflict.minimum', {
            missing: money(manner, of.belowMinimumMinor),
            supplier: of.supplierName,
          })}
        </p>
      ) : null}
      <Stack gap={2}>
        {of.lines.map((line) => (
          <Suggested key={line.itemId} line={line} asking={props.asking} />
        ))}
      </Stack>
      {of.lines.length > 1 ? (
        <p className={css['all']}>
          <Button kind="go" busy={order.busy || props.asking} onPress={() => void order.run({ lines })}>
            {t('stock.ui.orderAll', { count: of.lines.length })}
          </Button>
        </p>
      ) : null}
    </section>
  );
}

function Suggested(props: { readonly line: SuggestionView; readonly asking: boolean }): ReactNode {
  const t = useText();
  const [open, setOpen] = useState(false);
  const order = useCommand('stock.makeOrders');
  const later = useCommand('stock.notToday');
  const { line } = props;
  const { supplierId, itemId, packs } = line;
  return (
    <div className="lit" data-item={itemId}>
      <p>
        <Said sentence={line.sentence} />
        {line.because ? (
          <>
            {' '}
            <Said sentence={line.because} />
          </>
        ) : null}
      </p>
      {line.conflicts.map((c) => (
        <p key={c.key} className="t1 quiet">
          <Said sentence={c} />
        </p>
      ))}
      <Row>
        <Button
          busy={order.busy || props.asking}
          onPress={() => void order.run({ lines: [{ supplierId, itemId, packs }] })}
        >
          {t('stock.ui.orderPacks', { packs })}
        </Button>
        <LinkButton onPress={() => setOpen(!open)}>
          {open ? t('stock.ui.closeWhy') : t('stock.ui.why', { packs })}
        </LinkButton>
        <LinkButton onPress={() => void later.run({ itemId })}>{t('stock.ui.notToday')}</LinkButton>
      </Row>
      <Refusal refusal={order.refusal ?? later.refusal} />
      {open ? <Reasoning reason={line.reason} /> : null}
    </div>
  );
}
