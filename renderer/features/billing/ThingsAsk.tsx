import type { ReactNode } from 'react';
import type { ListPriceRow } from '#core/shared/listPrices.ts';
import { money, moneyPlain } from '#core/shared/text/format.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import type { EstimateView } from '#core/shared/views/estimate.ts';
import type { ShopPage } from '#core/shared/views/shop.ts';
import { useQuery } from '../../bridge/queries.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Check } from '../../ui/Choice.tsx';
import { Row } from '../../ui/Layout.tsx';
import { MoneyField, NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import css from './things.module.css';
import { heldPrice, offeredThings, type ThingAsked, withOneMore } from './thingsAsked.ts';

type Props = {
  readonly estimates: readonly Pick<EstimateView, 'id' | 'version'>[];
  readonly value: readonly ThingAsked[];
  readonly onChange: (things: readonly ThingAsked[]) => void;
};

/** Things of the price list beside the work: chosen from a list, how many, and which options they go with. */
export function ThingsAsk(props: Props): ReactNode {
  const t = useText();
  const manner = useManner();
  const page = useQuery('shop.page', {}).data;
  const name = useThingName();
  if (!page) return null;
  const offered = offeredThings(page.listPrices);
  const { value, estimates, onChange } = props;
  if (offered.length === 0 && value.length === 0) return null;
  const ids = estimates.map((e) => e.id);
  const panels = value.some(({ priceId }) => heldPrice(page.listPrices, priceId)?.kind === 'panel');
  return (
    <section className={css['things']}>
      <Select
        label={t('quote.things')}
        placeholder={t('quote.addThing')}
        options={offered.map((row) => ({
          value: row.id,
          label: name(row),
          note: money(manner, row.priceMinor),
        }))}
        value={null}
        onChange={(priceId) => onChange(withOneMore(value, priceId, ids))}
      />
      {value.map((thing) => (
        <ThingLine
          key={thing.key}
          thing={thing}
          prices={page.listPrices}
          estimates={estimates}
          onChange={(to) => onChange(value.map((one) => (one.key === to.key ? to : one)))}
          onTakeOut={() => onChange(value.filter((one) => one.key !== thing.key))}
        />
      ))}
      {panels ? <p className="t1 dusty">{t('quote.thingPanel')}</p> : null}
    </section>
  );
}

/** What a thing is called on the screen: a panel by what is done to it. */
function useThingName(): (row: Pick<ListPriceRow, 'name' | 'level' | 'panel'>) => string {
  const t: Say = useText();
  const { locale } = useManner();
  return ({ name, level, panel }) => {
    if (level === '') return name;
    const text = t('billing.onePanelLine', {
      level: t(`word.level.${level}`),
      panel: panel === '' ? 'every' : panelName(locale, panel),
    });
    return text.charAt(0).toLocaleUpperCase(locale) + text.slice(1);
  };
}

type LineProps = {
  readonly thing: ThingAsked;
  readonly prices: ShopPage['listPrices'];
  readonly estimates: Props['estimates'];
  readonly onChange: (thing: ThingAsked) => void;
  readonly onTakeOut: () => void;
};

/** One thing: what it comes to, how many, what comes off, and the options that it goes with where there are several. */
function ThingLine(props: LineProps): ReactNode {
  const t = useText();
  const manner = useManner();
  const { thing, prices, onChange } = props;
  const price = heldPrice(prices, thing.priceId);
  const named = price ?? prices.find((row) => row.id === thing.priceId);
  const name = useThingName()(named ?? { name: '', level: '', panel: '' });
  const comesTo = (price?.priceMinor ?? 0) * (thing.pieces ?? 0) - (thing.discountMinor ?? 0);
  return (
    <fieldset className={css['thing']}>
      <legend className="unseen">{name}</legend>
      <div className={css['head']}>
        <span className="cut" title={name}>
          {name}
        </span>
        <span className={price ? 'num' : 'quiet'}>
          {price ? moneyPlain(manner, comesTo) : t('quote.thingGone')}
        </span>
      </div>
      <div className={css['figures']}>
        <NumberField
          label={t('goods.quantity')}
          value={thing.pieces}
          onChange={(pieces) => onChange({ ...thing, pieces })}
          min={1}
          error={thing.pieces === null ? t('quote.thingMany') : undefined}
        />
        <MoneyField
          label={t('quote.thingDiscount')}
          value={thing.discountMinor}
          onChange={(discountMinor) => onChange({ ...thing, discountMinor })}
          min={0}
        />
        <LinkButton quiet label={t('quote.withoutThing', { name })} onPress={props.onTakeOut}>
          {t('quote.without')}
        </LinkButton>
      </div>
      {props.estimates.length > 1 ? <GoesWith {...props} /> : null}
    </fieldset>
  );
}

/** The options that a thing goes with. */
function GoesWith({ thing, estimates, onChange }: LineProps): ReactNode {
  const t = useText();
  return (
    <Row>
      {estimates.map(({ id, version }) => {
        const others = thing.notIn.filter((one) => one !== id);
        return (
          <Check
            key={id}
            label={t('quote.thingWith', { version })}
            value={!thing.notIn.includes(id)}
            onChange={(on) => onChange({ ...thing, notIn: on ? others : [...others, id] })}
          />
        );
      })}
    </Row>
  );
}
