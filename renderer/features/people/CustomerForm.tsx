import { type ReactNode, useState } from 'react';
import type { CustomerView } from '#core/shared/views/people.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Refusal } from '../../ui/States.tsx';
import { CustomerData } from './CustomerData.tsx';
import css from './people.module.css';

type Draft = Pick<
  CustomerView,
  'kind' | 'name' | 'phone' | 'email' | 'address' | 'taxNumber' | 'termsDays' | 'note'
>;
type Fields = { readonly draft: Draft; readonly put: (part: Partial<Draft>) => void };

/** What is known of a customer, to correct. */
export function CustomerForm(props: { readonly customer: CustomerView }): ReactNode {
  const t = useText();
  const { id: customerId, revision, ...known } = props.customer;
  const { kind, name, phone, email, address, taxNumber, termsDays, note } = known;
  const [draft, setDraft] = useState({ kind, name, phone, email, address, taxNumber, termsDays, note });
  const change = useCommand('people.changeCustomer');
  const put = (part: Partial<Draft>): void => setDraft({ ...draft, ...part });
  return (
    <Stack gap={1}>
      <Reached draft={draft} put={put} />
      <Billed draft={draft} put={put} />
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
      </Row>
      <CustomerData customer={props.customer} />
    </Stack>
  );
}

function Reached({ draft, put }: Fields): ReactNode {
  const t = useText();
  return (
    <>
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
    </>
  );
}

function Billed({ draft, put }: Fields): ReactNode {
  const t = useText();
  return (
    <>
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
    </>
  );
}
