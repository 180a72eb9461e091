import { type ReactNode, useState } from 'react';
import type { CustomerId } from '#core/shared/ids.ts';
import type { TaxCode } from '#core/shared/tax.ts';
import { money } from '#core/shared/text/format.ts';
import type { ShopPage } from '#core/shared/views/shop.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { go } from '../../ui/router.ts';
import { Refusal, Waiting } from '../../ui/States.tsx';
import css from './billing.module.css';
import { EMPTY_LINE, GoodsLine, type Line } from './GoodsLine.tsx';

/** Goods sold over the counter, or another thing that no job stands for: drafted as an invoice of the customer. */
export function GoodsScreen(props: { readonly params: Readonly<Record<string, string>> }): ReactNode {
  const t = useText();
  const customerId = props.params['customerId'] as CustomerId;
  const page = useQuery('people.customerPage', { customerId });
  const shop = useQuery('shop.page', {});
  return (
    <Place label={t('goods.title')}>
      <Column>
        <Head title={t('goods.title')} note={page.data?.customer.name}>
          <LinkTo to={`/customers/${customerId}`} quiet>
            {t('statement.back')}
          </LinkTo>
        </Head>
        <Refusal refusal={page.error ?? shop.error} />
        {shop.data ? <GoodsForm customerId={customerId} shop={shop.data} /> : <Waiting />}
      </Column>
    </Place>
  );
}

function GoodsForm(props: { readonly customerId: CustomerId; readonly shop: ShopPage }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { customerId, shop } = props;
  const [lines, setLines] = useState<readonly Line[]>([EMPTY_LINE]);
  const draft = useCommand('billing.draftOther');
  const taxes = [...new Set<TaxCode>(shop.taxes.filter((tax) => tax.holds).map((tax) => tax.code))];
  const whole = lines.filter(isWhole);
  const sum = whole.reduce((all, line) => all + line.quantity * line.priceMinor, 0);
  async function save(): Promise<void> {
    const made = await draft.run({ customerId, lines: whole.map((line) => ({ ...line })) });
    if (made.ok) go(`/money/${made.value.invoiceId}`);
  }
  return (
    <Stack>
      <FromList shop={shop} onChoose={(line) => setLines([...lines.filter(isTouched), line])} />
      {lines.map((line, at) => (
        <GoodsLine
          // biome-ignore lint/suspicious/noArrayIndexKey: a line is what stands in its row, and rows only end from below
          key={at}
          line={line}
          taxes={taxes}
          onChange={(to) => setLines(lines.with(at, to))}
        />
      ))}
      <Row>
        <LinkButton onPress={() => setLines([...lines, EMPTY_LINE])}>{t('goods.more')}</LinkButton>
        {lines.length > 1 ? (
          <LinkButton quiet onPress={() => setLines(lines.slice(0, -1))}>
            {t('goods.less')}
          </LinkButton>
        ) : null}
      </Row>
      <p className={css['goodsSum']}>
        <b className="num">{money(manner, sum)}</b>{' '}
        <span className="quiet">
          {t('goods.sum', { tax: shop.shop.settings.billing.pricesIncludeTax ? 'with' : 'before' })}
        </span>
      </p>
      <Refusal refusal={draft.refusal} />
      <Row>
        <Button
          kind="go"
          busy={draft.busy}
          why={whole.length === lines.length ? undefined : t('goods.lacks')}
          onPress={() => void save()}
        >
          {t('goods.draft')}
        </Button>
        <span className="t1 dusty">{t('goods.note')}</span>
      </Row>
    </Stack>
  );
}

/** Things of the price list; one that is chosen becomes the next line. */
function FromList(props: { readonly shop: ShopPage; readonly onChoose: (line: Line) => void }): ReactNode {
  const t = useText();
  const manner = useManner();
  const items = props.shop.listPrices.filter((row) => row.kind === 'item' && row.holds);
  if (items.every((row) => row.priceMinor === null)) return null;
  return (
    <Row>
      <span className="t1 dusty">{t('goods.fromList')}</span>
      {items.map(({ id, name, priceMinor, tax }) =>
        priceMinor === null ? null : (
          <LinkButton
            key={id}
            quiet
            onPress={() => props.onChoose({ ...EMPTY_LINE, text: name, priceMinor, tax })}
          >
            {t('goods.listItem', { name, price: money(manner, priceMinor) })}
          </LinkButton>
        ),
      )}
    </Row>
  );
}

function isTouched(line: Line): boolean {
  return line.text !== '' || line.priceMinor !== null;
}

type Whole = Line & { readonly quantity: number; readonly priceMinor: number };

/** A line with a text, an amount and a price. */
function isWhole(line: Line): line is Whole {
  return line.text.trim() !== '' && line.quantity !== null && line.priceMinor !== null;
}
