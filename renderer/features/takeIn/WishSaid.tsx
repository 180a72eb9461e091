import type { ReactNode } from 'react';
import { hours, money } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { dayTimeFrom } from '#core/shared/text/when.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Stack } from '../../ui/Layout.tsx';
import css from './takeIn.module.css';
import type { WishDraft } from './wish.ts';

/** What they want, once dates are booked: said in short. */
export function WishSaid(props: { readonly wish: WishDraft }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { wish } = props;
  const { ceiling } = wish;
  const facts: readonly (readonly [string, string])[] = [
    [t('takeIn.far'), t(`word.wish.${wish.far}`)],
    [t('takeIn.condition'), t(`takeIn.condition.${wish.condition}`)],
    [t('takeIn.protection'), t(`estimate.protection.${wish.protection}`)],
    ...(ceiling === null
      ? []
      : ceiling.kind === 'money'
        ? [[t('takeIn.ceilingMoney'), money(manner, ceiling.value)] as const]
        : [[t('takeIn.ceilingHours'), amountText(hours(manner, ceiling.value))] as const]),
    ...(wish.backByMs === null
      ? []
      : [[t('takeIn.backBy'), dayTimeFrom(manner, wish.backByMs, Date.now())] as const]),
  ];
  return (
    <Stack gap={1}>
      {wish.words ? <p>“{wish.words}”</p> : null}
      <dl className={css['said']}>
        {facts.map(([label, value]) => (
          <div key={label}>
            <dt className="quiet">{label}</dt>
            <dd className="num">{value}</dd>
          </div>
        ))}
      </dl>
      {wish.interior ? <p>{t('takeIn.interior')}</p> : null}
      {wish.lookFirst ? <p>{t('takeIn.lookFirst')}</p> : null}
      <p className="t1 dusty">{t('takeIn.isBooked')}</p>
    </Stack>
  );
}
