import { type ReactNode, useState } from 'react';
import type { CustomerHit } from '#core/shared/views/people.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Item, List } from '../../ui/List.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';

/** All that is needed of a customer here. */
export type Buyer = Pick<CustomerHit, 'id' | 'name'>;

const FOUND = 5;

/** Who buys: found by name or phone, or added by the name alone. */
export function VoucherBuyer(props: {
  readonly buyer: Buyer | null;
  /** What holds where nobody is chosen. */
  readonly hint: string;
  readonly onChange: (buyer: Buyer | null) => void;
}): ReactNode {
  const t = useText();
  const [text, setText] = useState('');
  const hits = useQuery('people.findCustomers', { text, limit: FOUND }, { when: text !== '', keep: true });
  const add = useCommand('people.addCustomer');
  const { buyer } = props;
  const name = text.trim();
  function change(to: string): void {
    setText(to);
    props.onChange(null);
  }
  function choose(hit: Buyer): void {
    setText('');
    props.onChange(hit);
  }
  async function addNew(): Promise<void> {
    const added = await add.run({ name });
    if (added.ok) choose({ id: added.value.id, name });
  }
  return (
    <div>
      <TextField
        label={t('voucher.buyer')}
        kind="search"
        value={buyer ? buyer.name : text}
        onChange={change}
        maxLength={120}
        hint={buyer || name !== '' ? undefined : props.hint}
      />
      {text === '' || !hits.data ? null : (
        <List label={t('voucher.buyer')}>
          {hits.data.map((hit) => (
            <Item key={hit.id}>
              <span className={css['grow']}>
                <LinkButton onPress={() => choose(hit)}>{hit.name}</LinkButton>
              </span>
              <span className="t1 dusty num">{hit.phone}</span>
            </Item>
          ))}
        </List>
      )}
      <Refusal refusal={add.refusal} />
      {name === '' || !hits.data ? null : (
        <LinkButton onPress={() => void addNew()}>{t('voucher.addBuyer', { name })}</LinkButton>
      )}
    </div>
  );
}
