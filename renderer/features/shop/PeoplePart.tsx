import { type ReactNode, useState } from 'react';
import { MOST_LETTERS } from '#core/shared/letters.ts';
import type { Role } from '#core/shared/roles.ts';
import { inOrder } from '#core/shared/text/inOrder.ts';
import { date } from '#core/shared/text/when.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { Refusal } from '../../ui/States.tsx';
import { OnePerson, RoleChoice } from './OnePerson.tsx';
import css from './shop.module.css';

/** Who works here, who did; names, roles, PINs, last days. */
export function PeoplePart(): ReactNode {
  const t = useText();
  const manner = useManner();
  const people = useQuery('access.people', {});
  const [chosen, setChosen] = useState<string | null>(null);
  const person = people.data?.find((p) => p.id === chosen);
  return (
    <div className={css['form']}>
      <Refusal refusal={people.error} />
      <List label={t('shop.part.people')}>
        {inOrder(manner.region, people.data ?? []).map((p) => (
          <Item
            key={p.id}
            selected={p.id === chosen}
            onPress={() => setChosen(p.id === chosen ? null : p.id)}
          >
            <span className={css['step']}>
              <b className="cut">{p.name}</b>
              <span className="t1 quiet">
                {[
                  t(`word.role.${p.role}`),
                  p.hasPin ? t('shop.hasPin') : t('shop.noPin'),
                  t('shop.since', { day: date(manner, p.startedDay) }),
                  p.endedDay ? t('shop.until', { day: date(manner, p.endedDay) }) : '',
                ]
                  .filter(Boolean)
                  .join(' · ')}
              </span>
            </span>
          </Item>
        ))}
      </List>
      {person ? <OnePerson key={person.id} person={person} /> : <NewPerson />}
    </div>
  );
}

function NewPerson(): ReactNode {
  const t = useText();
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const [name, setName] = useState('');
  const [role, setRole] = useState<Role>('technician');
  const add = useCommand('access.addPerson');
  async function put(): Promise<void> {
    const done = await add.run({ name, role });
    if (done.ok) setName('');
  }
  return (
    <Stack>
      <Head level={3} title={t('shop.newPerson')} />
      <TextField
        label={t('shop.person')}
        value={name}
        maxLength={MOST_LETTERS.name}
        onChange={setName}
        off={off}
      />
      <RoleChoice role={role} onChange={setRole} off={off} />
      <Refusal refusal={add.refusal} />
      <Row>
        <Button
          why={off ?? (name.trim() === '' ? t('shop.person') : undefined)}
          busy={add.busy}
          onPress={() => void put()}
        >
          {t('shop.addPerson')}
        </Button>
      </Row>
    </Stack>
  );
}
