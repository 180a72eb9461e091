import { type ReactNode, useState } from 'react';
import { amountOf } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { MissingMaterial, StockBoard } from '#core/shared/views/stock.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Head, Stack } from '../../ui/Layout.tsx';

const SHOWN = 4;

/** Materials that stages ask for or used while no item is kept of them: what is needed first comes first. */
export function Missing(props: { readonly board: StockBoard }): ReactNode {
  const t = useText();
  const [all, setAll] = useState(false);
  const { missing, today } = props.board;
  if (missing.length === 0) return null;
  return (
    <section aria-label={t('stock.ui.missing')}>
      <Head level={3} title={t('stock.ui.missing')} />
      <Stack gap={1}>
        <p className="t1 quiet">{t('stock.ui.missingNote', { n: missing.length })}</p>
        {missing.slice(0, all ? missing.length : SHOWN).map((m) => (
          <Line key={m.material} of={m} today={today} />
        ))}
        {!all && missing.length > SHOWN ? (
          <LinkButton quiet onPress={() => setAll(true)}>
            {t('stock.ui.missingAll', { n: missing.length })}
          </LinkButton>
        ) : null}
      </Stack>
    </section>
  );
}

function Line(props: { readonly of: MissingMaterial; readonly today: StockBoard['today'] }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { of, today } = props;
  const material = t(`word.material.${of.material}`);
  const amount = (value: number): string => amountText(amountOf(manner, of.unit, value));
  return (
    <p data-missing={of.material}>
      <b>{material}</b>{' '}
      <span className="quiet">
        {t('stock.ui.missingLine', {
          jobs: of.jobs,
          booked: amount(of.booked),
          day: dayText(manner, of.firstDay ?? today),
          used: amount(of.used),
          usedSome: of.used > 0 ? 'yes' : 'no',
        })}
      </span>{' '}
      <LinkTo
        quiet
        to={`/stock/new?material=${of.material}`}
        label={t('stock.ui.missingAddLabel', { material })}
      >
        {t('stock.ui.missingAdd')}
      </LinkTo>
    </p>
  );
}
