import type { ReactNode } from 'react';
import type { PurchaseOrderId } from '#core/shared/ids.ts';
import { money } from '#core/shared/text/format.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { PurchaseOrderRow } from '#core/shared/views/stock.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Place, Stack } from '../../ui/Layout.tsx';
import { PaperActs } from '../../ui/PaperActs.tsx';
import { Refusal, Waiting } from '../../ui/States.tsx';
import { ReceiveForm } from './ReceiveForm.tsx';

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
        {order.data ? <Sheet order={order.data} /> : null}
      </Column>
    </Place>
  );
}

function Sheet(props: { readonly order: PurchaseOrderRow }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { order } = props;
  return (
    <Stack gap={3}>
      <Head
        level={1}
        title={`${t('stock.ui.orderNumber', { number: order.number })}, ${order.supplierName}`}
        note={t('stock.ui.orderState', { state: order.state })}
      />
      <p className={order.late ? 'lamp' : 'quiet'}>
        {t('stock.ui.orderedDay', {
          day: dayText(manner, order.orderedDay),
          due: dayText(manner, order.dueDay),
        })}
        , {money(manner, order.totalMinor)}
      </p>
      <Papers order={order} />
      <ReceiveForm order={order} />
    </Stack>
  );
}

/** The order as it goes to the supplier: on paper, in a message, as a list for their machine. */
function Papers(props: { readonly order: PurchaseOrderRow }): ReactNode {
  const t = useText();
  const { id: orderId, supplierName, supplierEmail } = props.order;
  const pdf = useDocument('stock.orderFile');
  const mail = useDocument('stock.orderFile');
  const csv = useDocument('stock.orderFile');
  return (
    <PaperActs
      paper={{
        busy: pdf.busy,
        refusal: pdf.refusal ?? csv.refusal,
        open: () => pdf.open({ orderId }),
        save: () => pdf.save({ orderId }),
      }}
      mail={{ ...mail, save: () => mail.save({ orderId, as: 'eml' }) }}
      to={{ name: supplierName, email: supplierEmail }}
    >
      <LinkButton onPress={() => void csv.save({ orderId, as: 'csv' })}>{t('stock.ui.saveCsv')}</LinkButton>
    </PaperActs>
  );
}
