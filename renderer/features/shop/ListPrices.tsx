import { type ReactNode, useState } from 'react';
import { LIST_PRICE_KINDS, PRICED_LEVELS } from '#core/shared/listPrices.ts';
import { money } from '#core/shared/text/format.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import { date } from '#core/shared/text/when.ts';
import type { ShopPage } from '#core/shared/views/shop.ts';
import { PANELS, type PanelId } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import { Table } from '../../ui/Table.tsx';
import { type Draft, listLacks } from './listLacks.ts';
import css from './shop.module.css';
import { standingThing, ThingFields, ThingSaid } from './ThingFields.tsx';

type Prices = ShopPage['listPrices'];

/** Prices of things and of panels: dated like those of hours. */
export function ListPrices(props: { readonly prices: Prices; readonly taxes: ShopPage['taxes'] }): ReactNode {
  const t = useText();
  return (
    <>
      <Head level={3} title={t('shop.listPrices')} />
      <PriceTable prices={props.prices} />
      <NewPrice {...props} />
      <p className="t1 dusty">{t('shop.listNote')}</p>
    </>
  );
}

function PriceTable(props: { readonly prices: Prices }): ReactNode {
  const t = useText();
  const manner = useManner();
  if (props.prices.length === 0) return <p className="t1 quiet">{t('shop.noListPrices')}</p>;
  const what = (row: Prices[number]): string => {
    if (row.level === '') return row.name;
    const panel = row.panel === '' ? t('shop.listEvery') : panelName(manner.locale, row.panel);
    return `${t(`word.level.${row.level}`)}, ${panel}`;
  };
  return (
    <Table
      label={t('shop.listPrices')}
      rows={props.prices}
      rowKey={(row) => row.id}
      columns={[
        {
          key: 'what',
          head: t('shop.for'),
          cell: (row) => (
            <span className={`cut ${css['listWhat']}`} title={what(row)}>
              {what(row)}
              <ThingSaid row={row} />
            </span>
          ),
        },
        {
          key: 'price',
          head: t('shop.listPrice'),
          align: 'right',
          cell: (row) => (row.priceMinor === null ? t('shop.packageGone') : money(manner, row.priceMinor)),
        },
        { key: 'from', head: t('shop.from'), cell: (row) => date(manner, row.fromDay) },
        { key: 'now', head: t('shop.holdsHead'), cell: (row) => (row.holds ? t('shop.holds') : '') },
      ]}
    />
  );
}

const EMPTY: Draft = {
  ...({ kind: 'item', name: '', level: 'oneStage', panel: '' } as const),
  ...{ priceMinor: null, fromDay: null, more: {} },
};

function sentOf({ kind, name, level, panel, priceMinor, fromDay, more }: Draft) {
  const rest = { priceMinor, ...(fromDay ? { fromDay } : {}) };
  const { tax, stock } = more;
  const from = stock === undefined ? {} : { stock: stock && { ...stock, amount: stock.amount ?? 0 } };
  if (kind === 'item') return { kind, name, ...(tax ? { tax } : {}), ...from, ...rest };
  return { kind, level, ...(panel === '' ? {} : { panel }), ...rest };
}

function NewPrice(props: { readonly prices: Prices; readonly taxes: ShopPage['taxes'] }): ReactNode {
  const t = useText();
  const isOwner = useMay('owner');
  const set = useCommand('shop.setListPrice');
  const [draft, setDraft] = useState(EMPTY);
  const put = (part: Partial<Draft>): void => setDraft({ ...draft, ...part });
  const { ends, lacks } = listLacks(t, props.prices, draft);
  async function add(): Promise<void> {
    const done = await set.run(sentOf(draft));
    if (done.ok) put({ name: '', priceMinor: null, more: {} });
  }
  return (
    <>
      <Segmented
        label={t('shop.listKind')}
        value={draft.kind}
        onChange={(kind) => put({ kind })}
        options={LIST_PRICE_KINDS.map((value) => ({ value, label: t(`shop.listKind.${value}`) }))}
      />
      {draft.kind === 'item' ? (
        <>
          <TextField
            label={t('shop.listName')}
            value={draft.name}
            onChange={(name) => put({ name })}
            maxLength={60}
          />
          <ThingFields
            standing={standingThing(props.prices, draft.name)}
            taxes={[...new Set(props.taxes.filter((tax) => tax.holds).map((tax) => tax.code))]}
            value={draft.more}
            onChange={(more) => put({ more })}
          />
        </>
      ) : (
        <PanelFields draft={draft} put={put} t={t} />
      )}
      <MoneyField
        label={t('shop.listPrice')}
        note={t('shop.listPriceNote')}
        min={1}
        value={draft.priceMinor}
        onChange={(priceMinor) => put({ priceMinor })}
      />
      <DayField label={t('shop.from')} value={draft.fromDay} onChange={(fromDay) => put({ fromDay })} />
      <Refusal refusal={set.refusal} />
      <Row>
        <Button
          kind="go"
          busy={set.busy}
          why={isOwner ? lacks : t('shop.onlyOwner')}
          onPress={() => void add()}
        >
          {t(ends ? 'shop.endListPrice' : 'shop.addListPrice')}
        </Button>
      </Row>
    </>
  );
}

function PanelFields(props: {
  readonly draft: Draft;
  readonly put: (part: Partial<Draft>) => void;
  readonly t: Say;
}): ReactNode {
  const manner = useManner();
  const { draft, put, t } = props;
  const every = { value: 'every', label: t('shop.listEvery') } as const;
  const panels = PANELS.map((value) => ({ value, label: panelName(manner.locale, value) }));
  return (
    <>
      <Select
        label={t('shop.listLevel')}
        options={PRICED_LEVELS.map((value) => ({ value, label: t(`word.level.${value}`) }))}
        value={draft.level}
        onChange={(level) => put({ level })}
      />
      <Select<PanelId | 'every'>
        label={t('shop.listPanel')}
        options={[every, ...panels]}
        value={draft.panel === '' ? 'every' : draft.panel}
        onChange={(panel) => put({ panel: panel === 'every' ? '' : panel })}
      />
    </>
  );
}
