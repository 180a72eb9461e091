import { type ReactNode, useState } from 'react';
import type { PurchaseOrderId } from '#core/shared/ids.ts';
import { money } from '#core/shared/text/format.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { PurchaseOrderLineView, PurchaseOrderRow } from '#core/shared/views/stock.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { CalmNote, Refusal, Waiting } from '../../ui/States.tsx';
import { packsText } from './looks.ts';
import css from './stock.module.css';

/** One purchase order: what was ordered, what came; books in what comes now. */
export function OrderScreen(props: { readonly params: Readonly<Record<string, string>> }): ReactNode {
  const t = useText();
  const orderId = (props.params['orderId'] ?? '') as PurchaseOrderId;
  const order = useQuery('stock.showOrder', { orderId });
  return (
    <Place label={t('stock.ui.onItsWay')}>
      <Column>
        <LinkTo quiet to="/stock">
          {t('stock.ui.back')}
        </LinkTo>
        <Refusal refusal={order.error} />
        {order.loading ? <Waiting /> : null}
        {order.data ? <Sheet key={order.data.revision} order={order.data} /> : null}
      </Column>
    </Place>
  );
}

function Sheet(props: { readonly order: PurchaseOrderRow }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { order } = props;
  const file = useDocument('stock.orderFile');
  return (
    <Stack gap={3}>
      <Head
        level={1}
        title={`${t('stock.ui.orderNumber', { number: order.number })}, ${order.supplierName}`}
        note={t('stock.ui.orderState', { state: order.state })}
      >
        <LinkButton onPress={() => void file.open({ orderId: order.id })}>{t('stock.ui.print')}</LinkButton>
        <LinkButton onPress={() => void file.save({ orderId: order.id, as: 'csv' })}>
          {t('stock.ui.saveCsv')}
        </LinkButton>
      </Head>
      <p className={order.late ? 'lamp' : 'quiet'}>
        {t('stock.ui.orderedDay', {
          day: dayText(manner, order.orderedDay),
          due: dayText(manner, order.dueDay),
        })}
        , {money(manner, order.totalMinor)}
      </p>
      <Refusal refusal={file.refusal} />
      <Receive order={order} />
    </Stack>
  );
}

const dueOf = (l: PurchaseOrderLineView): number => Math.max(0, l.packs - l.receivedPacks - l.cancelledPacks);

function Receive(props: { readonly order: PurchaseOrderRow }): ReactNode {
  const t = useText();
  const { order } = props;
  const [came, setCame] = useState<Readonly<Record<string, number | null>>>({});
  const [raised, setRaised] = useState<readonly string[]>([]);
  const receive = useCommand('stock.receive');
  const lines = order.lines.flatMap((l) => {
    const packs = came[l.id] ?? 0;
    return packs > 0
      ? [{ lineId: l.id, itemId: l.itemId, packs, packSize: l.packSize, priceMinor: l.priceMinor }]
      : [];
  });
  async function book(acceptMore: boolean): Promise<void> {
    const done = await receive.run({ supplierId: order.supplierId, orderId: order.id, lines, acceptMore });
    if (!done.ok) return;
    setCame({});
    setRaised(done.value.raised);
  }
  const open = order.state === 'ordered' || order.state === 'part';
  return (
    <Stack gap={1}>
      {order.lines.map((line) => (
        <OrderedLine
          key={line.id}
          order={order}
          line={line}
          came={came[line.id] ?? null}
          onCame={(packs) => setCame({ ...came, [line.id]: packs })}
        />
      ))}
      {raised.length > 0 ? <CalmNote title={t('stock.ui.raised', { items: raised.join(', ') })} /> : null}
      <Refusal refusal={receive.refusal}>
        {receive.refusal?.code === 'ABOVE_ORDER' ? (
          <LinkButton onPress={() => void book(true)}>{t('stock.ui.keepMore')}</LinkButton>
        ) : null}
      </Refusal>
      {open ? (
        <Row>
          <Button
            kind="go"
            busy={receive.busy}
            why={lines.length === 0 ? t('stock.ui.bookInNone') : undefined}
            onPress={() => void book(false)}
          >
            {t('stock.ui.bookIn')}
          </Button>
        </Row>
      ) : null}
    </Stack>
  );
}

function OrderedLine(props: {
  readonly order: PurchaseOrderRow;
  readonly line: PurchaseOrderLineView;
  readonly came: number | null;
  readonly onCame: (packs: number | null) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { order, line } = props;
  const cancel = useCommand('stock.cancelOrderLine');
  const due = dueOf(line);
  return (
    <div className={css['ordered']}>
      <span className="cut">
        <b>{line.itemName}</b>
      </span>
      <span className="num">{packsText(manner, line.packs, line.packSize, line.unit)}</span>
      <span className="num quiet">
        {line.receivedPacks} {t('stock.ui.came')}
      </span>
      <span className="num right">{money(manner, line.priceMinor)}</span>
      {due > 0 ? (
        <NumberField label={t('stock.ui.cameNow')} value={props.came} onChange={props.onCame} min={0} />
      ) : (
        <span />
      )}
      {due > 0 ? (
        <LinkButton
          quiet
          onPress={() => void cancel.run({ orderId: order.id, lineId: line.id, revision: order.revision })}
        >
          {t('stock.ui.giveUp')}
        </LinkButton>
      ) : (
        <span />
      )}
      <Refusal refusal={cancel.refusal} />
    </div>
  );
}
