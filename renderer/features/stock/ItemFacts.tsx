import { type ReactNode, useState } from 'react';
import { amountOf, money } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { StockItemPage, SupplierLinkView } from '#core/shared/views/stockItem.ts';
import type { BaseUnit } from '#core/shared/vocabulary.ts';
import { useManner, useText, useToday } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Head, Stack } from '../../ui/Layout.tsx';
import { ChangeItem } from './ChangeItem.tsx';
import { DataSheet } from './DataSheet.tsx';
import { SellerForm } from './SellerForm.tsx';
import css from './stock.module.css';

/** What is written down of an item, to change, and who sells it. */
export function ItemFacts(props: { readonly page: StockItemPage }): ReactNode {
  const t = useText();
  const [changing, setChanging] = useState(false);
  const { item, today } = props.page;
  return (
    <Stack gap={2}>
      <Head level={3} title={t('stock.ui.facts')}>
        {changing ? null : (
          <LinkButton quiet onPress={() => setChanging(true)}>
            {t('stock.ui.change')}
          </LinkButton>
        )}
      </Head>
      {changing ? (
        <ChangeItem key={item.id} item={item} today={today} onDone={() => setChanging(false)} />
      ) : (
        <Written page={props.page} />
      )}
      <DataSheet page={props.page} />
      <Sellers page={props.page} />
    </Stack>
  );
}

function Written(props: { readonly page: StockItemPage }): ReactNode {
  const t = useText();
  const manner = useManner();
  const today = useToday();
  const { item } = props.page;
  const facts = [
    [t('stock.ui.material'), item.material ? t(`word.material.${item.material}`) : ''],
    [t('stock.ui.place'), item.place],
    [t('stock.ui.pack'), `${amountText(amountOf(manner, item.unit, item.packSize))} ${item.packWord}`],
    [t('stock.ui.barcode'), item.barcode],
    [t('stock.ui.uses'), item.usesPerLife ?? ''],
    [t('stock.ui.sealedLife'), item.sealedLifeDays ?? ''],
    [t('stock.ui.openedLife'), item.openedLifeDays ?? ''],
    [t('stock.ui.shelfPacks'), item.shelfPacks ?? ''],
    [t('stock.ui.hazards'), item.hazards],
    [t('stock.ui.endedDay'), item.endedDay ? dayText(manner, item.endedDay, today) : ''],
  ] as const;
  return (
    <dl className={css['facts']}>
      {facts
        .filter(([, value]) => value !== '')
        .map(([label, value]) => (
          <div key={label} className={css['pair']}>
            <dt>{label}</dt>
            <dd>{value}</dd>
          </div>
        ))}
    </dl>
  );
}

function Sellers(props: { readonly page: StockItemPage }): ReactNode {
  const t = useText();
  const { item, links } = props.page;
  return (
    <>
      <Head level={3} title={t('stock.ui.soldBy')} />
      {links.length === 0 ? <p className="quiet">{t('stock.ui.noSeller')}</p> : null}
      {links.map((link) => (
        <Seller key={link.supplierId} link={link} unit={item.unit} />
      ))}
      <SellerForm item={item} links={links} />
    </>
  );
}

function Seller(props: { readonly link: SupplierLinkView; readonly unit: BaseUnit }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { link, unit } = props;
  return (
    <p>
      <b>{link.supplierName}</b>{' '}
      {t('stock.ui.sellerLine', {
        pack: amountText(amountOf(manner, unit, link.packSize)),
        price: money(manner, link.priceMinor),
        preferred: link.preferred ? 'yes' : 'no',
      })}
      {link.breaks.map((b) => (
        <span key={b.fromPacks} className="quiet">
          {t('stock.ui.breakLine', { packs: b.fromPacks, price: money(manner, b.priceMinor) })}
        </span>
      ))}
    </p>
  );
}
