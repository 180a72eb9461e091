import { type ReactNode, useState } from 'react';
import { amountOf } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { MissingMaterial, StockBoard } from '#core/shared/views/stock.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Head, Stack } from '../../ui/Layout.tsx';
import { Uses } from './Uses.tsx';

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
        <p className="t1 quiet">{t('stock.ui.missingNote', { n: missing.filter((m) => !m.kept).length })}</p>
        {missing.slice(0, all ? missing.length : SHOWN).map((m) => (
          <Line key={m.material} of={m} today={today} items={props.board.items} />
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

function Line(props: {
  readonly of: MissingMaterial;
  readonly today: StockBoard['today'];
  readonly items: StockBoard['items'];
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const [open, setOpen] = useState(false);
  const { of, today } = props;
  const material = t(`word.material.${of.material}`);
  const amount = (value: number): string => amountText(amountOf(manner, of.unit, value));
  return (
    <div data-missing={of.material}>
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
      {of.kept ? null : (
        <LinkTo
          quiet
          to={`/stock/new?material=${of.material}`}
          label={t('stock.ui.missingAddLabel', { material })}
        >
          {t('stock.ui.missingAdd')}
        </LinkTo>
      )}{' '}
      {of.used > 0 && !open ? (
        <LinkButton quiet label={t('stock.ui.usesLabel', { material })} onPress={() => setOpen(true)}>
          {t('stock.ui.useSettle')}
        </LinkButton>
      ) : null}
      {open && of.used > 0 ? (
        <Uses material={of.material} items={props.items} onDone={() => setOpen(false)} />
      ) : null}
    </div>
  );
}
