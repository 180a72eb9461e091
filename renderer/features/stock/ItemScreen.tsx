import { type ReactNode, useState } from 'react';
import type { ItemId } from '#core/shared/ids.ts';
import { amountOf, money } from '#core/shared/text/format.ts';
import type { StockItemPage } from '#core/shared/views/stockItem.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Figure } from '../../ui/Figure.tsx';
import { Column, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { useReader } from '../../ui/reader.ts';
import { CalmNote, Refusal, Waiting } from '../../ui/States.tsx';
import { Containers } from './Containers.tsx';
import { CountForm } from './CountForm.tsx';
import { ItemFacts } from './ItemFacts.tsx';
import { ItemOutlook } from './ItemOutlook.tsx';
import { Ledger } from './Ledger.tsx';
import { TakeOutForm } from './TakeOutForm.tsx';
import { useCode } from './useCode.ts';

const HORIZON = 42;

/** One item: what is there, its way forward and the reasoning, its ledger. */
export function ItemScreen(props: { readonly params: Readonly<Record<string, string>> }): ReactNode {
  const t = useText();
  const itemId = (props.params['itemId'] ?? '') as ItemId;
  const page = useQuery('stock.showItem', { itemId, horizonDays: HORIZON });
  const { unknown, look } = useCode();
  useReader(look);
  if (!page.data)
    return (
      <Place label={t('stock.ui.item')}>
        <Column>
          <Refusal refusal={page.error}>
            <LinkTo to="/stock">{t('stock.ui.back')}</LinkTo>
          </Refusal>
          {page.loading ? <Waiting /> : null}
        </Column>
      </Place>
    );
  return (
    <Place label={page.data.item.name} columns="left">
      <Column label={t('stock.ui.facts')}>
        <Stack gap={4}>
          <Now page={page.data} />
          {unknown === null ? null : <CalmNote title={t('stock.ui.codeUnknown', { code: unknown })} />}
          {page.data.item.reusable || page.data.item.unit === 'piece' ? null : (
            <Containers page={page.data} />
          )}
          <ItemFacts page={page.data} />
        </Stack>
      </Column>
      <Column label={t('stock.ui.reasoning')}>
        <Head title={t('stock.ui.reasoning')} />
        <ItemOutlook page={page.data} days={HORIZON} />
        <Ledger page={page.data} />
      </Column>
    </Place>
  );
}

function Now(props: { readonly page: StockItemPage }): ReactNode {
  const t = useText();
  const manner = useManner();
  const [open, setOpen] = useState<'count' | 'waste' | 'return' | null>(null);
  const { item, row } = props.page;
  const close = (): void => setOpen(null);
  return (
    <Stack gap={2}>
      <LinkTo quiet to="/stock">
        {t('stock.ui.back')}
      </LinkTo>
      <Head level={1} title={<span className="cut">{item.name}</span>} />
      <Figure amount={amountOf(manner, item.unit, row.onHand)} size={4} lit={row.onHand < 0} />
      <p className="quiet">
        {t('stock.ui.worthLine', {
          average: money(manner, row.valueMinor),
          fifo: money(manner, props.page.fifoValueMinor),
          costing: props.page.costing,
        })}
      </p>
      <Row>
        <LinkButton onPress={() => setOpen(open === 'count' ? null : 'count')}>
          {t('stock.ui.countNow')}
        </LinkButton>
        {item.reusable
          ? null
          : (['waste', 'return'] as const).map((kind) => (
              <LinkButton key={kind} onPress={() => setOpen(open === kind ? null : kind)}>
                {t(`stock.ui.${kind}Open`)}
              </LinkButton>
            ))}
      </Row>
      {open === 'count' ? <CountForm itemId={item.id} onDone={close} /> : null}
      {open === 'waste' || open === 'return' ? (
        <TakeOutForm key={open} kind={open} item={item} onDone={close} />
      ) : null}
    </Stack>
  );
}
