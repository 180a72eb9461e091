import type { ReactNode } from 'react';
import { money, range } from '#core/shared/text/format.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { MoneyDesk } from '#core/shared/views/moneyDesk.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Head, Stack } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { go } from '../../ui/router.ts';
import { Empty, Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';
import { Collectives } from './CollectiveScreen.tsx';
import { Two } from './Two.tsx';
import { endedDeposits } from './useMoneyNeeds.ts';

type Props = { readonly desk: MoneyDesk };

/** What waits for somebody: work to bill, reminders, drafts, quotes without an answer. */
export function MoneyNeeds(props: Props): ReactNode {
  const t = useText();
  const { toBill, payBack, reminders, drafts, quotes } = props.desk;
  const ended = endedDeposits(props.desk);
  const waiting = [toBill, payBack, ended, reminders, drafts, quotes];
  if (waiting.every((list) => list.length === 0)) return <Empty title={t('money.noNeeds')} />;
  return (
    <Stack gap={3}>
      {toBill.length > 0 ? <ToBillList desk={props.desk} /> : null}
      {payBack.length > 0 ? <PayBackList rows={payBack} /> : null}
      {ended.length > 0 ? <EndedDeposits rows={ended} /> : null}
      {reminders.length > 0 ? <ReminderList desk={props.desk} /> : null}
      {drafts.length > 0 ? <DraftList desk={props.desk} /> : null}
      {quotes.length > 0 ? <QuoteList desk={props.desk} /> : null}
    </Stack>
  );
}

function ToBillList(props: Props): ReactNode {
  const t = useText();
  const manner = useManner();
  const draft = useCommand('billing.draftInvoice');
  async function bill(jobId: string): Promise<void> {
    const made = await draft.run({ jobId });
    if (made.ok) go(`/money/${made.value.invoiceId}`);
  }
  return (
    <section>
      <Head level={3} title={t('money.toBill')} note={String(props.desk.toBill.length)} />
      <Refusal refusal={draft.refusal} />
      <List label={t('money.toBill')}>
        {props.desk.toBill.map((job) => (
          <Item key={job.jobId} lit>
            <Two
              main={job.customer}
              under={t('money.toBillLine', { job: job.jobNumber, vehicle: job.makeModel })}
            />
            <span className={css['end']}>
              <div>{job.agreedMinor === null ? t('money.byTime') : money(manner, job.agreedMinor)}</div>
              {job.partlyMinor === null ? null : (
                <div className="t1 dusty">
                  {t('money.toBillRest', { amount: money(manner, job.partlyMinor) })}
                </div>
              )}
              <LinkButton quiet onPress={() => void bill(job.jobId)}>
                {t('money.bill')}
              </LinkButton>
            </span>
          </Item>
        ))}
      </List>
      <Collectives jobs={props.desk.toBill} />
    </section>
  );
}

function PayBackList(props: { readonly rows: MoneyDesk['open'] }): ReactNode {
  const t = useText();
  const manner = useManner();
  return (
    <section>
      <Head level={3} title={t('money.payBack')} note={String(props.rows.length)} />
      <List label={t('money.payBack')}>
        {props.rows.map((row) => (
          <Item key={row.id} lit onPress={() => go(`/money/${row.id}`)}>
            <Two
              opens
              main={row.customer}
              under={t('money.payBackLine', { kind: t(`money.kind.${row.kind}`), number: row.number ?? 0 })}
            />
            <span className={css['end']}>{money(manner, -row.owedMinor)}</span>
          </Item>
        ))}
      </List>
    </section>
  );
}

function EndedDeposits(props: { readonly rows: MoneyDesk['deposits'] }): ReactNode {
  const t = useText();
  const manner = useManner();
  return (
    <section>
      <Head level={3} title={t('money.endedDeposits')} note={String(props.rows.length)} />
      <List label={t('money.endedDeposits')}>
        {props.rows.map((row) => (
          <Item key={row.jobId} lit onPress={() => go(`/jobs/${row.jobId}/quote`)}>
            <Two opens main={row.customer} under={t('money.endedDepositLine', { job: row.jobNumber })} />
            <span className={css['end']}>{money(manner, row.heldMinor)}</span>
          </Item>
        ))}
      </List>
    </section>
  );
}

function ReminderList(props: Props): ReactNode {
  const t = useText();
  const manner = useManner();
  const remind = useCommand('billing.remindInvoice');
  const letter = useDocument('billing.reminderFile');
  return (
    <section>
      <Head level={3} title={t('money.reminders')} note={String(props.desk.reminders.length)} />
      <Refusal refusal={remind.refusal ?? letter.refusal} />
      <List label={t('money.reminders')}>
        {props.desk.reminders.map((due) => (
          <Item key={due.invoiceId} lit>
            <Two
              main={<LinkTo to={`/money/${due.invoiceId}`}>{due.customer}</LinkTo>}
              under={t('money.reminderLine', { number: due.number, days: due.overdueDays })}
            />
            <span className={css['end']}>
              <div>
                <span className="t1 dusty">{t('money.reminderLevel', { level: due.level })}</span>{' '}
                {money(manner, due.owedMinor)}
              </div>
              <LinkButton
                quiet
                onPress={() => void letter.open({ invoiceId: due.invoiceId, level: due.level })}
              >
                {t('money.remind')}
              </LinkButton>{' '}
              <LinkButton
                quiet
                onPress={() => void remind.run({ invoiceId: due.invoiceId, level: due.level })}
              >
                {t('money.reminded')}
              </LinkButton>
            </span>
          </Item>
        ))}
      </List>
    </section>
  );
}

function DraftList(props: Props): ReactNode {
  const t = useText();
  const manner = useManner();
  return (
    <section>
      <Head level={3} title={t('money.drafts')} note={String(props.desk.drafts.length)} />
      <List label={t('money.drafts')}>
        {props.desk.drafts.map((row) => (
          <Item key={row.id} lit onPress={() => go(`/money/${row.id}`)}>
            <Two opens main={row.customer} under={row.makeModel} />
            <span className={css['end']}>{money(manner, row.toPayMinor)}</span>
          </Item>
        ))}
      </List>
    </section>
  );
}

function QuoteList(props: Props): ReactNode {
  const t = useText();
  const manner = useManner();
  return (
    <section>
      <Head level={3} title={t('money.quotes')} note={String(props.desk.quotes.length)} />
      <List label={t('money.quotes')}>
        {props.desk.quotes.map((quote) => {
          const day = dayText(manner, quote.validUntilDay);
          const { number, version } = quote;
          return (
            <Item key={quote.quoteId} lit={quote.lapsed} onPress={() => go(`/jobs/${quote.jobId}/quote`)}>
              <Two
                opens
                main={quote.customer}
                under={
                  quote.lapsed
                    ? t('money.quoteLapsed', { day })
                    : t('money.quoteLine', { number, version, day })
                }
              />
              <span className={css['end']}>
                {range(money(manner, quote.lowMinor), money(manner, quote.highMinor))}
              </span>
            </Item>
          );
        })}
      </List>
    </section>
  );
}
