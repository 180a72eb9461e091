import { type ReactNode, useState } from 'react';
import type { CustomerId } from '#core/shared/ids.ts';
import { money } from '#core/shared/text/format.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { CustomerPage, CustomerView } from '#core/shared/views/people.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Confirm } from '../../ui/Acts.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { Column, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { go } from '../../ui/router.ts';
import { CalmNote, Empty, Refusal, Waiting } from '../../ui/States.tsx';
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
        {customer.erased ? (
          <CalmNote text={t('people.erased')} />
        ) : (
          <CustomerForm key={customer.revision} customer={customer} />
        )}
      </Column>
      <Column divided label={t('people.visits')}>
        <Head title={t('people.vehicles')}>
          <LinkTo to="/take-in">{t('people.takeCall')}</LinkTo>
        </Head>
        {vehicles.length === 0 ? (
          <Empty title={t('people.noVehicles')} text={t('people.noVehiclesText')} />
        ) : (
          <List label={t('people.vehicles')}>
            {vehicles.map((v) => (
              <Item key={v.id} onPress={() => go(`/vehicles/${v.id}`)}>
                <span className={css['mini']}>
                  <FlatCar size="mini" body={v.body} label={t(`word.body.${v.body}`)} />
                </span>
                <b className="cut">{v.makeModel || t(`word.body.${v.body}`)}</b>
                <span className="quiet cut">{[v.colour, v.year, v.plate].filter(Boolean).join(', ')}</span>
              </Item>
            ))}
          </List>
        )}
        <Head title={t('people.visits')} />
        <VisitTable jobs={jobs} who="customer" />
      </Column>
    </Place>
  );
}

function Owed(props: { readonly page: CustomerPage }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { owedMinor, openInvoices, oldestDueDay } = props.page.money;
  return (
    <p>
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
    </p>
  );
}

function CustomerForm(props: { readonly customer: CustomerView }): ReactNode {
  const t = useText();
  const {
    id: customerId,
    revision,
    kind,
    name,
    phone,
    email,
    address,
    taxNumber,
    termsDays,
    note,
  } = props.customer;
  const [draft, setDraft] = useState({ kind, name, phone, email, address, taxNumber, termsDays, note });
  const change = useCommand('people.changeCustomer');
  const put = (part: Partial<typeof draft>): void => setDraft({ ...draft, ...part });
  return (
    <Stack gap={1}>
      <TextField label={t('people.name')} value={draft.name} onChange={(v) => put({ name: v })} />
      <Segmented
        bare
        label={t('people.kind')}
        value={draft.kind}
        options={[
          { value: 'person', label: t('people.kind.person') },
          { value: 'firm', label: t('people.kind.firm') },
        ]}
        onChange={(v) => put({ kind: v })}
      />
      <TextField
        kind="tel"
        label={t('people.phone')}
        value={draft.phone}
        onChange={(v) => put({ phone: v })}
      />
      <TextField
        kind="email"
        label={t('people.email')}
        value={draft.email}
        onChange={(v) => put({ email: v })}
      />
      <TextField
        lines={3}
        label={t('people.address')}
        value={draft.address}
        onChange={(v) => put({ address: v })}
      />
      <div className={css['two']}>
        <TextField
          label={t('people.taxNumber')}
          value={draft.taxNumber}
          onChange={(v) => put({ taxNumber: v })}
        />
        <NumberField
          label={t('people.termsDays')}
          min={0}
          max={365}
          value={draft.termsDays}
          onChange={(v) => put({ termsDays: v ?? 0 })}
        />
      </div>
      <TextField lines={2} label={t('people.note')} value={draft.note} onChange={(v) => put({ note: v })} />
      <Refusal refusal={change.refusal} />
      <Row>
        <Button
          kind="go"
          busy={change.busy}
          onPress={() => void change.run({ customerId, revision, ...draft })}
        >
          {t('people.save')}
        </Button>
        <Erase customer={props.customer} />
      </Row>
    </Stack>
  );
}

function Erase(props: { readonly customer: CustomerView }): ReactNode {
  const t = useText();
  const isOwner = useMay('owner');
  const [asked, setAsked] = useState(false);
  const erase = useCommand('people.eraseCustomer');
  const { id: customerId, revision, name } = props.customer;
  if (!isOwner) return null;
  if (!asked) return <LinkButton onPress={() => setAsked(true)}>{t('people.erase')}</LinkButton>;
  return (
    <>
      <Confirm
        title={t('people.eraseAsk', { name })}
        text={t('people.eraseText')}
        yes={t('people.eraseYes')}
        no={t('people.eraseNo')}
        busy={erase.busy}
        onYes={() => void erase.run({ customerId, revision })}
        onNo={() => setAsked(false)}
      />
      <Refusal refusal={erase.refusal} />
    </>
  );
}
