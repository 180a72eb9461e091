import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import type { MoneyDesk } from '#core/shared/views/moneyDesk.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import css from './billing.module.css';
import { RefundForm } from './RefundForm.tsx';
import { TipsHeld } from './TipsHeld.tsx';

/** The calm facts: money of today by way, deposits and credits held. */
export function MoneyFacts(props: { readonly desk: MoneyDesk }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { desk } = props;
  const deposits = useFirst(desk.deposits);
  return (
    <div className={css['facts']}>
      <div>
        <Head level={3} title={t('money.takings')} note={money(manner, desk.takingsMinor)}>
          <LinkTo to="/money/till" quiet>
            {t('till.link')}
          </LinkTo>
        </Head>
        {desk.takings.length === 0 ? <p className="quiet">{t('money.noTakings')}</p> : null}
        <List label={t('money.takings')}>
          {desk.takings.map((row) => (
            <Item key={row.way}>
              <span className={css['grow']}>{t(`invoice.way.${row.way}`)}</span>
              <span className={css['end']}>{money(manner, row.amountMinor)}</span>
            </Item>
          ))}
        </List>
        <TipsHeld desk={desk} />
      </div>
      <div>
        <Head level={3} title={t('money.deposits')} note={money(manner, desk.depositsMinor)} />
        {desk.deposits.length === 0 ? <p className="quiet">{t('money.noDeposits')}</p> : null}
        <List label={t('money.deposits')}>
          {deposits.shown.map((row) => (
            <Item key={row.jobId}>
              <span className={`${css['grow']} cut`}>
                <LinkTo to={`/jobs/${row.jobId}/quote`}>{row.customer}</LinkTo>
              </span>
              <span className={css['end']}>{money(manner, row.heldMinor)}</span>
            </Item>
          ))}
        </List>
        {deposits.rest}
      </div>
      <Credits desk={desk} />
    </div>
  );
}

const FEW = 4;

/** The first rows of a list, and the way to the rest of it and back. */
function useFirst<T>(rows: readonly T[]): { readonly shown: readonly T[]; readonly rest: ReactNode } {
  const t = useText();
  const [all, setAll] = useState(false);
  if (rows.length <= FEW) return { shown: rows, rest: null };
  const word = all ? t('money.fewer') : t('money.more', { count: rows.length - FEW });
  const rest = (
    <LinkButton quiet onPress={() => setAll(!all)}>
      {word}
    </LinkButton>
  );
  return { shown: all ? rows : rows.slice(0, FEW), rest };
}

function Credits(props: { readonly desk: MoneyDesk }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { credits, creditsMinor, vouchersMinor, vouchersOverMinor } = props.desk;
  const [asked, setAsked] = useState<string | null>(null);
  const { shown, rest } = useFirst(credits);
  const back = credits.find((row) => row.customerId === asked);
  return (
    <div>
      <Head level={3} title={t('money.credits')} note={money(manner, creditsMinor)} />
      {credits.length === 0 ? <p className="quiet">{t('money.noCredits')}</p> : null}
      <List label={t('money.credits')}>
        {shown.map((row) => (
          <Item key={row.customerId}>
            <span className={`${css['grow']} cut`}>
              <LinkTo to={`/customers/${row.customerId}`}>{row.customer}</LinkTo>
            </span>
            <span className={css['end']}>
              {money(manner, row.heldMinor)}{' '}
              <LinkButton quiet onPress={() => setAsked(row.customerId)}>
                {t('money.payCreditBack')}
              </LinkButton>
            </span>
          </Item>
        ))}
      </List>
      {rest}
      {back ? (
        <RefundForm
          key={back.customerId}
          from="credit"
          id={back.customerId}
          amountMinor={back.heldMinor}
          cashMinor={back.cashMinor}
        />
      ) : null}
      <Head level={3} title={t('voucher.title')} note={money(manner, vouchersMinor)}>
        <LinkTo to="/money/vouchers" quiet>
          {t('voucher.link')}
        </LinkTo>
      </Head>
      {vouchersOverMinor > 0 ? (
        <p className="t1 quiet">{t('voucher.overPart', { amount: money(manner, vouchersOverMinor) })}</p>
      ) : null}
    </div>
  );
}
