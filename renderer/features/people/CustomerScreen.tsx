import type { ReactNode } from 'react';
import type { CustomerId } from '#core/shared/ids.ts';
import { money } from '#core/shared/text/format.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { CustomerPage } from '#core/shared/views/people.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { Column, Head, Place } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { go } from '../../ui/router.ts';
import { CalmNote, Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { CustomerForm } from './CustomerForm.tsx';
import css from './people.module.css';
import { VisitTable } from './VisitTable.tsx';

/** A customer: details, vehicles, visits, money owed. */
export function CustomerScreen(props: { readonly params: Readonly<Record<string, string>> }): ReactNode {
  const t = useText();
  const customerId = props.params['customerId'] as CustomerId;
  const page = useQuery('people.customerPage', { customerId });
  if (!page.data)
    return (
      <Place label={t('people.customer')}>
        {page.error ? <Refusal refusal={page.error} /> : <Waiting />}
      </Place>
    );
  const { customer, vehicles, jobs } = page.data;
  return (
    <Place label={customer.name} columns="left">
      <Column label={t('people.customer')}>
        <Head title={<span className="cut">{customer.name}</span>} note={t(`people.kind.${customer.kind}`)} />
        <Owed page={page.data} />
        <p className={css['ways']}>
          <LinkTo to={`/customers/${customerId}/statement`}>{t('statement.link')}</LinkTo>
          {customer.erased ? null : <LinkTo to={`/customers/${customerId}/goods`}>{t('goods.title')}</LinkTo>}
        </p>
        {customer.erased ? (
          <CalmNote text={t('people.erased')} />
        ) : (
          <CustomerForm key={customer.id} customer={customer} />
        )}
      </Column>
      <Column divided label={t('people.visits')}>
        <Head title={t('people.vehicles')}>
          <LinkTo to="/take-in?next">{t('people.takeCall')}</LinkTo>
        </Head>
        <Vehicles vehicles={vehicles} />
        <Head title={t('people.visits')} />
        <VisitTable jobs={jobs} who="customer" />
      </Column>
    </Place>
  );
}

function Vehicles(props: { readonly vehicles: CustomerPage['vehicles'] }): ReactNode {
  const t = useText();
  if (props.vehicles.length === 0)
    return <Empty title={t('people.noVehicles')} text={t('people.noVehiclesText')} />;
  return (
    <List label={t('people.vehicles')}>
      {props.vehicles.map((v) => (
        <Item key={v.id} onPress={() => go(`/vehicles/${v.id}`)}>
          <span className={css['mini']}>
            <FlatCar size="mini" body={v.body} label={t(`word.body.${v.body}`)} />
          </span>
          <b className="cut opens">{v.makeModel || t(`word.body.${v.body}`)}</b>
          <span className="quiet cut">{[v.colour, v.year, v.plate].filter(Boolean).join(', ')}</span>
        </Item>
      ))}
    </List>
  );
}

function Owed(props: { readonly page: CustomerPage }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { owedMinor, openInvoices, oldestDueDay, heldMinor } = props.page.money;
  return (
    <p className={css['owed']}>
      {openInvoices > 0 ? (
        <>
          <b className={owedMinor > 0 ? 'lamp num' : 'num'}>{money(manner, owedMinor)}</b> {t(
            'people.owed',
          )}{' '}
        </>
      ) : null}
      <span className="quiet">{t('people.owedText', { count: openInvoices })}</span>
      {oldestDueDay && owedMinor > 0 ? (
        <span className="quiet"> · {t('people.due', { day: dayText(manner, oldestDueDay) })}</span>
      ) : null}
      {heldMinor > 0 ? (
        <span className="quiet"> · {t('people.held', { amount: money(manner, heldMinor) })}</span>
      ) : null}
    </p>
  );
}
